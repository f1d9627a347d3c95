"""The cube in the hands: viewpoints, wide turns, rotations and how turns are counted."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tutor.cube.faces import FACES, TURNS, Face, Turn
from tutor.cube.geometry import FACE_OF_NORMAL, NORMALS, STICKER_AT, STICKERS, quarter_matrix
from tutor.cube.held_cube import HeldCube, face_turns, length, reduced
from tutor.cube.notation import Axis, Move, Rotation, WideTurn, parse_moves
from tutor.cube.position import SOLVED
from tutor.cube.symmetry import IDENTITY

QUARTERS = st.sampled_from((1, 2, 3))
rotations = st.builds(Rotation, st.sampled_from(list(Axis)), QUARTERS)
wide_turns = st.builds(WideTurn, st.sampled_from(FACES), QUARTERS)
moves = st.one_of(st.sampled_from(TURNS), wide_turns, rotations)
sequences = st.lists(moves, max_size=15).map(tuple)


def layers_turned(colours: tuple[int, ...], face: Face, quarters: int, deepest: int) -> tuple[int, ...]:
    """The stickers once the layers from ``face`` to ``deepest`` (1 outer, 0 middle, -1 far) are turned."""
    matrix = np.linalg.matrix_power(quarter_matrix(face), quarters)
    turned = list(colours)
    for sticker, (cubie, side) in enumerate(STICKERS):
        if np.dot(cubie, NORMALS[face]) >= deepest:
            place, normal = (tuple((matrix @ vector).tolist()) for vector in (cubie, NORMALS[side]))
            turned[STICKER_AT[place, FACE_OF_NORMAL[normal]]] = colours[sticker]
    return tuple(turned)


@given(sequences, moves)
def test_each_move_turns_its_layers_on_the_cube_one_sees(before: tuple[Move, ...], move: Move) -> None:
    cube = HeldCube().after(before)
    face = Face(move.axis) if isinstance(move, Rotation) else move.face
    deepest = 1 if isinstance(move, Turn) else 0 if isinstance(move, WideTurn) else -1
    assert cube.moved(move).colours == layers_turned(cube.colours, face, move.quarters, deepest)


@given(sequences, rotations)
def test_12i_a_rotation_does_not_change_the_state(before: tuple[Move, ...], rotation: Rotation) -> None:
    cube = HeldCube().after(before)
    assert cube.moved(rotation).state == cube.state


@given(sequences, moves)
def test_every_move_is_taken_back_by_its_inverse(before: tuple[Move, ...], move: Move) -> None:
    cube = HeldCube().after(before)
    assert cube.moved(move).moved(move.inverse) == cube


@given(sequences)
def test_face_turns_in_the_first_frame_make_the_same_state(sequence: tuple[Move, ...]) -> None:
    cube = HeldCube().after(sequence)
    turns, viewpoint = face_turns(sequence)
    assert SOLVED.after(turns) == cube.state
    assert viewpoint == cube.viewpoint
    assert len(turns) == length(sequence)


@given(sequences)
def test_centres_tell_the_viewpoint(sequence: tuple[Move, ...]) -> None:
    cube = HeldCube().after(sequence)
    for face in FACES:
        assert cube.colours[9 * face + 4] == cube.colour_of(face)
        assert cube.face_of(cube.colour_of(face)) is face


def test_12a5_face_and_wide_turns_count_one_and_rotations_none() -> None:
    assert length(parse_moves("R Rw2 y 2Uw' x2 U2")) == 4
    assert length(()) == 0


def test_a_wide_turn_is_the_opposite_face_and_a_rotation() -> None:
    assert HeldCube().after(parse_moves("Rw")) == HeldCube().after(parse_moves("x L"))
    assert HeldCube().after(parse_moves("Uw2")) == HeldCube().after(parse_moves("y2 D2"))
    assert reduced(WideTurn(Face.R, 3)) is Turn.L_PRIME
    assert reduced(Turn.F) is Turn.F


def test_a_rotation_comes_down_to_no_turn() -> None:
    with pytest.raises(ValueError, match="y2 turns the whole cube and no face"):
        reduced(Rotation(Axis.Y, 2))


def test_after_a_rotation_faces_are_named_as_held() -> None:
    # After y the former right side is in front (WCA 12a4b), so F turns it.
    assert face_turns(parse_moves("y F"))[0] == (Turn.R,)
    assert face_turns(parse_moves("x U"))[0] == (Turn.F,)


def test_white_down_and_green_in_front_is_the_first_hold() -> None:
    assert HeldCube().viewpoint == IDENTITY
    assert HeldCube().colours == tuple(face for face in FACES for _ in range(9))
