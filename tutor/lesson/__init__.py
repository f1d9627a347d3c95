"""Lesson scripts: format, checker and player."""
