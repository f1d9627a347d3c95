"""The running program: holds the session, feeds it commands, carries out its effects.

It knows neither the window's library nor the clock on the wall: both are handed in.
"""

from __future__ import annotations

import logging
import time
from collections import deque
from collections.abc import Callable
from concurrent.futures import Executor, Future
from functools import partial
from random import Random
from typing import TYPE_CHECKING

from tutor.app.beside import Beside
from tutor.app.written_beside import WrittenBeside
from tutor.cube.random_position import random_position, random_with_cross
from tutor.lesson.problems import LessonError
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
from tutor.session.painting.commands import KeepPainting
from tutor.session.practice.commands import Tick
from tutor.session.practice.ticking import tick_due
from tutor.session.records.commands import (
    ClockSet,
    OpenRecords,
    Propose,
    Record,
    RecordsEffect,
    Summarise,
    TakeBack,
)
from tutor.session.saving_commands import (
    SaveClip,
    SavePicture,
    SaveSheet,
    SaveTable,
    SavingEffect,
    StopSaving,
)
from tutor.session.solve.commands import (
    Advise,
    Advised,
    Copy,
    DropSolve,
    KeepSolve,
    LookForSolves,
    Unadvise,
)
from tutor.session.views.failure import failure_view
from tutor.session.views.first import home_alone

if TYPE_CHECKING:
    from tutor.app.partners import Advisor, Keeper, Oracle, Saver, SolvesShelf
    from tutor.lesson.scenes import Lesson
    from tutor.session.settings import Settings
    from tutor.session.state import Session
    from tutor.ui.inputs import Input
    from tutor.ui.view import View

CLOCK_SLACK = 2.0
"""Seconds by which the clock on the wall may run away from the session's before it is read again."""
LOOK_SECONDS = 1.0
"""How often a lesson's file is looked at."""

log = logging.getLogger(__name__)


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
        save_painting: Callable[[str], None] = lambda _: None,
        changed_at: Callable[[str], float | None] = lambda _: None,
        beside: Executor | None = None,
        click: Callable[[], None] = lambda: None,
        advisor: Advisor | None = None,
        saver: Saver | None = None,
        keeper: Keeper | None = None,
        shelf: SolvesShelf | None = None,
        wall: Callable[[], float] = time.time,
        warm_up: Callable[[], bool] = lambda: False,
    ) -> None:
        """Nothing is asked or drawn before the first input or frame.

        What takes longer than a frame may run ``beside``; without it, it is done at once. ``changed_at``
        tells when a lesson's file was last changed, None for lessons that have none to change. ``wall`` is
        the clock on the wall, in seconds since 1970. With ``beside`` the ``keeper`` has a thread of its own.
        ``warm_up`` is called once a poll after Home is shown, and prepares a little more of what lies behind
        it; while it says True, nothing else is polled. It waits when a lesson is being opened.
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
        self._advisor, self._saver = advisor, saver
        self._keeper, self._shelf = keeper, shelf
        self._keeping: Beside[Command] | None = Beside("records") if beside is not None else None
        self._wall, self._warm_up = wall, warm_up
        self._seen_by_anyone = False
        self._alone = False
        self._records_opened = keeper is None
        self.copy_text: Callable[[str], None] = lambda _: None
        """Puts a text on the clipboard; the window's, once it is open."""
        self.log_place: Callable[[], str] = str
        """Tells where the log is, once there is one; empty before."""
        self._save_settings = save_settings
        self._changed_at = changed_at
        self._save_places = save_places
        self._save_painting = save_painting
        self._seen: tuple[str, float | None] = ("", None)
        self._next_look = 0.0
        self._begun: list[Future[Command]] = []
        self._files = WrittenBeside(self._kept, beside=beside is not None)

    def handle(self, given: Input) -> bool:
        """A person did something; whether it means anything where the session is."""
        # This and what follows from a command is imported when it is needed: Home is shown without it.
        from tutor.session.translate import command_for

        command = command_for(self.session, given)
        if command is not None:
            self.give(command)
        return command is not None

    def give(self, command: Command) -> None:
        """Carry a command through, and whatever follows from it."""
        from tutor.session.update import update

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
        if self._seen_by_anyone and not self._begun and self._warm_up():
            return False
        before = self.session
        for request, answer in self._oracle.poll():
            self.give(Answered(request, answer))
        for request, advice in self._advisor.poll() if self._advisor is not None else ():
            self.give(Advised(request, advice))
        for report in self._saver.poll() if self._saver is not None else ():
            self.give(report)
        for found in self._shelf.poll() if self._shelf is not None else ():
            self.give(found)
        for told in self._files.poll():
            self.give(told)
        for answer_of_store in self._keeping.poll() if self._keeping is not None else ():
            self.give(answer_of_store)
        self._look_at_records()
        if tick_due(self.session, self._clock()):
            self.give(Tick())
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

    def _look_at_records(self) -> None:
        """Once something has been shown: read how the learner stands; and mind the clock on the wall."""
        if self._keeper is None or not self._seen_by_anyone:
            return
        now = self._clock()
        epoch = self._wall() - now
        if abs(epoch - self.session.records.epoch) > CLOCK_SLACK:
            self.give(ClockSet(epoch))
        if not self._records_opened:
            self._records_opened = True
            self._carry_out(OpenRecords(self.session.records.learner))

    def view(self, now: float) -> tuple[View, bool]:
        """What to show, and whether it goes on moving by itself; of a screen that cannot be made, a card."""
        self._seen_by_anyone = True
        if self.session.failure and self._alone:
            return failure_view(self.session), False
        try:
            return self._viewed(now)
        except Exception as error:
            if not self.session.failure:
                self.failed(error)
            return failure_view(self.session), False

    def _viewed(self, now: float) -> tuple[View, bool]:
        alone = home_alone(self.session)
        if alone is not None:
            return alone, False
        from tutor.session.views.stage import moving
        from tutor.session.views.viewing import view_of

        return view_of(self.session, now), moving(self.session, now)

    def failed(self, error: Exception) -> None:
        """Tell of an exception on a card; the session stays as it was before the command.

        When one comes up while another is told of, the screen beneath may fail: the card comes alone.
        """
        self._alone = bool(self.session.failure)
        log.error("an exception came up", exc_info=error)
        place = self.log_place()
        told = f"{type(error).__name__}: {error}".replace("\n", " ")
        self.give(Failed(f"{told}\nMore about it is in the log: {place}" if place else told))

    def close(self) -> None:
        """End what runs beside, when all that is to be kept has been written."""
        self._files.close()
        if self._beside is not None:
            self._beside.shutdown(wait=False, cancel_futures=True)
        if self._keeping is not None:
            self._keeping.close()
        if self._keeper is not None and self._records_opened:
            self._keeper.close()
        if self._advisor is not None:
            self._advisor.close()
        if self._saver is not None:
            self._saver.close()
        if self._shelf is not None:
            self._shelf.close()
        self._oracle.close()

    def _carried_out(self, effect: Effect) -> tuple[Command, ...]:
        """Do what the session asks of the world; some of it is answered at once."""
        match effect:
            case Solve(request, position, task):
                self._oracle.request(request, position, task)
            case Forget(requests):
                self._oracle.forget(requests)
            case (
                Advise() | Unadvise() | SavePicture() | SaveClip() | SaveSheet() | SaveTable() | StopSaving()
            ):
                self._hand_over(effect)
            case OpenRecords() | Record() | TakeBack() | Propose() | Summarise():
                return self._kept_beside(effect)
            case Copy(text):
                self.copy_text(text)
            case Draw(request, cross_made):
                drawn = random_with_cross if cross_made else random_position
                return (Drawn(request, drawn(self._random)),)
            case KeepSolve() | LookForSolves() | DropSolve() if self._shelf is not None:
                self._shelf.carry_out(effect)
            case LoadLesson() if self._beside is not None:
                self._begun.append(self._beside.submit(self._loaded, effect))
            case LoadLesson():
                return (self._loaded(effect),)
            case SaveSettings() | KeepPlaces() | KeepPainting():
                return self._files.begin(effect)
            case Click():
                self._click()
            case Quit():
                self.quit_window()
        return ()

    def _kept_beside(self, effect: RecordsEffect) -> tuple[Command, ...]:
        """What is asked of the store; beside where there is one, in the order in which it is asked."""
        if self._keeper is None:
            return ()
        self._records_opened = True
        if self._keeping is None:
            return (self._keeper.carry_out(effect),)
        self._keeping.begin(partial(self._keeper.carry_out, effect))
        return ()

    def _hand_over(self, effect: Advise | Unadvise | SavingEffect) -> None:
        """To those that have processes of their own for it, where there are any."""
        match effect:
            case Advise(request, question) if self._advisor is not None:
                self._advisor.request(request, question)
            case Unadvise(requests) if self._advisor is not None:
                self._advisor.forget(requests)
            case SavePicture() | SaveClip() | SaveSheet() | SaveTable() if self._saver is not None:
                self._saver.begin(effect)
            case StopSaving(request) if self._saver is not None:
                self._saver.stop(request)

    def _kept(self, effect: SaveSettings | KeepPlaces | KeepPainting) -> tuple[Command, ...]:
        """What is kept for the next time in small files of its own."""
        try:
            match effect:
                case SaveSettings(settings):
                    self._save_settings(settings)
                case KeepPlaces(places):
                    self._save_places(places)
                case KeepPainting(text):
                    self._save_painting(text)
        except OSError as error:
            where = f"{error.filename}: " if error.filename else ""
            what = "What you painted" if isinstance(effect, KeepPainting) else "What you chose"
            told = f"{what} cannot be kept ({where}{error.strerror}). It holds until you close."
            return (Notice(told),)
        return ()

    def _loaded(self, wanted: LoadLesson) -> Command:
        try:
            lesson = self._read_lesson(wanted.name, wanted.carried, self.session.settings)
        except LessonError as error:
            return LessonFailed(wanted.name, tuple(str(problem) for problem in error.problems), wanted.again)
        return LessonLoaded(lesson, wanted.scene, wanted.carried, wanted.again)
