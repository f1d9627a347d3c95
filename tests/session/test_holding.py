"""One way of holding for each cross colour, on every screen, in every film and on every sheet."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from tests.session.held import held
from tests.session.names import action_name
from tests.session.pilot import Pilot
from tutor.cube.faces import FACES, Face
from tutor.cube.held_cube import HeldCube, first_hold
from tutor.cube.notation import parse_moves, rotations_to
from tutor.cube.position import SOLVED, Slot
from tutor.cube.symmetry import ROTATIONS, Symmetry
from tutor.lesson.variation import Variation
from tutor.method.cases import CASES
from tutor.publish.subject import case_subject
from tutor.screens.case_book.commands import OpenCase
from tutor.screens.free_play.state import FREE
from tutor.screens.looking_ahead.state import LOOKING
from tutor.screens.practice.commands import TryCase
from tutor.screens.solve.commands import ChooseCross
from tutor.screens.solve.state import SOLVE
from tutor.session.cube_text import for_scramble
from tutor.session.navigation import with_settings
from tutor.solver.search import Solver


@pytest.mark.parametrize("cross", FACES)
def test_every_screen_and_handout_holds_the_cube_alike(solver: Solver, cross: Face) -> None:
    pilot = Pilot(solver)
    settings = replace(pilot.session.settings, cross=cross)
    pilot.application.session = with_settings(pilot.session, settings)
    found: dict[str, Symmetry] = {}
    pilot.press("open:FREE_PLAY")
    found["free play"] = FREE.of(pilot.session).cube.viewpoint
    pilot.key("n")
    pilot.settle()
    found["free play, scrambled"] = FREE.of(pilot.session).cube.viewpoint
    pilot.turn("y")
    pilot.press("free:AS_SOLVE")
    found["a solve from free play"] = held(SOLVE.of(pilot.session)).attempt.cube.viewpoint
    pilot.turn("y")
    pilot.press("solve:LOOK_AHEAD")
    found["looking ahead"] = held(LOOKING.of(pilot.session)).cube.viewpoint
    pilot.press("open:SOLVE")
    pilot.press("solve:NEW_SOLVE")
    pilot.press("act:SCRAMBLE")
    pilot.settle()
    found["a solve"] = held(SOLVE.of(pilot.session)).attempt.cube.viewpoint
    pilot.press(action_name(OpenCase(CASES[3].slug, Slot.BL, 1)))
    found["case book"] = held(pilot.session.attempt).cube.viewpoint
    pilot.press(action_name(TryCase(CASES[3].slug)))
    found["practice"] = held(pilot.session.attempt).cube.viewpoint
    found["films and sheets"] = case_subject(CASES[3], Slot.FL, 1, cross).cube.viewpoint
    found["lessons"] = Variation(cross=cross).held(HeldCube()).viewpoint
    assert {name for name, viewpoint in found.items() if viewpoint != first_hold(cross)} == set()
    assert HeldCube(SOLVED).held_for(cross).face_of(cross) is Face.D


def test_the_first_hold_has_green_in_front_unless_it_is_the_cross_or_opposite_to_it() -> None:
    # Colours by number: yellow 0, white 1, red 2, orange 3, green 4, blue 5.
    for cross in FACES:
        front = HeldCube(SOLVED).held_for(cross).colour_of(Face.F)
        assert front is (Face.U if cross in (Face.F, Face.B) else Face.F)


def test_another_cross_colour_in_a_solve_turns_the_cube_to_its_hold(pilot: Pilot) -> None:
    pilot.press("open:SOLVE")
    pilot.press("act:SCRAMBLE")
    pilot.settle()
    state = held(SOLVE.of(pilot.session)).attempt.cube.state
    for cross in (Face.F, Face.L, Face.B, Face.U, Face.D):
        pilot.give_keys("y")
        pilot.press(action_name(ChooseCross(cross)))
        cube = held(SOLVE.of(pilot.session)).attempt.cube
        assert (cube.viewpoint, cube.state) == (first_hold(cross), state)


@pytest.mark.parametrize("rotation", ROTATIONS)
def test_two_rotations_at_most_bring_any_hold_about(rotation: Symmetry) -> None:
    ways = rotations_to(rotation)
    assert len(ways) <= 2
    cube = for_scramble().after(parse_moves("R U F2"))
    assert cube.after(ways) == cube.rotated(rotation)
