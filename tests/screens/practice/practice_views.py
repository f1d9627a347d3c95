"""The states of practice, one after the other, with a history of a club of invented learners."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from tests.screens.practice.sitting import DAY, begin, finish, practised_before, run_of, sits_down
from tests.session.pilot import Pilot
from tutor.progress.store import AttemptStore
from tutor.solver.search import Solver
from tutor.ui.view import View


def practice_views(solver: Solver, club: Path, nobody: Path) -> Iterator[tuple[str, View]]:
    """What a learner gets to see; ``club`` and ``nobody`` are empty folders."""
    practised_before(club)
    with AttemptStore.open(club) as store:
        for name in ("Tova", "Imre", "Sanna", "Ilva of the Thursday table at the library"[:40]):
            store.add_learner(name)
    pilot = sits_down(solver, club)
    yield "home, several learners", pilot.view
    pilot.press("open:LEARNERS")
    pilot.write("=Tova")
    pilot.key("enter")
    yield "learners", pilot.view
    pilot.press("open:PRACTICE")
    yield "practice, an empty list", pilot.view
    yield from _sitting(pilot)
    yield from _glance(pilot)
    yield from _steady(pilot)
    pilot.press("practice:END")
    yield "practice, the end", pilot.view
    yield from _at_the_beginning(solver, nobody)


def _sitting(pilot: Pilot) -> Iterator[tuple[str, View]]:
    pilot.wait(60 * DAY)
    pilot.press("goal:attempts:5")
    begin(pilot)
    yield "practice, a case proposed", pilot.view
    finish(pilot)
    yield "practice, a case over", pilot.view
    pilot.press("practice:UNCOUNT")
    pilot.settle()
    yield "practice, taken back", pilot.view
    pilot.key("escape")
    yield "practice, under way", pilot.view


def _glance(pilot: Pilot) -> Iterator[tuple[str, View]]:
    begin(pilot, "practise:GLANCE:")
    pilot.wait(4.0)
    yield "glance, the step", pilot.view
    pilot.key("2")
    pilot.key("r")
    yield "glance, the turn", pilot.view
    pilot.key("enter")
    pilot.wait(1.0)
    yield "glance, over", pilot.view


def _steady(pilot: Pilot) -> Iterator[tuple[str, View]]:
    begin(pilot, "practise:STEADY:")
    pilot.wait(3.1)
    yield "steady, before the first turn", pilot.view
    pilot.turn("D")
    pilot.wait(2.0)
    yield "steady, a turn made", pilot.view
    pilot.turn("D'")
    finish(pilot)
    pilot.wait(2.0)
    assert run_of(pilot).over
    yield "steady, over", pilot.view


def _at_the_beginning(solver: Solver, nobody: Path) -> Iterator[tuple[str, View]]:
    pilot = sits_down(solver, nobody)
    yield "home, one learner", pilot.view
    pilot.press("open:PRACTICE")
    yield "practice, a beginner", pilot.view
    begin(pilot, "practise:STEADY:")
    yield "practice, nothing this way", pilot.view
    blocked = nobody / "in-the-way"
    blocked.write_text("not a folder")
    unsaved = sits_down(solver, blocked)
    begin(unsaved)
    finish(unsaved)
    yield "practice, not saved", unsaved.view
