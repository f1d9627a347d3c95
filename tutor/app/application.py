"""The running program: holds the session, feeds it commands, carries out its effects.

It knows neither the window's library nor the clock on the wall: both are handed in.
"""

from __future__ import annotations

import logging
from collections import deque
from collections.abc import Callable, Sequence
from concurrent.futures import Executor, Future
from random import Random
from typing import Protocol

from tutor.cube.position import Position
from tutor.cube.random_position import random_position
from tutor.lesson.problems import LessonError
from tutor.lesson.resolve import Lesson
from tutor.method.answer import Answer
from tutor.session.commands import (
    Answered,
    Carried,
    Click,
    Command,
    Draw,
    Drawn,
    Effect,
    Failed,
    Forget,
    KeepPlaces,
    LessonFailed,
    LessonLoaded,
    LoadLesson,
    Notice,
    Quit,
    SaveSettings,
    Solve,
)
from tutor.session.inputs import Input
from tutor.session.settings import Settings
from tutor.session.solve_commands import Advise, Advised, Copy, Question, Unadvise
from tutor.session.state import Session
from tutor.session.translate import command_for
from tutor.session.update import update
from tutor.session.view import View
from tutor.session.view_failure import failure_view
from tutor.session.view_stage import moving
from tutor.session.viewing import view_of
from tutor.solver.task import Task

LOOK_SECONDS = 1.0
"""How often a lesson's file is looked at."""

log = logging.getLogger(__name__)


class Oracle(Protocol):
    """Whoever works out answers: a worker process in the window, the solver itself in tests."""

    def request(self, request: int, position: Position, task: Task) -> None:
        """Ask; the answer comes out of ``poll`` later."""

    def forget(self, requests: Sequence[int]) -> None:
        """These need not be answered any more."""

    def poll(self) -> tuple[tuple[int, Answer], ...]:
        """The answers that have come since; never waits."""

    def notice(self) -> str:
        """What there is to say about the tables, in one line; empty when nothing."""

    def close(self) -> None:
        """End whatever runs."""


class Advisor(Protocol):
    """Whoever works out advice about whole solves: a process of its own in the window."""

    def request(self, request: int, question: Question) -> None:
        """Ask; the answer comes out of ``poll`` later."""

    def forget(self, requests: Sequence[int]) -> None:
        """These need not be answered any more."""

    def poll(self) -> tuple[tuple[int, object], ...]:
        """The answers that have come since; never waits."""

    def close(self) -> None:
        """End whatever runs."""


class Application:
    """Joins the session to a clock, an oracle, lessons and chance."""

    def __init__(
        self,
        session: Session,
        oracle: Oracle,
        clock: Callable[[], float],
        read_lesson: Callable[[str, Carried, Settings], Lesson],
        random: Random,
        quit_window: Callable[[], None] = lambda: None,
        save_settings: Callable[[Settings], None] = lambda _: None,
        save_places: Callable[[tuple[tuple[str, int], ...]], None] = lambda _: None,
        changed_at: Callable[[str], float | None] = lambda _: None,
        beside: Executor | None = None,
        click: Callable[[], None] = lambda: None,
        advisor: Advisor | None = None,
    ) -> None:
        """Nothing is asked or drawn before the first input or frame.

        What takes longer than a frame may run ``beside``; without it, it is done at once. ``changed_at``
        tells when a lesson's file was last changed, None for lessons that have none to change.
        """
        self.session = session
        self.quit_window = quit_window
        self._oracle = oracle
        self._clock = clock
        self._read_lesson = read_lesson
        self._random = random
        self._noticed = ""
        self._beside = beside
        self._click = click
        self._advisor = advisor
        self.copy_text: Callable[[str], None] = lambda _: None
        """Puts a text on the clipboard; the window's, once it is open."""
        self.log_place: Callable[[], str] = str
        """Tells where the log is, once there is one; empty before."""
        self._save_settings = save_settings
        self._changed_at = changed_at
        self._save_places = save_places
        self._seen: tuple[str, float | None] = ("", None)
        self._next_look = 0.0
        self._begun: list[Future[Command]] = []

    def handle(self, given: Input) -> None:
        """A person did something."""
        command = command_for(self.session, given)
        if command is not None:
            self.give(command)

    def give(self, command: Command) -> None:
        """Carry a command through, and whatever follows from it."""
        waiting: deque[Command] = deque((command,))
        while waiting:
            self.session, effects = update(self.session, waiting.popleft(), self._clock())
            for effect in effects:
                waiting.extend(self._carried_out(effect))

    def _carry_out(self, effect: Effect) -> None:
        """Carry out an effect that no command asked for."""
        for command in self._carried_out(effect):
            self.give(command)

    def poll(self) -> bool:
        """Take in what the oracle has worked out; True when something may look different."""
        before = self.session
        for request, answer in self._oracle.poll():
            self.give(Answered(request, answer))
        for request, advice in self._advisor.poll() if self._advisor is not None else ():
            self.give(Advised(request, advice))
        for future in [future for future in self._begun if future.done()]:
            self._begun.remove(future)
            self.give(future.result())
        self._look_at_script()
        notice = self._oracle.notice()
        if notice != self._noticed:
            self._noticed = notice
            self.give(Notice(notice))
        return self.session is not before

    def _look_at_script(self) -> None:
        """About once a second: read the open lesson again when its file has changed, at the same scene."""
        now, played = self._clock(), self.session.lesson
        if played is None:
            self._seen = ("", None)
            return
        if now < self._next_look:
            return
        self._next_look = now + LOOK_SECONDS
        seen = played.lesson.name, self._changed_at(played.lesson.name)
        known, self._seen = self._seen, seen
        if known[0] == seen[0] and known[1] != seen[1]:
            self._carry_out(LoadLesson(played.lesson.name, played.scene, played.carried, again=True))

    def view(self, now: float) -> tuple[View, bool]:
        """What to show, and whether it goes on moving by itself; of a screen that cannot be made, a card."""
        try:
            return view_of(self.session, now), moving(self.session, now)
        except Exception as error:
            if not self.session.failure:
                self.failed(error)
            return failure_view(self.session), False

    def failed(self, error: Exception) -> None:
        """Tell of an exception on a card; the session stays as it was before the command."""
        log.error("an exception came up", exc_info=error)
        place = self.log_place()
        told = f"{type(error).__name__}: {error}".replace("\n", " ")
        self.give(Failed(f"{told}\nMore about it is in the log: {place}" if place else told))

    def close(self) -> None:
        """End what runs beside."""
        if self._beside is not None:
            self._beside.shutdown(wait=False, cancel_futures=True)
        if self._advisor is not None:
            self._advisor.close()
        self._oracle.close()

    def _carried_out(self, effect: Effect) -> tuple[Command, ...]:
        """Do what the session asks of the world; some of it is answered at once."""
        match effect:
            case Solve(request, position, task):
                self._oracle.request(request, position, task)
            case Forget(requests):
                self._oracle.forget(requests)
            case Advise(request, question) if self._advisor is not None:
                self._advisor.request(request, question)
            case Unadvise(requests) if self._advisor is not None:
                self._advisor.forget(requests)
            case Copy(text):
                self.copy_text(text)
            case Draw(request):
                return (Drawn(request, random_position(self._random)),)
            case LoadLesson() if self._beside is not None:
                self._begun.append(self._beside.submit(self._loaded, effect))
            case LoadLesson():
                return (self._loaded(effect),)
            case SaveSettings(settings):
                return self._kept(settings)
            case KeepPlaces(places):
                self._save_places(places)
            case Click():
                self._click()
            case Quit():
                self.quit_window()
        return ()

    def _kept(self, settings: Settings) -> tuple[Command, ...]:
        try:
            self._save_settings(settings)
        except OSError as error:
            return (Notice(f"The settings cannot be kept: {error.strerror}. They hold until you close."),)
        return ()

    def _loaded(self, wanted: LoadLesson) -> Command:
        try:
            lesson = self._read_lesson(wanted.name, wanted.carried, self.session.settings)
        except LessonError as error:
            return LessonFailed(wanted.name, tuple(str(problem) for problem in error.problems), wanted.again)
        return LessonLoaded(lesson, wanted.scene, wanted.carried, wanted.again)
