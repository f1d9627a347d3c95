"""Where the program keeps what it keeps: the user's own folders, or one folder that PAIRWRIGHT_HOME names."""

from __future__ import annotations

import os
from pathlib import Path

import platformdirs

NAME = "pairwright"
HOME_VARIABLE = "PAIRWRIGHT_HOME"


def _home() -> Path | None:
    named = os.environ.get(HOME_VARIABLE)
    return Path(named).expanduser() if named else None


def config_folder() -> Path:
    """The folder of the settings."""
    return _home() or platformdirs.user_config_path(NAME, appauthor=False)


def state_folder() -> Path:
    """The folder of the log."""
    return _home() or platformdirs.user_state_path(NAME, appauthor=False)


def data_folder() -> Path:
    """The folder of the attempts and their backups."""
    return _home() or platformdirs.user_data_path(NAME, appauthor=False)
