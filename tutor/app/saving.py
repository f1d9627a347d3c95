"""Pictures and clips saved in the window: drawn and written by a process of their own, so no frame waits.

Such a process lives for one file. It draws without a window, in a context of its own, since one that shares
the window's process could disturb it.
"""

from __future__ import annotations

import logging
import os
import signal
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from time import monotonic
from typing import TYPE_CHECKING

from tutor.atomic_file import part_of, write_new
from tutor.session.saving_commands import (
    NotSaved,
    SaveClip,
    Saved,
    SavePicture,
    SaveSheet,
    SaveTable,
    SavingReport,
    SavingTold,
)

if TYPE_CHECKING:
    from multiprocessing.connection import Connection

    from tutor.publish.film import Passage
    from tutor.session.saving_commands import SavingWish
    from tutor.solver.link import Link

PICTURE_SIZE, CLIP_SIZE = (1600, 1200), (960, 720)
PICTURE_END, CLIP_END, TABLE_END = ".png", ".gif", ".csv"
"""A GIF needs nothing else to be installed, and moves wherever it is put."""
TOLD_EVERY = 0.2
"""Seconds between two reports of how far it is."""
PATIENCE = 10.0
"""Seconds for which closing waits for a picture, or for a clip that was stopped."""
_GENTLE = 5
"""How far the process stands back behind the window (POSIX nice)."""

log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Places:
    """The folders that files go to."""

    pictures: Path
    clips: Path
    tables: Path

    def of(self, wish: SavingWish) -> Path:
        """The folder for what is wished."""
        match wish:
            case SavePicture() | SaveSheet():
                return self.pictures
            case SaveClip():
                return self.clips
            case SaveTable():
                return self.tables


class ProcessSaver:
    """Saves one thing at a time, in a process that starts with it and ends with it."""

    def __init__(self, places: Places) -> None:
        """Nothing starts yet."""
        self._places = places
        self._wish: SavingWish | None = None
        self._link: Link | None = None

    @property
    def process_id(self) -> int | None:
        """The number of the process, for tests and diagnosis; None while there is none."""
        return None if self._link is None else self._link.process_id

    def begin(self, wish: SavingWish) -> None:
        """Begin to save; reports come out of ``poll`` later. What is under way already is stopped."""
        from tutor.solver.link import Link

        self._end()
        self._wish, self._link = wish, Link(run_saver, wish, self._places)

    def stop(self, request: int) -> None:
        """Break this request off; a last report tells when it has ended."""
        if self._link is not None and self._wish is not None and self._wish.request == request:
            self._link.send(None)

    def poll(self) -> tuple[SavingReport, ...]:
        """What there is to report since; never waits."""
        if self._link is None or self._wish is None:
            return ()
        reports: list[SavingReport]
        reports, alive = self._link.receive()
        if any(not isinstance(report, SavingTold) for report in reports):
            self._clear()
        elif not alive:
            log.warning("the process that saves ended")
            reports.append(NotSaved(self._wish.request, "what draws it ended unexpectedly."))
            self._end()
        return tuple(reports)

    def close(self) -> None:
        """End what is under way: all but a clip is finished first, of which nothing is left."""
        end = monotonic() + PATIENCE
        while self._link is not None and not isinstance(self._wish, SaveClip):
            if not self._link.wait(end - monotonic()):
                break
            self.poll()
        self._end(max(0.1, end - monotonic()))

    def _end(self, patience: float = PATIENCE) -> None:
        """Stop the process and see to it that no half file is left."""
        wish, link = self._wish, self._link
        if wish is None or link is None:
            return
        link.end(patience=patience)
        if link.process_id is not None:
            part_of(self._places.of(wish), wish.name, link.process_id).unlink(missing_ok=True)
        self._wish = self._link = None

    def _clear(self) -> None:
        """The process has told its last and ends by itself."""
        if self._link is not None:
            self._link.let_go()
        self._wish = self._link = None


class _StoppedError(Exception):
    """Raised where what is being made is not wanted any more."""


def run_saver(pipe: Connection, wish: SavingWish, places: Places) -> None:
    """In a process of its own: save, and report how it goes; any message, or the pipe's end, stops it."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the program that started this decides when it ends
    # Mesa's software renderer would start a thread for each core and leave none to the window.
    os.environ.setdefault("LP_NUM_THREADS", "1")
    if hasattr(os, "nice"):
        os.nice(_GENTLE)
    last = monotonic()

    def progress(share: float) -> None:
        nonlocal last
        if pipe.poll():
            raise _StoppedError
        if monotonic() - last >= TOLD_EVERY:
            last = monotonic()
            pipe.send(SavingTold(wish.request, share))

    try:
        pipe.send(saved(wish, places.of(wish), progress))
    except (EOFError, BrokenPipeError, ConnectionResetError):
        return


def saved(wish: SavingWish, folder: Path, progress: Callable[[float], None]) -> Saved | NotSaved:
    """Save a picture, clip or table; ``progress`` is told the share done and may raise to stop."""
    try:
        if isinstance(wish, SaveClip):
            target = write_new(folder, wish.name, CLIP_END, lambda beside: _film(wish, beside, progress))
        else:
            end, content = _content(wish)
            progress(0.9)
            target = write_new(folder, wish.name, end, lambda beside: _put(beside, content))
    except _StoppedError:
        return NotSaved(wish.request, "")
    except (BrokenPipeError, ConnectionResetError):
        raise
    except OSError as fault:
        return NotSaved(wish.request, f"{fault.strerror or fault} ({told(folder)}).")
    except ValueError as fault:
        return NotSaved(wish.request, f"{str(fault).rstrip('.')}.")
    except Exception as fault:
        log.exception("what was on the screen could not be saved")
        return NotSaved(wish.request, f"something went wrong while drawing it ({type(fault).__name__}).")
    return Saved(wish.request, target.name, told(folder))


def told(folder: Path) -> str:
    """A folder as it is told to a person: short, where it lies in their own."""
    try:
        return f"~/{folder.relative_to(Path.home()).as_posix()}"
    except (ValueError, RuntimeError):
        return str(folder)


def _content(wish: SavePicture | SaveSheet | SaveTable) -> tuple[str, bytes]:
    """The end of the file's name, and what is in it."""
    match wish:
        case SavePicture():
            return PICTURE_END, picture(wish)
        case SaveSheet():
            from tutor.app.progress_sheet import sheet_png

            return PICTURE_END, sheet_png(wish.view)
        case SaveTable():
            return TABLE_END, wish.text.encode("utf-8")


def picture(wish: SavePicture) -> bytes:
    """The stage as a PNG file. Raises ValueError when this machine cannot draw."""
    from tutor.app.publishing import draw_stage
    from tutor.publish.stills import png_bytes

    return png_bytes(draw_stage(wish.stage, wish.look, PICTURE_SIZE, None))


def _put(beside: Path, content: bytes) -> None:
    beside.write_bytes(content)


def _film(wish: SaveClip, beside: Path, progress: Callable[[float], None]) -> None:
    from tutor.app.publishing import draw_stage, inks_of
    from tutor.publish.cinema import encode_film
    from tutor.publish.film import FilmPace, film_of
    from tutor.publish.subject import Shot

    shot = Shot(wish.look, CLIP_SIZE, wish.camera)
    film = film_of((passage_of(wish),), shot, FilmPace.BOTH if wish.twice else FilmPace.SLOW, wish.speed)
    encode_film(beside, CLIP_END, film, draw_stage, inks_of(wish.look.theme), progress)


def passage_of(wish: SaveClip) -> Passage:
    """What the clip shows: steps with what is said of each, or turns alone."""
    from tutor.publish.passages import steps_passage, turns_passage
    from tutor.publish.subject import Subject, case_title

    subject = Subject(wish.start, wish.aim, wish.title if wish.case is None else case_title(*wish.case))
    if None in wish.steps:
        return turns_passage(subject, wish.turns)
    return steps_passage(subject, wish.turns, wish.steps)
