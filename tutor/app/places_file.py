"""Where each lesson was left, kept from one day to the next in a small JSON file.

It is a convenience: a file that cannot be read counts as none, and one that cannot be written is let go.
"""

from __future__ import annotations

import logging
from pathlib import Path
from typing import Annotated

import msgspec

from tutor.app.whole_file import write_whole

FILE = "places.json"
MOST = 500
"""Lessons remembered at most, the latest."""

Place = tuple[Annotated[str, msgspec.Meta(max_length=200)], Annotated[int, msgspec.Meta(ge=0, le=1000)]]
Places = tuple[tuple[str, int], ...]
log = logging.getLogger(__name__)


def load_places(folder: Path) -> Places:
    """The lesson names with the scenes where they were left, the latest last."""
    try:
        content = (folder / FILE).read_bytes()
        return tuple(msgspec.json.decode(content, type=list[Place])[-MOST:])
    except FileNotFoundError:
        return ()
    except (OSError, msgspec.MsgspecError, UnicodeDecodeError) as error:
        log.warning("where lessons were left cannot be read: %s", error)
        return ()


def save_places(folder: Path, places: Places) -> None:
    """Keep the places: written beside, then renamed."""
    try:
        write_whole(folder / FILE, msgspec.json.encode(places[-MOST:]), on_disk=False)
    except OSError as error:
        log.warning("where lessons were left cannot be kept: %s", error)
