"""Positions as immutable values."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tutor.cube.faces import TURNS, Turn, inverse
from tutor.cube.geometry import CORNER_FACES, EDGE_FACES, place_name
from tutor.cube.position import CROSS_EDGES, SLOTS, SOLVED, TURN_POSITIONS, Position, Slot

sequences = st.lists(st.sampled_from(TURNS), max_size=25).map(tuple)


def test_the_solved_position_has_every_piece_home() -> None:
    assert SOLVED.cross_home
    assert SOLVED.home_pairs == frozenset(SLOTS)
    assert SOLVED.array().tolist() == [*range(0, 24, 3), *range(0, 24, 2)]
    assert SOLVED.array().dtype == np.uint8


def test_slots_and_cross_name_the_pieces_they_mean() -> None:
    for slot in SLOTS:
        assert place_name(CORNER_FACES[slot.corner]) == f"D{slot.name}"
        assert place_name(EDGE_FACES[slot.edge]) == slot.name
    assert {place_name(EDGE_FACES[edge]) for edge in CROSS_EDGES} == {"DF", "DL", "DB", "DR"}


def test_a_position_cannot_be_changed() -> None:
    with pytest.raises(AttributeError, match="immutable"):
        SOLVED.corners = ()  # type: ignore[misc]


def test_turning_makes_a_new_value_and_equal_positions_are_equal_values() -> None:
    assert SOLVED.turned(Turn.R) != SOLVED
    assert SOLVED.after([Turn.R] * 4) == SOLVED
    assert len({SOLVED, SOLVED.after([Turn.R2, Turn.R2])}) == 1


@given(sequences, sequences)
def test_applying_a_position_is_applying_its_turns(first: tuple[Turn, ...], second: tuple[Turn, ...]) -> None:
    assert SOLVED.after(first).then(SOLVED.after(second)) == SOLVED.after(first + second)


@given(sequences)
def test_the_inverse_position_is_made_by_the_inverse_sequence(turns: tuple[Turn, ...]) -> None:
    position = SOLVED.after(turns)
    assert position.inverse() == SOLVED.after(inverse(turns))
    assert position.then(position.inverse()) == SOLVED


def test_each_turn_position_is_one_turn_of_the_solved_cube() -> None:
    assert tuple(SOLVED.turned(turn) for turn in TURNS) == TURN_POSITIONS
    assert len(set(TURN_POSITIONS)) == 18


@pytest.mark.parametrize(
    ("turns", "cross", "home"),
    [
        ((Turn.U,), True, {Slot.FR, Slot.FL, Slot.BL, Slot.BR}),
        ((Turn.R, Turn.U, Turn.R_PRIME), True, {Slot.FL, Slot.BL, Slot.BR}),
        ((Turn.R,), False, {Slot.FL, Slot.BL}),
        ((Turn.D,), False, set()),
        ((Turn.F2,), False, {Slot.BL, Slot.BR}),
    ],
)
def test_cross_and_pairs_are_home_only_when_they_are(
    turns: tuple[Turn, ...], cross: bool, home: set[Slot]
) -> None:
    position = SOLVED.after(turns)
    assert position.cross_home is cross
    assert position.home_pairs == home


def test_a_pair_in_its_slot_the_wrong_way_round_is_not_home() -> None:
    corners, edges = list(SOLVED.corners), list(SOLVED.edges)
    corners[Slot.FR.corner] += 1
    assert not Position(tuple(corners), SOLVED.edges).pair_home(Slot.FR)
    edges[Slot.FR.edge] += 1
    assert not Position(SOLVED.corners, tuple(edges)).pair_home(Slot.FR)
