"""Saves the cube that you paint, as far as you have painted it, in a small text file.

Like the places of lessons it is a convenience: a file that cannot be read counts as none, with a warning in
the log.
"""

from __future__ import annotations

import logging
from pathlib import Path

from tutor.app.files import words
from tutor.atomic_file import write_whole
from tutor.plain_file import read_plain

FILE = "painting.txt"
LARGEST = 4096
"""Bytes read at most; six lines take less than a hundred."""
log = logging.getLogger(__name__)


def load_painting(folder: Path) -> str:
    """The saved text, empty when there is none."""
    try:
        return read_plain(folder / FILE, LARGEST).decode()
    except FileNotFoundError:
        return ""
    except (OSError, UnicodeDecodeError) as error:
        log.warning("%s", words.painting_unreadable(str(error)))
        return ""


def save_painting(folder: Path, text: str) -> None:
    """Save the text: written beside, then renamed. Raises OSError."""
    write_whole(folder / FILE, text.encode(), on_disk=False)
