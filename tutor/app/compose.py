"""The composition root: joins settings, lessons, solver and session to one application."""

from __future__ import annotations

import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from functools import cache, partial
from pathlib import Path
from random import Random
from typing import TYPE_CHECKING
from uuid import uuid4

from tutor.app.advisors import ProcessAdvisor
from tutor.app.application import Application
from tutor.app.folders import (
    clips_folder,
    config_folder,
    data_folder,
    pictures_folder,
    state_folder,
    tables_folder,
)
from tutor.app.oracles import WorkerOracle
from tutor.app.painting_file import load_painting, save_painting
from tutor.app.places_file import PlacesFile
from tutor.app.recorder import Recorder
from tutor.app.saving import Places, ProcessSaver
from tutor.app.settings_file import Loaded, save_settings
from tutor.app.solves_file import FOLDER as SOLVES
from tutor.app.solves_file import SolvesShelf
from tutor.app.sound import Clicker
from tutor.app.warming import Warming
from tutor.lesson.library import LessonEntry, lesson_list, load_lesson
from tutor.session.beginning import new_session
from tutor.session.records.state import Records
from tutor.session.state import LessonTitle, Session

if TYPE_CHECKING:
    from render.window import Frame, Window
    from tutor.lesson.scenes import Lesson
    from tutor.session.commands import Carried
    from tutor.session.settings import Settings
    from tutor.solver.search import Solver
    from tutor.solver.worker import Worker
    from tutor.ui.inputs import Input


class WindowPort:
    """What the window is joined to: passes everything on to the application."""

    def __init__(self, application: Application, frame: Callable[..., Frame]) -> None:
        """``frame`` makes the window's frame of a view and whether it moves."""
        self._application = application
        self._frame = frame

    def opened(self, window: Window) -> None:
        """The window is open."""
        self._application.quit_window = window.close
        self._application.copy_text = window.copy

    def handle(self, event: Input) -> bool:
        """A person did something; whether it meant anything."""
        return self._application.handle(event)

    def frame(self, now: float) -> Frame:
        """What to show now."""
        return self._frame(*self._application.view(now))

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
        return LessonTitle(entry.name, f"{entry.name} (cannot be read yet)", entry.problem)
    return LessonTitle(entry.name, entry.title, entry.goal)


@cache
def solver() -> Solver:
    """The solver of this process, which works out what lessons say; made when the first is opened."""
    from tutor.solver.search import Solver

    return Solver.open()


def read_lesson(folder: Path | None, name: str, carried: Carried, chosen: Settings) -> Lesson:
    """A lesson carried over as asked, in a person's colours. Raises LessonError when it is wrong."""
    from tutor.lesson.assembly import Setting
    from tutor.lesson.variation import Variation
    from tutor.method.answer import answer

    variation = Variation(carried.quarters, carried.mirrored, chosen.cross)
    return load_lesson(name, Setting(partial(answer, solver()), variation, chosen.colour_names), folder)


def worker() -> Worker:
    """The worker that answers questions about positions; called when Home stands."""
    from tutor.method.answer import answer
    from tutor.solver.worker import Worker

    return Worker(answer)


def with_painting(session: Session, text: str) -> Session:
    """The session with what was painted another time, if anything was."""
    if not text:
        return session
    from tutor.session.painting.brush import with_text

    return with_text(session, text)


def make_application(loaded: Loaded, folder: Path | None = None) -> Application:
    """The application with everything real joined to it; ``folder`` holds a teacher's own lessons."""
    settings = loaded.settings
    listed = lesson_list(folder)
    titles = tuple(lesson_title(entry) for entry in listed.entries)
    beside, places = ThreadPoolExecutor(max_workers=1), PlacesFile(state_folder())
    return Application(
        replace(
            with_painting(new_session(settings, titles), load_painting(state_folder())),
            places=places.load(),
            records=Records(settings.learner, (settings.learner,), mark=uuid4()),
            notice=" ".join(filter(None, (loaded.notice, listed.left_out))),
        ),
        WorkerOracle(worker),
        time.perf_counter,
        partial(read_lesson, folder),
        Random(),
        changed_at=partial(changed_at, folder),
        save_settings=partial(save_settings, config_folder()),
        save_places=places.save,
        save_painting=partial(save_painting, state_folder()),
        beside=beside,
        click=Clicker(beside).click,
        advisor=ProcessAdvisor(),
        saver=ProcessSaver(Places(pictures_folder(), clips_folder(), tables_folder())),
        keeper=Recorder(data_folder()),
        shelf=SolvesShelf(data_folder() / SOLVES),
        warm_up=Warming().go_on,
    )
