"""The folders of the program's files: the user's own, or the one that PAIRWRIGHT_HOME names."""

from __future__ import annotations

import os
from pathlib import Path

import platformdirs

from tutor.app.files import words
from tutor.quoting import ToldError

NAME = "pairwright"
TITLE = "Pairwright"
"""The name of its folder among a person's own pictures and videos."""
HOME_VARIABLE = "PAIRWRIGHT_HOME"


class NoHomeError(ToldError):
    """The variable names the folder of a person who is not known here."""


def _home() -> Path | None:
    named = os.environ.get(HOME_VARIABLE)
    try:
        return Path(named).expanduser() if named else None
    except RuntimeError:
        raise NoHomeError(words.no_such_person(HOME_VARIABLE, named or "")) from None


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
