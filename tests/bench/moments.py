"""What a person waits for, one moment in a new process: ``python -m tests.bench.moments NAME [--costs]``.

It prints the milliseconds of processor time as JSON, or with ``--costs`` what ``tests.bench.costs`` makes a
table of. A moment ends when what is to be seen is laid out; drawing is measured with the frames.
"""

from __future__ import annotations

import argparse
import json
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from random import Random

from render.layout.panels import layout
from tests.bench.profiling import costs_of, tell
from tests.session.pilot import Pilot
from tutor.app import compose
from tutor.cube.random_position import random_with_cross
from tutor.lesson.library import curriculum_names
from tutor.method.advice import PairsQuestion, PlanQuestion, advise
from tutor.screens.lesson.commands import AS_WRITTEN
from tutor.session.settings import Settings
from tutor.solver.search import Solver

Act = Callable[[], object]
MANY = 20_000


def shown(pilot: Pilot, act: Act) -> Act:
    """An act with what it brings to the screen, laid out."""

    def whole() -> None:
        act()
        pilot.settle()
        layout(pilot.view, 1280, 800)

    return whole


def at_home() -> Pilot:
    """Home has been seen, and nothing else."""
    pilot = Pilot(Solver.open(), titles=True)
    layout(pilot.view, 1280, 800)
    return pilot


def first_lesson(_: Path) -> Act:
    """The first lesson, read and worked out."""
    return lambda: compose.read_lesson(None, curriculum_names()[0], AS_WRITTEN, Settings())


def first_key(_: Path) -> Act:
    """The focus moves on Home."""
    pilot = at_home()
    return shown(pilot, lambda: pilot.key("tab"))


def in_free_play() -> Pilot:
    """A pair not yet solved, its answers there."""
    pilot = at_home()
    pilot.free_play("R U R'")
    pilot.settle()
    layout(pilot.view, 1280, 800)
    return pilot


def card(_: Path) -> Act:
    """A hint comes onto the card."""
    pilot = in_free_play()
    return shown(pilot, lambda: pilot.key("h"))


def verdict(_: Path) -> Act:
    """A turn, and what the card says of it."""
    pilot = in_free_play()
    return shown(pilot, lambda: pilot.key("f"))


def case_book(_: Path) -> Act:
    """The case book, opened from Home."""
    pilot = at_home()
    return shown(pilot, lambda: pilot.press("open:CASE_BOOK"))


def progress(folder: Path) -> Act:
    """Progress of a learner with twenty thousand attempts, from the file on."""
    from tests.bench.bench_store import invented
    from tests.screens.progress.test_progress import seated

    drawn = Random(1)
    seated(Solver.open(), folder, tuple(invented(number, drawn) for number in range(MANY)))

    def opened() -> None:
        layout(seated(Solver.open(), folder).view, 1280, 800)

    return opened


def advice(_: Path) -> Act:
    """Advice with only the cross made: the costs of all pairs, and the search over orders."""
    solver, position = Solver.open(), random_with_cross(Random(5))
    return lambda: [advise(solver, question(position)) for question in (PairsQuestion, PlanQuestion)]


MOMENTS: dict[str, Callable[[Path], Act]] = {
    "first lesson": first_lesson,
    "first key": first_key,
    "card": card,
    "verdict": verdict,
    "case book": case_book,
    "progress": progress,
    "advice": advice,
}


def main() -> None:
    """Run it from the command line."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench.moments")
    parser.add_argument("moment", choices=MOMENTS)
    parser.add_argument("--costs", action="store_true")
    chosen = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        act = MOMENTS[chosen.moment](Path(folder))
        if chosen.costs:
            tell(costs_of(act))
        else:
            begun = time.process_time()
            act()
            print(json.dumps(1000 * (time.process_time() - begun)))


if __name__ == "__main__":
    main()
