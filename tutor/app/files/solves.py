"""Saved whole solves: one small text file each, written beside and then renamed.

What cannot be read is left out and named. ``tutor.screens.solve.saved`` knows what stands in a file.
"""

from __future__ import annotations

import logging
import re
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

from tutor.app.files import words
from tutor.atomic_file import patiently, write_whole
from tutor.plain_file import read_plain
from tutor.screens.solve.commands import DropSolve, KeepSolve, ShelfEffect, SolveKept, SolvesFound
from tutor.screens.solve.saved import (
    SavedSolve,
    SavedSolveError,
    Shelf,
    ShelfEntry,
    format_saved,
    parse_saved,
)

FOLDER = "solves"
LARGEST = 256 * 1024
"""Bytes read at most of a file; a solve of many hundred moves has a few thousand."""
MOST = 500
"""Files read at most, the latest."""
_NAME = re.compile(r"\d{4}-\d\d-\d\d-\d{6}(-\d+)?")

log = logging.getLogger(__name__)


def save_solve(folder: Path, solve: SavedSolve, name: str, moment: float) -> str:
    """Save a solve and give the name it has: ``name``, or a new one made of the ``moment`` (since 1970).

    Raises OSError when the folder cannot be written.
    """
    folder.mkdir(parents=True, exist_ok=True)
    if not _NAME.fullmatch(name):
        name = _free_name(folder, time.strftime("%Y-%m-%d-%H%M%S", time.localtime(moment)))
    write_whole(folder / f"{name}.txt", format_saved(solve).encode())
    return name


def _free_name(folder: Path, wanted: str) -> str:
    """The name, or with the first number that is free."""
    name, number = wanted, 1
    while (folder / f"{name}.txt").exists():
        number += 1
        name = f"{wanted}-{number}"
    return name


def load_shelf(folder: Path) -> Shelf:
    """All solves saved in a folder, the latest first, and the names of files that cannot be read."""
    try:
        paths = sorted(folder.glob("*.txt"), key=lambda path: path.name, reverse=True)[:MOST]
    except OSError as error:
        log.warning("%s", words.solves_not_listed(str(error)))
        return Shelf()
    entries: list[ShelfEntry] = []
    damaged: list[str] = []
    for path in paths:
        try:
            entries.append(ShelfEntry(path.stem, _when(path.stem), parse_saved(_text(path))))
        except (OSError, SavedSolveError, UnicodeDecodeError) as error:
            log.warning("%s", words.solve_unreadable(path.name, str(error)))
            damaged.append(path.name)
    return Shelf(tuple(entries), tuple(damaged))


def _text(path: Path) -> str:
    return read_plain(path, LARGEST).decode("utf-8")


def _when(name: str) -> str:
    """When a file was first saved, from its name; the name itself when it is none of ours."""
    if not _NAME.fullmatch(name):
        return name
    return f"{name[:10]} {name[11:13]}:{name[13:15]}"


def delete_solve(folder: Path, name: str) -> None:
    """Delete the file of a solve of this folder; one that is not there is deleted already.

    Raises OSError when it cannot be deleted.
    """
    for path in folder.glob("*.txt"):
        if path.stem == name:
            patiently(partial(path.unlink, missing_ok=True))


class SolvesShelf:
    """Saves, reads and deletes the solves of a folder."""

    def __init__(self, folder: Path, wall: Callable[[], float] = time.time) -> None:
        """``wall`` is the clock on the wall, by which new files are named."""
        self._folder, self._wall = folder, wall

    def carry_out(self, effect: ShelfEffect) -> SolveKept | SolvesFound:
        """Do what is asked; what came of it."""
        if isinstance(effect, KeepSolve):
            return self._kept(effect)
        problem = self._dropped(effect) if isinstance(effect, DropSolve) else ""
        return SolvesFound(load_shelf(self._folder), problem, effect.learner)

    def _kept(self, effect: KeepSolve) -> SolveKept:
        try:
            return SolveKept(effect.began, save_solve(self._folder, effect.solve, effect.name, self._wall()))
        except OSError as error:
            reason = error.strerror or words.UNWRITABLE_FOLDER
            return SolveKept(effect.began, "", words.solve_not_saved(reason))

    def _dropped(self, effect: DropSolve) -> str:
        """Delete a solve; why that could not be, or nothing."""
        try:
            delete_solve(self._folder, effect.name)
        except OSError as error:
            return words.solve_not_deleted(effect.name, error.strerror or words.UNWRITABLE_FOLDER)
        return ""
