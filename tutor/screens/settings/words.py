"""What Settings says; the rows and their values are in ``tutor.session.words``."""

from __future__ import annotations

NAME = "Settings"
LOOKS = "How the program looks"
WORKS = "How the program works"
KEYS_FILE = "You can change any key in the settings file, under [keys]."
