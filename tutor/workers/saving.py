"""Pictures and clips saved in the window: drawn and written by a process of their own, so no frame waits.

Such a process lives for one file. It draws without a window, in a context of its own, since one that shares
the window's process could disturb it.
"""

from __future__ import annotations

import logging
import os
from collections.abc import Callable, Iterator
from functools import cache, partial
from pathlib import Path
from time import monotonic
from typing import TYPE_CHECKING

from msgspec import Struct

from tutor.atomic_file import part_of, tidy_away, write_new
from tutor.cube.position import Position
from tutor.cube.stickers import COLOUR_NAMES
from tutor.method.answer import Answer
from tutor.session.saving_commands import (
    NotSaved,
    SaveClip,
    Saved,
    SavePicture,
    SaveSheet,
    SaveTable,
    SavingReport,
    SavingTold,
    SavingWish,
)
from tutor.solver.task import Task
from tutor.ui.view import View
from tutor.workers import words
from tutor.workers.desk import Desk, Dropped, Failure, Result, Told
from tutor.workers.request_service import ProcessEnded, RequestService, ServiceReport
from tutor.workers.worker_process import WorkerProcess

if TYPE_CHECKING:
    from tutor.publish.film import Passage
    from tutor.publish.lettering import Inks
    from tutor.publish.subject import Draw

PICTURE_SIZE, CLIP_SIZE = (1600, 1200), (960, 720)
PICTURE_END, CLIP_END, TABLE_END = ".png", ".gif", ".csv"
"""A GIF needs nothing else to be installed, and moves wherever it is put."""
TOLD_EVERY = 0.2
"""Seconds between two reports of how far it is."""
PATIENCE = 10.0
"""Seconds for which closing waits for a picture, or for a clip that was stopped."""

log = logging.getLogger(__name__)


class SaveFolders(Struct, frozen=True):
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


class DrawingFunctions(Struct, frozen=True):
    """The functions that draw; each is at the top level of a module, so a process can receive it."""

    stage: Draw
    inks: Callable[[str], Inks]
    page: Callable[[View], bytes]
    """A whole page as a PNG file. These raise ValueError when this machine cannot draw."""


class SavingService(RequestService[SavingWish, SavingReport]):
    """Saves one thing after the other, in a process that starts with it and ends with it."""

    def __init__(self, folders: SaveFolders, drawing: DrawingFunctions) -> None:
        """Nothing starts yet."""
        super().__init__(lambda: _begin(folders, drawing), self._reported, deaths=1, stays=False)
        self._folders = folders
        self._wishes: dict[int, SavingWish] = {}

    def ask(self, request: int, question: SavingWish) -> None:
        """Begin to save; reports come out of ``poll`` later, the last of them when it has ended."""
        self._wishes[request] = question
        super().ask(request, question)

    def close(self, patience: float = PATIENCE) -> None:
        """End what is under way: all but a clip is finished first, of which nothing is left."""
        end = monotonic() + patience
        self.poll()
        while self._wishes and not any(isinstance(wish, SaveClip) for wish in self._wishes.values()):
            if not self.wait(end - monotonic()):
                break
            self.poll()
        process_id = self.process_id
        super().close(max(0.1, end - monotonic()))
        self._clear_up(process_id)

    def _reported(self, report: ServiceReport) -> Iterator[SavingReport]:
        match report:
            case Told(told):
                yield told
            case Result(request, ended):
                yield self._ended(request, ended)
            case Dropped(request):
                yield self._ended(request, NotSaved(request, ""))
            case Failure(request, _):
                yield self._ended(request, NotSaved(request, words.DRAWING_STOPPED))
            case ProcessEnded(process_id):
                self._clear_up(process_id)

    def _ended(self, request: int, report: Saved | NotSaved) -> Saved | NotSaved:
        self._wishes.pop(request, None)
        return report

    def _clear_up(self, process_id: int | None) -> None:
        """See to it that the process of this number, which has ended, has left no half file."""
        if process_id is None:
            return
        for wish in self._wishes.values():
            tidy_away(part_of(self._folders.of(wish), wish.name, process_id))


def _begin(folders: SaveFolders, drawing: DrawingFunctions) -> WorkerProcess:
    return WorkerProcess(saving, folders, drawing)


def saving(
    desk: Desk, folders: SaveFolders, drawing: DrawingFunctions
) -> Callable[[SavingWish], Saved | NotSaved]:
    """In a process of its own: save, and report how far it is."""
    # Mesa's software renderer would start a thread for each core and leave none to the window.
    os.environ.setdefault("LP_NUM_THREADS", "1")

    def save(wish: SavingWish) -> Saved | NotSaved:
        last = monotonic()

        def progress(share: float) -> None:
            nonlocal last
            desk.go_on()
            if monotonic() - last >= TOLD_EVERY:
                last = monotonic()
                desk.tell(SavingTold(wish.request, share))

        return saved(wish, folders.of(wish), drawing, progress)

    return save


def saved(
    wish: SavingWish, folder: Path, drawing: DrawingFunctions, progress: Callable[[float], None]
) -> Saved | NotSaved:
    """Save a picture, clip or table; ``progress`` takes the share done and may raise to stop."""
    try:
        if isinstance(wish, SaveClip):
            target = write_new(folder, wish.name, CLIP_END, partial(_film, wish, drawing, progress))
        else:
            end, content = _content(wish, drawing)
            progress(0.9)
            target = write_new(folder, wish.name, end, partial(_put, content))
    except OSError as fault:
        return NotSaved(wish.request, words.not_written(fault.strerror or str(fault), told(folder)))
    except ValueError as fault:
        return NotSaved(wish.request, f"{str(fault).rstrip('.')}.")
    except Exception as fault:
        log.exception(words.SAVING_FAILED)
        return NotSaved(wish.request, words.drawing_failed(type(fault).__name__))
    return Saved(wish.request, target.name, told(folder))


def told(folder: Path) -> str:
    """A folder as a person reads it: short when it is in their own folder."""
    try:
        return f"~/{folder.relative_to(Path.home()).as_posix()}"
    except (ValueError, RuntimeError):
        return str(folder)


def _content(wish: SavePicture | SaveSheet | SaveTable, drawing: DrawingFunctions) -> tuple[str, bytes]:
    """The end of the file's name, and what is in it."""
    match wish:
        case SavePicture():
            from tutor.publish.stills import png_bytes

            return PICTURE_END, png_bytes(drawing.stage(wish.stage, wish.look, PICTURE_SIZE, None))
        case SaveSheet():
            return PICTURE_END, drawing.page(wish.view)
        case SaveTable():
            # Without the mark spreadsheets take names for those of an older code page.
            return TABLE_END, wish.text.encode("utf-8-sig")


def _put(content: bytes, beside: Path) -> None:
    beside.write_bytes(content)


def _film(wish: SaveClip, drawing: DrawingFunctions, progress: Callable[[float], None], beside: Path) -> None:
    from tutor.publish.cinema import encode_film
    from tutor.publish.film import FilmPace, film_of
    from tutor.publish.subject import Shot

    shot = Shot(wish.look, CLIP_SIZE, wish.camera)
    passage = passage_of(wish, lambda: progress(0.0))
    film = film_of((passage,), shot, FilmPace.BOTH if wish.twice else FilmPace.SLOW, wish.speed)
    encode_film(beside, CLIP_END, film, drawing.stage, drawing.inks(wish.look.theme), progress)


def passage_of(wish: SaveClip, go_on: Callable[[], None] = lambda: None) -> Passage:
    """What the clip shows: steps with what is said of each, or turns alone.

    ``go_on`` is called before each answer, and may raise to stop.
    """
    from tutor.publish.passages import steps_of, steps_passage, told_of, turns_passage
    from tutor.publish.subject import Subject, case_title

    title = wish.title
    if wish.case is not None and wish.aim is not None:
        title = case_title(*wish.case, COLOUR_NAMES[wish.look.arrangement[wish.aim.cross]])
    subject = Subject(wish.start, wish.aim, title)
    own = None in wish.steps
    steps = steps_of(subject, wish.turns) if own else wish.steps
    told = told_of(subject, wish.turns, steps, _answered(go_on), wish.colour_names, wish.said)
    return (
        turns_passage(subject, wish.turns, told) if own else steps_passage(subject, wish.turns, steps, told)
    )


def _answered(go_on: Callable[[], None]) -> Callable[[Position, Task], Answer]:
    """Exact answers from a solver that is opened when the first one is wanted."""
    from tutor.method.answer import answer
    from tutor.solver.search import Solver

    solver = cache(Solver.open)

    def answered(position: Position, task: Task) -> Answer:
        go_on()
        return answer(solver(), position, task)

    return answered
