"""Saves in a small JSON file where you left each lesson.

It is a convenience: a file that cannot be read counts as none, with a warning in the log.
"""

from __future__ import annotations

import errno
import logging
import sqlite3
from itertools import takewhile
from pathlib import Path

import msgspec

from tutor.app.files import words
from tutor.atomic_file import write_whole
from tutor.plain_file import read_plain
from tutor.progress.backup import alone
from tutor.session.state import LessonPlace

FILE = "places.json"
LOCK = "places.lock"
MOST = 5000
"""Lessons remembered at most, the latest: of a large group, every learner's in every lesson."""
LARGEST = 4 * 2**20
"""Bytes read at most."""

Places = tuple[LessonPlace, ...]
log = logging.getLogger(__name__)


def load_places(folder: Path) -> Places:
    """Where you left each lesson, the latest last; one that makes no sense is left out."""
    places, problem = [], ""
    try:
        content = read_plain(folder / FILE, LARGEST)
        found = msgspec.json.decode(content, type=list[msgspec.Raw])[-MOST:]
    except FileNotFoundError:
        return ()
    except (OSError, msgspec.MsgspecError, UnicodeDecodeError, RecursionError) as error:
        found, problem = [], str(error)
    for place in found:
        try:
            places.append(msgspec.json.decode(place, type=LessonPlace))
        except (msgspec.MsgspecError, UnicodeDecodeError) as error:
            problem = str(error)
    if problem:
        log.warning("%s", words.places_unreadable(problem))
    return tuple(places)


class PlacesFile:
    """The file of one folder as one window sees it; another window may write the same file meanwhile."""

    def __init__(self, folder: Path) -> None:
        """Nothing is read yet."""
        self._folder = folder
        self._known: Places = ()

    def load(self) -> Places:
        """The saved places."""
        self._known = load_places(self._folder)
        return self._known

    def save(self, places: Places) -> None:
        """Save what is new among this window's places beside what another window has saved meanwhile.

        While one window reads and writes, another waits; for the same lesson the last one to write wins.
        Raises OSError.
        """
        path = self._folder / FILE
        self._folder.mkdir(parents=True, exist_ok=True)
        try:
            with alone(self._folder, LOCK):
                others = load_places(self._folder) or self._known
                latest = merged(self._known, places, others)[-MOST:]
                content = msgspec.json.encode([place for place in latest if _is_text(place.lesson)])
                write_whole(path, content, on_disk=False)
        except sqlite3.Error as error:
            raise OSError(errno.EIO, str(error), str(path)) from error
        self._known = places


def _is_text(name: str) -> bool:
    """Whether a lesson's name can be written; that of a file may be no UTF-8 (PEP 383)."""
    return name == name.encode(errors="ignore").decode()


def merged(known: Places, places: Places, others: Places) -> Places:
    """The ``others`` with what is new in ``places``, the latest last; ``known`` is how ``places`` began.

    What ``known`` has and ``places`` has not is gone. New is all from the first place on that does not stand
    in ``known`` after those before it.
    """
    rest = iter(known)
    old = sum(1 for _ in takewhile(lambda place: place in rest, places))
    new = {place.lesson: place for place in places[old:]}
    # What a learner has left behind with an old name, or with all else.
    gone = {place.lesson for place in known} - {place.lesson for place in places}
    return (*(place for place in others if place.lesson not in new.keys() | gone), *new.values())
