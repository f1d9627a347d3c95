"""Where the program keeps what it keeps: the user's own folders, or one folder that PAIRWRIGHT_HOME names."""

from __future__ import annotations

import os
from pathlib import Path

import platformdirs

NAME = "pairwright"
TITLE = "Pairwright"
"""What a person's own folders of pictures and videos have a folder of."""
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


def pictures_folder() -> Path:
    """The folder of the pictures saved in the window."""
    home = _home()
    return home / "pictures" if home else platformdirs.user_pictures_path() / TITLE


def tables_folder() -> Path:
    """The folder of the tables saved in the window."""
    home = _home()
    return home / "tables" if home else platformdirs.user_documents_path() / TITLE


def clips_folder() -> Path:
    """The folder of the clips saved in the window."""
    home = _home()
    return home / "clips" if home else platformdirs.user_videos_path() / TITLE
