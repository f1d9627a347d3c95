"""What Settings says; the rows and their values are in ``tutor.session.words``."""

from __future__ import annotations

NAME = "Settings"
LOOKS = "How the program looks"
WORKS = "How the program works"
KEYS_FILE = "You can change any key in the settings file, under [keys]."


def backups(folder: str) -> str:
    """Where the backups are, and how one is taken back."""
    return f"Your backups are in {folder}. “pairwright progress restore FILE” takes one back."
