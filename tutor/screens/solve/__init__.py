"""Whole solves."""
