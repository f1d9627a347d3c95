"""Rotations and mirror images of the whole cube."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tutor.cube.faces import FACES, TURNS, Face, Turn
from tutor.cube.position import SOLVED, Position
from tutor.cube.symmetry import (
    IDENTITY,
    MIRROR_FRONT_BACK,
    MIRROR_LEFT_RIGHT,
    ROTATIONS,
    SYMMETRIES,
    Symmetry,
    quarter_about,
    rotation_with,
)

positions = st.lists(st.sampled_from(TURNS), max_size=25).map(SOLVED.after)
turns = st.sampled_from(TURNS)
symmetries = st.sampled_from(SYMMETRIES)


def test_there_are_24_rotations_and_24_mirror_images() -> None:
    # The rotation group of the cube has 24 elements, with reflections 48 (textbook).
    assert len(SYMMETRIES) == len(set(SYMMETRIES)) == 48
    assert len(ROTATIONS) == 24
    assert not any(rotation.mirrors for rotation in ROTATIONS)


def test_quarters_about_two_faces_make_all_24_rotations() -> None:
    reached = {IDENTITY}
    frontier = {IDENTITY}
    while frontier:
        frontier = {quarter_about(f, 1) @ s for s in frontier for f in (Face.R, Face.U)} - reached
        reached |= frontier
    assert reached == set(ROTATIONS)


def test_rotations_carry_faces_as_the_rules_say() -> None:
    # WCA 12a4a-c: x, y, z turn the whole cube in the direction of R, U, F.
    assert quarter_about(Face.R, 1).faces[Face.F] is Face.U
    assert quarter_about(Face.U, 1).faces[Face.F] is Face.L
    assert quarter_about(Face.F, 1).faces[Face.U] is Face.R
    assert quarter_about(Face.U, 5) == quarter_about(Face.U, 1) == quarter_about(Face.D, -1)


@given(symmetries, symmetries, positions)
def test_one_symmetry_after_another_is_their_product(first: Symmetry, second: Symmetry, at: Position) -> None:
    assert at.carried(first).carried(second) == at.carried(second @ first)
    assert (second @ first).mirrors == (second.mirrors != first.mirrors)


@given(symmetries, positions)
def test_the_inverse_takes_a_symmetry_back(symmetry: Symmetry, position: Position) -> None:
    assert symmetry @ symmetry.inverse == symmetry.inverse @ symmetry == IDENTITY
    assert position.carried(symmetry).carried(symmetry.inverse) == position


@given(symmetries, turns, positions)
def test_carrying_and_turning_commute(symmetry: Symmetry, turn: Turn, position: Position) -> None:
    assert position.turned(turn).carried(symmetry) == position.carried(symmetry).turned(symmetry.turn(turn))


@given(symmetries, st.lists(turns, max_size=8).map(tuple))
def test_a_sequence_is_carried_turn_by_turn(symmetry: Symmetry, sequence: tuple[Turn, ...]) -> None:
    assert SOLVED.after(symmetry.turns(sequence)) == SOLVED.after(sequence).carried(symmetry)


def test_every_symmetry_leaves_the_solved_cube_solved() -> None:
    assert all(SOLVED.carried(symmetry) == SOLVED for symmetry in SYMMETRIES)


@given(positions)
def test_a_mirror_twice_is_no_mirror(position: Position) -> None:
    for mirror in (MIRROR_LEFT_RIGHT, MIRROR_FRONT_BACK):
        assert mirror.mirrors
        assert mirror @ mirror == IDENTITY
        assert position.carried(mirror).carried(mirror) == position


def test_mirrors_exchange_their_faces_and_reverse_the_direction() -> None:
    assert MIRROR_LEFT_RIGHT.turns((Turn.R, Turn.U, Turn.F2)) == (Turn.L_PRIME, Turn.U_PRIME, Turn.F2)
    assert MIRROR_FRONT_BACK.turns((Turn.F, Turn.U, Turn.R2)) == (Turn.B_PRIME, Turn.U_PRIME, Turn.R2)


def test_both_mirrors_together_are_the_half_turn_of_the_cube() -> None:
    assert quarter_about(Face.U, 2) == MIRROR_LEFT_RIGHT @ MIRROR_FRONT_BACK


@given(symmetries)
def test_locations_are_carried_one_to_one(symmetry: Symmetry) -> None:
    assert sorted(symmetry.stickers) == list(range(54))
    assert sorted(symmetry.corner_locations) == sorted(symmetry.edge_locations) == list(range(24))


def test_a_rotation_is_found_by_what_is_down_and_in_front() -> None:
    found = {rotation_with(d, f) for d in FACES for f in FACES if f not in (d, d.opposite)}
    assert found == set(ROTATIONS)
    assert rotation_with(Face.D, Face.F) == IDENTITY
    assert rotation_with(Face.U, Face.B).faces[Face.U] is Face.D


@pytest.mark.parametrize("front", [Face.L, Face.R])
def test_faces_that_are_not_neighbours_make_no_hold(front: Face) -> None:
    with pytest.raises(ValueError, match="they must be neighbours"):
        rotation_with(Face.L, front)
