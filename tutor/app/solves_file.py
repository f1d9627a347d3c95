"""Saved whole solves: one small text file each, written beside and then renamed, off the frame.

What cannot be read is left out and named. ``tutor.session.solve.saved`` knows what stands in a file.
"""

from __future__ import annotations

import logging
import os
import re
import time
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from pathlib import Path

from tutor.session.solve.commands import KeepSolve, LookForSolves, SolveKept, SolvesFound
from tutor.session.solve.saved import (
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
    beside = folder / f"{name}.{os.getpid()}.new"
    try:
        with beside.open("w", encoding="utf-8", newline="\n") as file:
            file.write(format_saved(solve))
            file.flush()
            os.fsync(file.fileno())
        beside.replace(folder / f"{name}.txt")
    finally:
        beside.unlink(missing_ok=True)
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
        log.warning("the saved solves cannot be listed: %s", error)
        return Shelf()
    entries: list[ShelfEntry] = []
    damaged: list[str] = []
    for path in paths:
        try:
            entries.append(ShelfEntry(path.stem, _when(path.stem), parse_saved(_text(path))))
        except (OSError, SavedSolveError, UnicodeDecodeError) as error:
            log.warning("%s is no saved solve that can be read: %s", path.name, error)
            damaged.append(path.name)
    return Shelf(tuple(entries), tuple(damaged))


def _text(path: Path) -> str:
    with path.open("rb") as file:
        return file.read(LARGEST).decode("utf-8")


def _when(name: str) -> str:
    """When a file was first saved, from its name; the name itself when it is none of ours."""
    if not _NAME.fullmatch(name):
        return name
    return f"{name[:10]} {name[11:13]}:{name[13:15]}"


class SolvesShelf:
    """Saves and reads solves in a thread of its own, in the order in which it is asked."""

    def __init__(self, folder: Path, wall: Callable[[], float] = time.time, *, at_once: bool = False) -> None:
        """``at_once`` does without the thread; what came of it is told by the next ``poll`` all the same."""
        self._folder, self._wall, self._at_once = folder, wall, at_once
        self._thread: ThreadPoolExecutor | None = None
        self._begun: list[Future[SolveKept | SolvesFound]] = []

    def carry_out(self, effect: KeepSolve | LookForSolves) -> None:
        """Begin; what comes of it comes out of ``poll`` later."""
        if self._at_once:
            future: Future[SolveKept | SolvesFound] = Future()
            future.set_result(self._done(effect))
        else:
            self._thread = self._thread or ThreadPoolExecutor(1, "solves")
            future = self._thread.submit(self._done, effect)
        self._begun.append(future)

    def poll(self) -> tuple[SolveKept | SolvesFound, ...]:
        """What has come of what was asked; never waits."""
        done = [future for future in self._begun if future.done()]
        self._begun = [future for future in self._begun if future not in done]
        return tuple(future.result() for future in done)

    def close(self) -> None:
        """Finish what was begun: a solve that was to be kept is kept."""
        if self._thread is not None:
            self._thread.shutdown(wait=True)

    def _done(self, effect: KeepSolve | LookForSolves) -> SolveKept | SolvesFound:
        if isinstance(effect, LookForSolves):
            return SolvesFound(load_shelf(self._folder))
        try:
            return SolveKept(effect.began, save_solve(self._folder, effect.solve, effect.name, self._wall()))
        except OSError as error:
            reason = error.strerror or "the folder cannot be written"
            return SolveKept(effect.began, "", f"This solve could not be kept: {reason}.")
