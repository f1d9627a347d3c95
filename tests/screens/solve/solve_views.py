"""Views of whole solves for the test that every screen fits: advice, review, saved solves, looking ahead."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from tests.screens.solve.test_solving import cross_made, driven, scrambled, written
from tests.session.pilot import Pilot
from tutor.app.files.solves import SolvesShelf
from tutor.screens.solve.state import SHELF
from tutor.solver.search import Solver
from tutor.ui.view import View


def solve_views(solver: Solver, folder: Path) -> Iterator[tuple[str, View]]:
    """Every kind of view of a whole solve, by name."""
    pilot = Pilot(solver, shelf=SolvesShelf(folder, lambda: 1795600000.0))
    scrambled(pilot)
    yield "solve, cross", pilot.view
    cross_made(pilot)
    pilot.wait(12.0)
    yield "solve, advice", pilot.view
    pilot.turn("U R U' R' U2 U' R U2 R' F D2 F'")
    cross_made(pilot)
    driven(pilot)
    yield "solve, review", pilot.view
    pilot.press("fewest:1")
    pilot.wait(2.0)
    yield "solve, fewest shown", pilot.view
    pilot.key("escape")
    pilot.press("solve:NEW_SOLVE")
    written(pilot, "R U2 F' D B2")
    pilot.turn("R U")
    pilot.press("solve:KEEP")
    pilot.settle()
    yield "solve, in hand", pilot.view
    (folder / "damaged.txt").write_text("no solve")
    pilot.press("solve:NEW_SOLVE")
    pilot.settle()
    yield "solve, saved ones", pilot.view
    pilot.press("solve:DELETE_SOME")
    pilot.press(f"delete?:{SHELF.of(pilot.session).entries[0].name}")
    yield "solve, one to delete", pilot.view
    yield from _looking_ahead(pilot)


def _looking_ahead(pilot: Pilot) -> Iterator[tuple[str, View]]:
    pilot.press("ahead:ANEW")
    pilot.settle()
    yield "looking ahead, ready", pilot.view
    pilot.key("space")
    pilot.wait(2.0)
    yield "looking ahead, playing", pilot.view
    pilot.wait(60.0)
    yield "looking ahead, corner", pilot.view
    pilot.key("1")
    yield "looking ahead, edge", pilot.view
    pilot.key("2")
    yield "looking ahead, told", pilot.view
