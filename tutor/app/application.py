"""The running program: keeps the session, gives it commands, carries out its effects.

It knows neither the window's library nor the clock on the wall: both are handed in, the clock among the
services.
"""

from __future__ import annotations

import logging
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import ExitStack
from functools import partial
from typing import assert_never

from msgspec.structs import replace

from tutor.app import words
from tutor.app.services import BackgroundThread, Services
from tutor.cube.random_position import random_position, random_with_cross
from tutor.lesson.problems import LessonError
from tutor.progress.presence import Engaged
from tutor.quoting import visible
from tutor.screens.board.commands import LoadScenes, ScenesLoaded, ScenesRefused
from tutor.screens.lesson.commands import LessonFailed, LessonLoaded, LoadLesson
from tutor.screens.painting.commands import KeepPainting, LookForPainting, PaintingEffect, PaintingFound
from tutor.screens.parts.failure import failure_view
from tutor.screens.parts.stage import moving
from tutor.screens.reading_aloud import new_sentences, read_aloud
from tutor.screens.solve.commands import DropSolve, KeepSolve, LookForSolves, ShelfEffect
from tutor.screens.viewing import view_of
from tutor.session.commands import (
    Act,
    Advise,
    Chime,
    Click,
    Command,
    Copy,
    Draw,
    Drawn,
    EditKey,
    Effect,
    Failed,
    FillScreen,
    Forget,
    KeepPlaces,
    Quit,
    SaveSettings,
    Solve,
    TellAtFoot,
    Unadvise,
    as_command,
)
from tutor.session.house import Session
from tutor.session.presence import Watch, presence_of
from tutor.session.record_commands import (
    ClockSet,
    OpenRecords,
    RecordsEffect,
)
from tutor.session.saving_commands import (
    SaveClip,
    SavePicture,
    SaveSheet,
    SaveTable,
    SavingEffect,
    StopSaving,
)
from tutor.session.settings import Settings
from tutor.session.translate import command_for
from tutor.session.update import update
from tutor.ui.action import Action
from tutor.ui.focus import Walk, main_button, pressable, walked
from tutor.ui.inputs import Input
from tutor.ui.view import View

_Asked = Solve | Forget | Advise | Unadvise | Draw
KernelEffect = _Asked | Copy | SaveSettings | KeepPlaces | Click | Chime | FillScreen | Quit
EveryEffect = (
    KernelEffect | RecordsEffect | SavingEffect | LoadLesson | LoadScenes | PaintingEffect | ShelfEffect
)
"""All that any room asks of the world."""
CLOCK_SLACK = 2.0
"""Seconds by which the clock on the wall may run away from the session's before it is read again."""
LOOK_SECONDS = 1.0
"""How often a lesson's file is looked at."""
EXCHANGE_SECONDS = 2.0
"""How often the shared folder is looked at."""
_KEPT: dict[type[SaveSettings | KeepPlaces | KeepPainting], str] = {
    SaveSettings: words.WHAT_YOU_CHOSE,
    KeepPlaces: words.WHERE_YOU_LEFT_LESSONS,
    KeepPainting: words.WHAT_YOU_PAINTED,
}
"""What is kept in small files, in words."""

log = logging.getLogger(__name__)


def _place(session: Session) -> tuple[object, ...]:
    """Where a person is: wherever else one comes, nothing has the focus."""
    room = session.room
    return session.screen, room.page(session), session.sheet, bool(session.failure), session.writing.open


def _known(effect: Effect) -> EveryEffect:
    """The effect as one of those there are. Raises TypeError for one that nobody carries out."""
    if not isinstance(effect, EveryEffect):
        raise TypeError(f"nobody carries out {effect!r}")
    return effect


class Application:
    """Joins the session to the world."""

    def __init__(self, session: Session, services: Services) -> None:
        """Nothing is asked, started or drawn before the first input or frame."""
        self.session = session
        self.services = services
        self.quit_window: Callable[[], None] = lambda: None
        """Closes the window, once it is open."""
        self.fill_screen: Callable[[bool], None] = lambda _: None
        """Has the window fill the screen, or takes it back to its size, once it is open."""
        self.focus: Action | None = None
        """What the keyboard has chosen on the screen; it presses nothing once that has gone."""
        self.copy_text: Callable[[str], None] = lambda _: None
        """Puts a text on the clipboard; the window's, once it is open."""
        self.log_place: Callable[[], str] = str
        """Says where the log is, once there is one; empty before."""
        self._lessons = services.thread("lessons")
        self._records = services.thread("records")
        self._files = services.thread("files")
        self._shared = services.thread("shared")
        self._watch = Watch(Engaged(), services.clock(), services.clock())
        self._next_exchange = 0.0
        self._records_opened = False
        self._seen_by_anyone = False
        self._alone = False
        self._seen: tuple[str, float | None] = ("", None)
        self._unsaved: dict[type[Effect], str] = {}
        """What was told of what could not be saved last."""
        self._said: tuple[str, ...] | None = None
        """What the card says as far as it is read aloud; None while nothing is read."""
        self._next_look = 0.0
        self._last_words: tuple[str, ...] = ()
        self._hearing: Iterator[Command] = iter(())
        self._ending = self._what_ends()

    def _what_ends(self) -> ExitStack:
        """What closing ends, the last first: before all else, what is to be kept is written."""
        ending = ExitStack()
        for service in (self.services.answers, self.services.saving, self.services.advice):
            ending.callback(service.close)
        ending.callback(self.services.speech.close)
        ending.callback(self._let_go_of_records)
        # Once all else is in the open progress file, since only that is shared.
        if self.services.sharing is not None:
            ending.callback(self.services.sharing.close)
        ending.callback(self._shared.close)
        ending.callback(self._records.close)
        ending.callback(self._lessons.abandon)
        ending.callback(self._files.close)
        return ending

    def _let_go_of_records(self) -> None:
        if self.services.keeper is not None and self._records_opened:
            self._last_words = self.services.keeper.close()

    def handle(self, given: Input) -> bool:
        """Take a person's input; whether it means anything where the session is."""
        given_command = command_for(self.session, given)
        if given_command is None:
            return False
        self._watch = replace(self._watch, pressed=self.services.clock())
        command = self._with_focus(given_command)
        if command is not None:
            self.give(command)
            if self.focus is not None and (command is Act.WRITE or self._focused() is None):
                self.focus = None
        return True

    def _with_focus(self, command: Command | Walk) -> Command | None:
        """What is to be done once the focus has moved as it should; Enter presses what has it."""
        match command:
            case Walk.NEXT | Walk.PREVIOUS:
                view = self.view(self.services.clock())[0]
                self.focus = walked(view, self.focus, 1 if command is Walk.NEXT else -1)
                return None
            case Walk.PRESS | EditKey.SUBMIT:
                focus = self._focused()
                pressed = None if focus is None else as_command(focus)
                if command is EditKey.SUBMIT and pressed in (None, Act.WRITE):
                    return command
                return pressed or self._main_command()
            case Act.CLOSE if self._first_to_let_go():
                self.focus = None
                return None
            case _:
                return command

    def _main_command(self) -> Command:
        """What the main button of the screen does; where there is none, to go on."""
        button = main_button(self.view(self.services.clock())[0])
        return (button and as_command(button.action)) or Act.ENTER

    def _focused(self) -> Action | None:
        """What has the focus on the screen as it is."""
        return None if self.focus is None else self.view(self.services.clock())[0].focus

    def _first_to_let_go(self) -> bool:
        """Whether closing takes the focus away: where nothing that lies over it or is shown comes before."""
        session = self.session
        shown = session.demonstration is not None and not session.room.shows_by_itself(session)
        if session.covered or session.writing.open or shown:
            return False
        return self._focused() is not None

    def give(self, command: Command) -> None:
        """Carry a command out, and all that follows from it at once."""
        before = _place(self.session)
        waiting: deque[Command] = deque((command,))
        while waiting:
            self.session, effects = update(self.session, waiting.popleft(), self.services.clock())
            for effect in effects:
                waiting.extend(self._carried_out(effect))
        if _place(self.session) != before:
            self.focus = None
        if self.services.sharing is not None:
            self._watch = self._watch.looked(self.session, self.services.clock())

    def _carry_out(self, effect: Effect) -> None:
        """Carry out an effect that no command asked for."""
        for command in self._carried_out(effect):
            self.give(command)

    def poll(self) -> bool:
        """Take in the results that have come since; True when something may look different."""
        before = self.session
        self._look_at_records()
        self._look_at_script()
        self._look_at_shared()
        # What a failure left untold is told first.
        for hearing in (self._hearing, self._heard()):
            self._hearing = hearing
            for command in hearing:
                self.give(command)
        due = self.session.room.due(self.session, self.services.clock())
        if due is not None:
            self.give(due)
        return self.session is not before

    def _heard(self) -> Iterator[Command]:
        """What there is to tell the session of all that goes on beside it."""
        for service in (self.services.answers, self.services.advice, self.services.saving):
            yield from service.poll()
        yield from self.services.speech.poll()
        for thread in (self._files, self._records, self._lessons, self._shared):
            yield from self._done_by(thread)

    def _done_by(self, thread: BackgroundThread) -> Iterator[Command]:
        for commands in thread.poll():
            yield from commands

    def _look_at_script(self) -> None:
        """About once a second: ask anew for the open lesson when its file has changed."""
        now = self.services.clock()
        asked = (room.watched(self.session) for room in self.session.house)
        watched = next((each for each in asked if each is not None), None)
        if watched is None:
            self._seen = ("", None)
            return
        if now < self._next_look:
            return
        self._next_look = now + LOOK_SECONDS
        name, effect = watched
        seen = name, self.services.changed_at(name)
        known, self._seen = self._seen, seen
        if known[0] == seen[0] and known[1] != seen[1]:
            self._carry_out(effect)

    def _look_at_shared(self) -> None:
        """Every other second: exchange with the shared folder, once the last exchange is over."""
        sharing, now = self.services.sharing, self.services.clock()
        if sharing is None or not self._records_opened or self._shared.busy or now < self._next_exchange:
            return
        self._next_exchange = now + EXCHANGE_SECONDS
        presence = presence_of(self.session, self._watch, now)
        self._shared.begin(lambda: sharing.carry_out(presence))

    def _look_at_records(self) -> None:
        """Once something has been shown: read how the learner stands; and mind the clock on the wall."""
        if self.services.keeper is None or not self._seen_by_anyone:
            return
        now = self.services.clock()
        epoch = self.services.wall() - now
        if abs(epoch - self.session.records.epoch) > CLOCK_SLACK:
            self.give(ClockSet(epoch))
        if not self._records_opened:
            self._records_opened = True
            self._carry_out(OpenRecords(self.session.records.learner))

    def view(self, now: float) -> tuple[View, bool]:
        """The view, and whether it moves by itself; a card for a screen that fails."""
        view, moving = self._shown(now)
        self._read_aloud(view)
        if self.focus is not None and self.focus in pressable(view):
            view = replace(self.session.room.with_focus(self.session, view, self.focus), focus=self.focus)
        return view, moving

    def _shown(self, now: float) -> tuple[View, bool]:
        self._seen_by_anyone = True
        if self.session.failure and self._alone:
            return failure_view(self.session), False
        try:
            return view_of(self.session, now), moving(self.session, now)
        except Exception as error:
            if not self.session.failure:
                self.failed(error)
            return failure_view(self.session), False

    def _read_aloud(self, view: View) -> None:
        """Say what is new on the card, where the learner wants it read; stop what it no longer says."""
        speech, before = self.services.speech, self._said
        if not self.session.settings.read_aloud:
            self._said = None
            if before is not None:
                speech.say("")
            return
        if before is None:
            speech.forget_faults()
        self._said = read_aloud(view)
        if self._said != before:
            speech.say(" ".join(new_sentences(before or (), self._said)))

    def failed(self, error: Exception) -> None:
        """Show an exception on a card; the session stays as it was before the command.

        A second exception under the card may come from the screen beneath, so its card comes alone.
        """
        self._alone = bool(self.session.failure)
        self.focus = None
        log.error(words.EXCEPTION, exc_info=error)
        place = self.log_place()
        told = visible(f"{type(error).__name__}: {error}".replace("\n", " "))
        self.give(Failed(f"{told}\n{words.more_in_the_log(place)}" if place else told))

    def close(self) -> tuple[str, ...]:
        """End all services once everything is saved; what there is to say of what could not be."""
        self._ending.close()
        return self._last_words

    def _carried_out(self, effect: Effect) -> Iterable[Command]:
        """Do what the session asks of the world; what of it is answered at once."""
        known = _known(effect)
        match known:
            case Solve() | Forget() | Advise() | Unadvise():
                self._hand_over(known)
            case SavePicture() | SaveClip() | SaveSheet() | SaveTable():
                self.services.saving.ask(known.request, known)
            case StopSaving(request):
                self.services.saving.forget((request,))
            case KeepSolve() | LookForSolves() | DropSolve():
                return self._shelved_beside(known)
            case SaveSettings() | KeepPlaces() | KeepPainting():
                # A later painting takes the place of an earlier one of the same learner only.
                whose = known.learner if isinstance(known, KeepPainting) else ""
                kind = f"{type(known).__name__} {whose}"
                return self._beside(self._files, partial(self._kept, known), replacing=kind)
            case LookForPainting():
                return self._beside(self._files, partial(self._painted, known))
            case LoadLesson() | LoadScenes():
                return self._beside(self._lessons, partial(self._read, known, self.session.settings))
            case Draw(request, cross_made):
                drawn = random_with_cross if cross_made else random_position
                return (Drawn(request, drawn(self.services.random)),)
            case Copy() | FillScreen() | Quit():
                self._done_in_window(known)
            case Click() | Chime():
                sound = self.services.click if isinstance(known, Click) else self.services.chime
                sound()
            case _:
                return self._kept_beside(known)
        return ()

    def _done_in_window(self, effect: Copy | FillScreen | Quit) -> None:
        match effect:
            case Copy(text):
                self.copy_text(text)
            case FillScreen(full):
                self.fill_screen(full)
            case Quit():
                self.quit_window()
            case _:
                assert_never(effect)

    def _hand_over(self, effect: Solve | Forget | Advise | Unadvise) -> None:
        """To the processes that work out answers and advice."""
        match effect:
            case Solve(request, position, task):
                self.services.answers.ask(request, (position, task))
            case Forget(requests):
                self.services.answers.forget(requests)
            case Advise(request, question):
                self.services.advice.ask(request, question)
            case Unadvise(requests):
                self.services.advice.forget(requests)
            case _:
                assert_never(effect)

    def _beside(
        self, thread: BackgroundThread, work: Callable[[], Sequence[Command]], replacing: str = ""
    ) -> Iterable[Command]:
        """Begin this on a thread; what has come of the thread's work by now."""
        thread.begin(work, replacing)
        return self._done_by(thread)

    def _kept_beside(self, effect: RecordsEffect) -> Iterable[Command]:
        """What is asked of the store, in the order in which it is asked."""
        keeper = self.services.keeper
        if keeper is None:
            return ()
        self._records_opened = True
        return self._beside(self._records, lambda: (keeper.carry_out(effect),))

    def _shelved_beside(self, effect: ShelfEffect) -> Iterable[Command]:
        """What is asked of the saved solves, in the order in which it is asked."""
        shelf = self.services.shelf
        return () if shelf is None else self._beside(self._files, lambda: (shelf(effect),))

    def _kept(self, effect: SaveSettings | KeepPlaces | KeepPainting) -> tuple[Command, ...]:
        """What is kept for the next time in small files of its own."""
        try:
            match effect:
                case SaveSettings(settings):
                    self.services.save_settings(settings)
                case KeepPlaces(places):
                    self.services.save_places(places)
                case KeepPainting(text, learner):
                    self.services.save_painting(learner, text)
        except OSError as error:
            where = f"{error.filename}: " if error.filename else ""
            told = words.not_saved(_KEPT[type(effect)], f"{where}{error.strerror}")
            if self._unsaved.get(type(effect)) == told:
                # Places and paintings are saved at every step.
                return ()
            self._unsaved[type(effect)] = told
            return (TellAtFoot(told),)
        self._unsaved.pop(type(effect), None)
        return ()

    def _painted(self, wanted: LookForPainting) -> tuple[Command, ...]:
        return (PaintingFound(wanted.learner, self.services.load_painting(wanted.learner)),)

    def _read(self, wanted: LoadLesson | LoadScenes, settings: Settings) -> tuple[Command, ...]:
        """A lesson, read for the room that wants it."""
        try:
            lesson = self.services.read_lesson(wanted.name, wanted.carried, settings)
        except LessonError as error:
            told = tuple(str(problem) for problem in error.problems)
            if isinstance(wanted, LoadScenes):
                return (ScenesRefused(told[0]),)
            return (LessonFailed(wanted.name, told, wanted.again),)
        if isinstance(wanted, LoadScenes):
            return (ScenesLoaded(lesson, wanted.carried, wanted.at),)
        return (LessonLoaded(lesson, wanted.scene, wanted.carried, wanted.again),)
