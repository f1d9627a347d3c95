"""A pilot that drives the real application without a window: keys in, views out, time by hand."""

from __future__ import annotations

from dataclasses import dataclass, field
from random import Random
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from tests.session.names import action_name, command_of
from tests.workers.direct import Silence, answers_of, direct_advice, direct_answers, direct_services
from tutor.app.application import Application
from tutor.app.compose import lesson_title
from tutor.app.files.solves import SolvesShelf
from tutor.app.services import Keeper, Service
from tutor.cube.notation import Rotation, parse_moves
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import LessonEntry, lesson_entries, load_lesson
from tutor.lesson.scenes import Lesson, Scene
from tutor.lesson.variation import Variation
from tutor.screens.free_play.state import FREE
from tutor.screens.lesson.commands import AS_WRITTEN, Carried
from tutor.screens.table import SCREENS
from tutor.session.answers import Key
from tutor.session.beginning import new_session
from tutor.session.commands import Make
from tutor.session.history import History
from tutor.session.house import Session
from tutor.session.passes import wanted_now
from tutor.session.saving_commands import SavingWish
from tutor.session.settings import Settings
from tutor.session.state import LessonTitle
from tutor.session.target import Bearing
from tutor.solver.search import Solver
from tutor.ui.action import Action
from tutor.ui.inputs import Activated, Input, KeyPressed, Modifier, TextEntered
from tutor.ui.view import Block, Button, ButtonRow, Group, Rail, Stage, Text, VerdictNote, View

EPOCH = 1_795_600_000.0
"""Seconds since 1970 at the pilot's time 0: in November 2026."""


@dataclass
class Pilot:
    """The application with a clock moved by hand."""

    solver: Solver
    lessons: dict[str, Lesson] = field(default_factory=dict)
    titles: bool = False
    """Whether the lessons that come with the program are listed."""
    seed: int = 7
    patience: float = 0.02
    """Seconds for a proof about a whole solve."""
    ahead: bool = False
    """Whether every position one turn on is answered too; else only what somebody waits for is."""
    now: float = 100.0
    closed: bool = False
    keeper: Keeper | None = None
    """Keeps the attempts; without one they are forgotten."""
    shelf: SolvesShelf | None = None
    """Keeps whole solves; without one none is kept."""
    saver: Service[SavingWish] = field(default_factory=Silence)
    """Saves pictures and clips; without one nothing comes of it."""

    def __post_init__(self) -> None:
        listed = lesson_entries() if self.titles else self.lessons.values()
        titles = tuple(
            lesson_title(each)
            if isinstance(each, LessonEntry)
            else LessonTitle(each.name, each.title, each.goal)
            for each in listed
        )
        self.application = Application(
            new_session(SCREENS, Settings(), titles),
            direct_services(
                self.solver,
                clock=lambda: self.now,
                read_lesson=lambda name, carried, _settings: self.read_lesson(name, carried),
                random=Random(self.seed),
                keeper=self.keeper,
                wall=lambda: self.now + EPOCH,
                saving=self.saver,
                shelf=self.shelf and self.shelf.carry_out,
                answers=direct_answers(answers_of(self.solver), None if self.ahead else self._wanted),
                advice=direct_advice(lambda: self.solver, self.patience),
            ),
        )
        self.application.quit_window = self._close

    def _wanted(self) -> tuple[Key, ...]:
        """What somebody waits for in the present state."""
        return wanted_now(self.application.session)

    def rewire(self, **services: Any) -> None:
        """Give the application these services in place of those it has."""
        self.application.services = replace(self.application.services, **services)

    def read_lesson(self, name: str, carried: Carried) -> Lesson:
        """The lesson as given, or assembled anew when it is to be carried over."""
        if carried == AS_WRITTEN:
            return self.lessons[name]
        variation = Variation(carried.quarters, carried.mirrored)
        return load_lesson(name, LessonSetting(answers_of(self.solver), variation))

    def _close(self) -> None:
        self.closed = True

    @property
    def session(self) -> Session:
        return self.application.session

    @property
    def view(self) -> View:
        return self.application.view(self.now)[0]

    @property
    def moving(self) -> bool:
        return self.application.view(self.now)[1]

    def give(self, *inputs: Input) -> None:
        for each in inputs:
            self.application.handle(each)

    def key(self, name: str, modifiers: Modifier = Modifier.NONE) -> None:
        self.give(KeyPressed(name, modifiers))

    def give_keys(self, *names: str) -> None:
        """Keys by name; a capital letter is the key with Shift."""
        for name in names:
            self.settle()
            capital = len(name) == 1 and name.isupper()
            self.key(name.lower(), Modifier.SHIFT if capital else Modifier.NONE)

    def press(self, what: str | Action | None) -> None:
        """A button by what it does, or by the short name of that."""
        command = command_of(what) if isinstance(what, str) else what
        assert command is not None, f"no command is called {what!r}"
        self.give(Activated(command))

    @property
    def focus(self) -> str:
        """The short name of what the keyboard has chosen; empty for nothing."""
        focus = self.view.focus
        return "" if focus is None else action_name(focus)

    def write(self, text: str) -> None:
        self.give(TextEntered(text))

    def turn(self, notation: str) -> None:
        """Turns as keys would make them, one after the other, each with its answer known."""
        for move in parse_moves(notation):
            self.settle()
            self.application.give(Make(move))
        self.settle()

    def settle(self) -> None:
        """Until every answer that was asked for has come."""
        while self.application.poll():
            pass

    def wait(self, seconds: float) -> None:
        self.now += seconds
        self.settle()

    def scene(self, kind: type[Scene], lesson: str = "made-pair") -> Scene:
        """The first scene of a kind, entered."""
        scenes = self.lessons[lesson].scenes
        index, found = next(item for item in enumerate(scenes) if isinstance(item[1], kind))
        self.press(f"lesson:{index}:0:{lesson}")
        self.settle()
        return found

    def free_play(self, setup: str = "", slot: str = "FR") -> None:
        """Free play after a setup, with the slot taken on from there."""
        self.press("open:FREE_PLAY")
        self.turn(setup)
        self.press(f"slot:{slot}")
        self.wait(60.0)


def turn_count(history: History) -> int:
    """Turns up to the cursor; rotations count none (WCA 12a5)."""
    return sum(not isinstance(entry.move, Rotation) for entry in history.made)


def all_blocks(blocks: tuple[Block, ...]) -> list[Block]:
    found: list[Block] = []
    for block in blocks:
        found.append(block)
        if isinstance(block, Group):
            found.extend(all_blocks(block.blocks))
        if isinstance(block, ButtonRow):
            found.extend(block.buttons)
    return found


class Reading(Struct, frozen=True):
    """What a person can read on a view's card, page and overlay."""

    view: View

    @property
    def blocks(self) -> list[Block]:
        columns = (self.view.card, self.view.foot, *self.view.page, self.view.overlay)
        return [block for column in columns for block in all_blocks(column)]

    @property
    def texts(self) -> list[str]:
        return [block.text for block in self.blocks if isinstance(block, Text)]

    @property
    def verdicts(self) -> list[VerdictNote]:
        return [block for block in self.blocks if isinstance(block, VerdictNote)]

    @property
    def buttons(self) -> list[Button]:
        return [block for block in self.blocks if isinstance(block, Button)]

    def button(self, label: str) -> Button:
        found = [button for button in self.buttons if button.label == label]
        assert found, f"no button {label!r} among {[button.label for button in self.buttons]}"
        return found[0]


def stage_of(pilot: Pilot) -> Stage:
    stage = pilot.view.stage
    assert stage is not None
    return stage


def rail_of(pilot: Pilot) -> Rail:
    rail = pilot.view.rail
    assert rail is not None
    return rail


def bearing_of(pilot: Pilot) -> Bearing:
    bearing = FREE.of(pilot.session).bearing()
    assert bearing is not None
    return bearing
