from __future__ import annotations

import pytest

from tests.coach.table import COLOURS
from tutor.coach.scene import Piece
from tutor.coach.sight import Sight, hidden_in
from tutor.cube.faces import Face
from tutor.cube.geometry import CORNER_FACES, EDGE_FACES
from tutor.cube.notation import parse_turns
from tutor.cube.position import SLOTS, SOLVED, Slot
from tutor.solver.task import Task


def sight(setup: str, slot: Slot = Slot.FR) -> Sight:
    return Sight(SOLVED.after(parse_turns(setup)), Task(slot, frozenset(SLOTS) - {slot}), COLOURS)


@pytest.mark.parametrize(
    ("slot", "corner"),
    [
        (Slot.FR, "white-green-orange"),
        (Slot.FL, "white-red-green"),
        (Slot.BL, "white-blue-red"),
        (Slot.BR, "white-orange-blue"),
    ],
)
def test_a_corner_is_named_cross_colour_first_then_left_to_right_as_seen(slot: Slot, corner: str) -> None:
    assert sight("", slot).corner_name == corner
    assert sight("", slot).edge_name == corner.removeprefix("white-")


@pytest.mark.parametrize(
    ("setup", "corner", "edge"),
    [
        ("", "in the front-right slot", "in the front-right slot"),
        ("R", "on top at the front right", "on top at the right"),
        ("R U' R'", "on top at the front right", "on top at the back"),
        ("R2", "on top at the back right", "in the middle at the back right"),
        ("F'", "on top at the front right", "on top at the front"),
        ("R'", "at the bottom back right", "at the bottom right"),
        ("B R", "on top at the front right", "on top at the right"),
        ("L R2 L'", "on top at the back right", "in the middle at the back right"),
    ],
)
def test_places_are_told_as_one_sees_them(setup: str, corner: str, edge: str) -> None:
    assert sight(setup).place(Piece.CORNER).text == corner
    assert sight(setup).place(Piece.EDGE).text == edge


def test_only_what_lies_between_back_left_and_bottom_is_hidden() -> None:
    hidden = {frozenset(faces) for faces in (*CORNER_FACES, *EDGE_FACES) if hidden_in(faces) is not None}
    behind = {Face.B, Face.L, Face.D}
    assert hidden == {faces for faces in map(frozenset, (*CORNER_FACES, *EDGE_FACES)) if faces <= behind}
    assert len(hidden) == 4


def test_a_hidden_piece_is_named_with_its_mirror() -> None:
    assert sight("", Slot.BL).named(Piece.CORNER).text == "the white-blue-red corner (in the left mirror)"
    assert sight("B", Slot.BR).brief(Piece.EDGE).text == "the edge"
    assert sight("", Slot.FR).named(Piece.EDGE).text == "the green-orange edge"


@pytest.mark.parametrize(
    ("setup", "direction"), [("", "down"), ("R", "to the front"), ("F'", "right"), ("R U R'", "left")]
)
def test_the_cross_colour_points_where_it_shows(setup: str, direction: str) -> None:
    assert sight(setup).cross_points().text == direction


def test_a_single_layer_out_of_place_is_known_and_two_are_not() -> None:
    assert sight("").settling_face is None
    assert sight("R U").settling_face is Face.R
    assert sight("R L").settling_face is None
