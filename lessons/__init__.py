"""Lesson scripts in TOML; data only."""
