"""The composition root: joins settings, lessons, solver and session to one application."""

from __future__ import annotations

import logging
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from functools import cache, partial
from pathlib import Path
from random import Random
from uuid import uuid4

from msgspec.structs import replace

from render.window.window import Frame, Window
from tutor.app import words
from tutor.app.application import Application
from tutor.app.drawing import DRAWING
from tutor.app.files.folders import (
    clips_folder,
    config_folder,
    data_folder,
    pictures_folder,
    state_folder,
    tables_folder,
)
from tutor.app.files.painting import FILE as PAINTING
from tutor.app.files.painting import load_painting, save_painting
from tutor.app.files.places import PlacesFile
from tutor.app.files.settings import Loaded, WindowSettings
from tutor.app.files.solves import FOLDER as SOLVES
from tutor.app.files.solves import SolvesShelf
from tutor.app.services import Services
from tutor.app.sound import Clicker, load_chime
from tutor.app.waking_clock import WakingClock
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import LessonEntry, lesson_list, load_facing_lesson
from tutor.lesson.scenes import Lesson
from tutor.lesson.variation import Variation
from tutor.method.answer import answer
from tutor.progress.belongings import Belongings, move_into, move_into_place
from tutor.screens.lesson.commands import Carried
from tutor.screens.painting.update import with_text
from tutor.screens.solve.commands import ShelfEffect, SolveKept, SolvesFound
from tutor.screens.table import SCREENS
from tutor.session.beginning import new_session
from tutor.session.house import Session
from tutor.session.learner_records import Records
from tutor.session.settings import Settings
from tutor.session.state import LessonPlace, LessonTitle
from tutor.solver.search import Solver
from tutor.ui.inputs import Input
from tutor.workers.advice import advice_service
from tutor.workers.answers import AnswerService
from tutor.workers.ordered_thread import OrderedThread
from tutor.workers.reading_aloud import Reader
from tutor.workers.recorder import Recorder
from tutor.workers.saving import SaveFolders, SavingService
from tutor.workers.sharing import Sharing

log = logging.getLogger(__name__)


class WindowPort:
    """What the window is joined to: passes everything on to the application."""

    def __init__(self, application: Application, frame: Callable[..., Frame]) -> None:
        """``frame`` makes the window's frame of a view and whether it moves."""
        self._application = application
        self._frame = frame
        self.ask_to_close: Callable[[], None] = lambda: None
        """Has the window close as if a person had asked, once it is open; a signal may call it."""

    def opened(self, window: Window) -> None:
        """The window is open."""
        self.ask_to_close = window.ask_to_close
        self._application.quit_window = window.close
        self._application.fill_screen = window.fill_screen
        self._application.copy_text = window.copy

    def handle(self, event: Input) -> bool:
        """A person did something; whether it meant anything."""
        return self._application.handle(event)

    def frame(self) -> Frame:
        """What to show now."""
        return self._frame(*self._application.view(self._application.services.clock()))

    def poll(self) -> bool:
        """Take in what was worked out."""
        return self._application.poll()

    def failed(self, error: Exception) -> None:
        """Tell of it on a card."""
        self._application.failed(error)


def changed_at(folder: Path | None, name: str) -> float | None:
    """When the script of this name in a teacher's folder was last changed; None when there is none."""
    if folder is None:
        return None
    try:
        return (folder / f"{name}.toml").stat().st_mtime
    except OSError:
        return None


def lesson_title(entry: LessonEntry) -> LessonTitle:
    """A lesson as Home lists it; one that cannot be read has what is wrong in place of its goal."""
    if entry.problem:
        return LessonTitle(entry.name, words.unreadable_lesson(entry.name), entry.problem)
    return LessonTitle(entry.name, entry.title, entry.goal, entry.group, entry.start, entry.tasks)


@cache
def solver() -> Solver:
    """The solver of this process, which works out what lessons say; made when the first is opened."""
    return Solver.open()


def read_lesson(folder: Path | None, name: str, carried: Carried, chosen: Settings) -> Lesson:
    """A lesson carried over as asked, in a person's colours. Raises LessonError when it is wrong."""
    variation = Variation(carried.quarters, carried.mirrored, chosen.cross)
    setting = LessonSetting(partial(answer, solver()), variation, chosen.colour_names)
    return load_facing_lesson(name, setting, folder)


def with_painting(session: Session, text: str) -> Session:
    """The session with what was painted another time, if anything was."""
    if not text:
        return session
    return with_text(session, text)


def make_application(loaded: Loaded, folder: Path | None = None, shared: Path | None = None) -> Application:
    """The application with everything real joined to it.

    ``folder`` holds a teacher's own lessons, ``shared`` is a folder shared with other windows.
    """
    settings = loaded.settings
    listed = lesson_list(folder)
    titles = tuple(lesson_title(entry) for entry in listed.entries)
    places, own = PlacesFile(state_folder()), Belongings(data_folder()).of(settings.learner)
    take_over(own, data_folder() / SOLVES, state_folder() / PAINTING)
    session = replace(
        with_painting(new_session(SCREENS, settings, titles), load_painting(own)),
        places=places.load(),
        records=Records(settings.learner, (settings.learner,), mark=uuid4()),
        notice=" ".join(filter(None, (loaded.notice, listed.left_out))),
    )
    kept = WindowSettings(config_folder(), settings)
    return Application(session, make_services(folder, kept.save, places.save, shared))


def take_over(own: Path, solves: Path, painting: Path) -> None:
    """Give a learner the saved solves and the painting of a program for which they were everybody's."""
    try:
        if painting.exists():
            move_into_place(painting, own / PAINTING)
        move_into(solves, own / SOLVES)
    except OSError as error:
        log.warning("%s", words.older_files_not_moved(str(error)))


def on_shelf(belongings: Belongings, effect: ShelfEffect) -> SolveKept | SolvesFound:
    """What is asked of a learner's saved solves."""
    return SolvesShelf(belongings.of(effect.learner) / SOLVES).carry_out(effect)


def make_services(
    folder: Path | None,
    save_settings: Callable[[Settings], None],
    save_places: Callable[[tuple[LessonPlace, ...]], None],
    shared: Path | None = None,
) -> Services:
    """Everything real; ``folder`` and ``shared`` as in ``make_application``."""
    belongings, recorder = Belongings(data_folder()), Recorder(data_folder())
    sounds = ThreadPoolExecutor(1, "sound")
    chime = Clicker(sounds, load_chime)
    return Services(
        clock=WakingClock(),
        wall=time.time,
        random=Random(),
        answers=AnswerService(),
        advice=advice_service(),
        saving=SavingService(SaveFolders(pictures_folder(), clips_folder(), tables_folder()), DRAWING),
        keeper=recorder,
        sharing=None if shared is None else Sharing(shared, lambda: recorder.store),
        shelf=partial(on_shelf, belongings),
        read_lesson=partial(read_lesson, folder),
        changed_at=partial(changed_at, folder),
        save_settings=save_settings,
        save_places=save_places,
        save_painting=lambda learner, text: save_painting(belongings.of(learner), text),
        load_painting=lambda learner: load_painting(belongings.of(learner)),
        click=Clicker(sounds, followed_by=chime).click,
        chime=chime.click,
        speech=Reader(),
        thread=OrderedThread,
    )
