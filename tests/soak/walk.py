"""A long random walk through the whole program, without a window, with a clock moved by hand."""

from __future__ import annotations

import gc
import os
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path
from random import Random
from uuid import UUID

from msgspec.structs import replace

from tests.session.pilot import EPOCH, Pilot
from tests.soak.hands import Forgetful, Pointer, good_turn, random_input
from tests.soak.invariants import check_layout, check_session, check_store
from tests.workers.direct import answers_of
from tutor.app.files.solves import SolvesShelf
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import curriculum_names, load_lesson
from tutor.lesson.scenes import Lesson
from tutor.screens.table import SCREENS
from tutor.session.commands import Open
from tutor.solver.search import Solver
from tutor.ui.inputs import KeyPressed
from tutor.workers.recorder import Recorder

MOST_GROWTH = 64.0
"""MiB by which the process may grow once caches are filled, however long the walk."""
BEGINNINGS = (
    "practise:TODAY:",
    "practise:GLANCE:",
    "practise:STEADY:",
    "practise:SLIPPING:",
    "show:14, 20, 3",
    "show:three-turn-join",
    "open:LESSON",
    "open:SOLVE",
)
"""Where one begins to learn for a while."""
LAYOUT_SIZES = ((960, 640), (1280, 800), (1920, 1080))
LOOK_EVERY = 1000
"""Commands after which the store is looked at as well."""
DAY = 86_400.0


def all_lessons(solver: Solver) -> dict[str, Lesson]:
    """The lessons that come with the program."""
    setting = LessonSetting(answers_of(solver))
    return {name: load_lesson(name, setting) for name in curriculum_names()}


@dataclass
class Walk:
    """The walk so far, through one program after the other over the same files."""

    solver: Solver
    lessons: dict[str, Lesson]
    folder: Path
    seed: int
    commands: int = 0
    restarts: int = 0
    screens: Counter[str] = field(default_factory=Counter)
    attempts: int = 0
    held: list[float] = field(default_factory=list)
    """MiB that the process held, each time the store was looked at."""

    learning: int = 0
    """How many commands are still those of one who learns."""

    def __post_init__(self) -> None:
        self.random = Random(self.seed)
        self.pointer = Pointer(self.random)
        self.now = 100.0
        self.pilot = self._started()

    def _started(self) -> Pilot:
        clock = self._clock()
        pilot = Pilot(
            self.solver,
            self.lessons,
            seed=self.random.randrange(1 << 30),
            patience=0.001,
            now=self.now,
            keeper=Recorder(self.folder, clock, zone=UTC),
            shelf=SolvesShelf(self.folder / "solves", lambda: EPOCH + self.now),
        )
        pilot.rewire(answers=Forgetful(self.solver))
        application = pilot.application
        mark = UUID(int=self.random.getrandbits(128))
        records = replace(application.session.records, mark=mark)
        application.session = replace(application.session, records=records)
        assert pilot.view.stage is None  # the first frame, after which the records are read
        pilot.settle()
        return pilot

    def _clock(self) -> Callable[[], datetime]:
        return lambda: datetime.fromtimestamp(EPOCH + self.now, UTC)

    def go(self, commands: int, tell: Callable[[str], None] = lambda _: None) -> None:
        """So many more commands, looking at everything on the way. Raises AssertionError."""
        for number in range(1, commands + 1):
            self._step()
            if self.pilot.closed:
                self._restart()
            if number % 10 == 0:
                check_session(self.pilot)
            if number % 200 == 0:
                check_layout(self.pilot, *self.random.choice(LAYOUT_SIZES))
            if number % LOOK_EVERY == 0 or number == commands:
                check_store(self.pilot, self.folder)
                gc.collect()
                self.held.append(resident())
            if number % 5000 == 0:
                tell(f"{self.commands} commands, {self.restarts} restarts, {self.attempts} attempts kept")

    def _step(self) -> None:
        random, pilot = self.random, self.pilot
        self._do(random, pilot)
        self.commands += 1
        if random.random() < 0.5:
            self.now += random.expovariate(2.0)
        if random.random() < 0.002:
            self.now += random.choice((60.0, 3600.0, DAY, 3 * DAY))
        pilot.now = self.now
        if random.random() < 0.6:
            pilot.application.poll()
        self.screens[pilot.session.screen] += 1
        records = pilot.session.records
        self.attempts = max(self.attempts, len(records.study.results) if records.study else 0)

    def _do(self, random: Random, pilot: Pilot) -> None:
        """Press something: at random, or for a while as one who learns, so that things come to their end."""
        if random.random() < 0.01:
            # Where the walk has been least.
            pilot.press(Open(min((room.name for room in SCREENS), key=self.screens.__getitem__)))
        if random.random() < 0.005:
            self.learning = random.randrange(20, 150)
            pilot.press(random.choice(BEGINNINGS))
        kind = random.random()
        if self.learning:
            self.learning -= 1
            kind = 0.7 + 0.3 * kind
        if kind < 0.15:
            self.pointer.act(pilot)
            return
        if kind < 0.8:
            given = random_input(random, pilot)
        else:
            given = good_turn(random, pilot) if kind < 0.95 else KeyPressed("enter")
        if given is not None:
            pilot.give(given)

    def _restart(self) -> None:
        """The window was closed: the program begins anew over the same files."""
        self.pilot.application.close()
        self.restarts += 1
        self.pilot = self._started()

    def growth(self) -> float:
        """MiB by which the process grew from the second fifth of the walk to its last.

        Taken between the least of each, since what is held rises and falls with what is on the screen.
        """
        fifth = max(1, len(self.held) // 5)
        return min(self.held[-fifth:]) - min(self.held[fifth : 2 * fifth + 1])

    def close(self) -> None:
        """End the program."""
        self.pilot.application.close()


def resident() -> float:
    """MiB of memory that this process holds (proc(5), statm)."""
    pages = int(Path("/proc/self/statm").read_text().split()[1])
    return pages * os.sysconf("SC_PAGE_SIZE") / 2**20
