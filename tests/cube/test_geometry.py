"""Stickers, places and how turns move them, held against a published table of the six turns."""

import numpy as np
import pytest

from tutor.cube.faces import FACES, TURNS, Face, Turn
from tutor.cube.geometry import (
    CORNER_FACES,
    CORNER_MOVE,
    CORNER_STICKERS,
    EDGE_FACES,
    EDGE_MOVE,
    EDGE_STICKERS,
    NORMALS,
    SIDE_RING,
    STICKER_AT,
    STICKERS,
    SYMMETRY_MATRICES,
    cubie_number,
    place_name,
    quarter_matrix,
    turn_sticker_map,
)

# Martin Schoenert, "Analyzing Rubik's Cube with GAP" (an example in the documentation of GAP): the stickers
# of an unfolded cube, centres left out, numbered row by row on U, L, F, R, B, D in this order; each turn
# clockwise, as cycles. WCA 12a1 defines the same turns in words.
PUBLISHED_FACES = (Face.U, Face.L, Face.F, Face.R, Face.B, Face.D)
PUBLISHED_CYCLES = {
    Face.U: ((1, 3, 8, 6), (2, 5, 7, 4), (9, 33, 25, 17), (10, 34, 26, 18), (11, 35, 27, 19)),
    Face.L: ((9, 11, 16, 14), (10, 13, 15, 12), (1, 17, 41, 40), (4, 20, 44, 37), (6, 22, 46, 35)),
    Face.F: ((17, 19, 24, 22), (18, 21, 23, 20), (6, 25, 43, 16), (7, 28, 42, 13), (8, 30, 41, 11)),
    Face.R: ((25, 27, 32, 30), (26, 29, 31, 28), (3, 38, 43, 19), (5, 36, 45, 21), (8, 33, 48, 24)),
    Face.B: ((33, 35, 40, 38), (34, 37, 39, 36), (3, 9, 46, 32), (2, 12, 47, 29), (1, 14, 48, 27)),
    Face.D: ((41, 43, 48, 46), (42, 45, 47, 44), (14, 22, 30, 38), (15, 23, 31, 39), (16, 24, 32, 40)),
}


def own_number(published: int) -> int:
    """Our sticker number for one of the published numbers 1 to 48."""
    page, index = divmod(published - 1, 8)
    return 9 * PUBLISHED_FACES[page] + index + (index >= 4)


@pytest.mark.parametrize("face", FACES)
def test_a_quarter_turn_moves_stickers_as_published(face: Face) -> None:
    expected = list(range(54))
    for cycle in PUBLISHED_CYCLES[face]:
        for here, there in zip(cycle, (*cycle[1:], cycle[0]), strict=True):
            expected[own_number(here)] = own_number(there)
    assert turn_sticker_map(Turn.of(face, 1)).tolist() == expected


@pytest.mark.parametrize("turn", TURNS)
def test_a_turn_of_more_quarters_is_quarter_turns_in_a_row(turn: Turn) -> None:
    quarter = turn_sticker_map(Turn.of(turn.face, 1))
    carried = np.arange(54)
    for _ in range(turn.quarters):
        carried = quarter[carried]
    assert turn_sticker_map(turn).tolist() == carried.tolist()


@pytest.mark.parametrize("face", FACES)
def test_a_quarter_matrix_is_a_rotation_about_its_own_face(face: Face) -> None:
    matrix = quarter_matrix(face)
    assert (matrix @ np.array(NORMALS[face]) == np.array(NORMALS[face])).all()
    assert round(float(np.linalg.det(matrix))) == 1
    assert (np.linalg.matrix_power(matrix, 4) == np.eye(3)).all()
    assert not (np.linalg.matrix_power(matrix, 2) == np.eye(3)).all()


def test_every_sticker_lies_on_the_outside_of_its_face() -> None:
    assert len(STICKERS) == len(STICKER_AT) == 54
    for cubie, face in STICKERS:
        assert np.dot(cubie, NORMALS[face]) == 1


def test_rows_run_down_and_columns_right_as_seen_from_outside() -> None:
    corners = [0, 2, 6, 8]  # of a page, row by row
    up = [STICKERS[9 * Face.U + index][0] for index in corners]
    assert up == [(-1, 1, -1), (1, 1, -1), (-1, 1, 1), (1, 1, 1)]  # B above, L to the left
    down = [STICKERS[9 * Face.D + index][0] for index in corners]
    assert down == [(-1, -1, 1), (1, -1, 1), (-1, -1, -1), (1, -1, -1)]  # F above, L to the left
    back = [STICKERS[9 * Face.B + index][0] for index in corners]
    assert back == [(1, 1, -1), (-1, 1, -1), (1, -1, -1), (-1, -1, -1)]  # U above, R to the left


def test_cubies_are_numbered_from_0_to_26() -> None:
    cubies = {(x, y, z) for x in (-1, 0, 1) for y in (-1, 0, 1) for z in (-1, 0, 1)}
    assert sorted(cubie_number(cubie) for cubie in cubies) == list(range(27))
    assert cubie_number((0, 0, 0)) == 13
    assert cubie_number((1, -1, 0)) == 9 * 2 + 3 * 0 + 1


def test_places_are_named_by_their_faces() -> None:
    assert [place_name(faces) for faces in CORNER_FACES] == [
        "UFR", "UFL", "UBL", "UBR", "DFR", "DFL", "DBL", "DBR",
    ]  # fmt: skip
    assert [place_name(faces) for faces in EDGE_FACES] == [
        "UF", "UL", "UB", "UR", "FR", "FL", "BL", "BR", "DF", "DL", "DB", "DR",
    ]  # fmt: skip


def test_first_stickers_are_on_top_or_bottom_else_front_or_back() -> None:
    assert all(faces[0] in (Face.U, Face.D) for faces in CORNER_FACES)
    assert all(faces[0] in (Face.U, Face.D, Face.F, Face.B) for faces in EDGE_FACES)
    assert all(not {Face.U, Face.D} & set(faces[1:]) for faces in EDGE_FACES)


def test_corner_stickers_run_clockwise() -> None:
    # Seen from outside the corner UFR, the faces U, R, F follow one another clockwise.
    assert CORNER_FACES[0] == (Face.U, Face.R, Face.F)
    # Turning the cube about the axis through UFR by a third carries U to R, R to F, F to U.
    for faces in CORNER_FACES:
        matrix = np.array([NORMALS[face] for face in faces])
        assert round(float(np.linalg.det(matrix))) == -1


def test_corners_edges_and_centres_share_out_the_stickers() -> None:
    centres = [9 * face + 4 for face in FACES]
    assert sorted([*CORNER_STICKERS, *EDGE_STICKERS, *centres]) == list(range(54))


def test_a_turn_of_the_top_carries_the_front_along_the_ring_of_sides() -> None:
    carried = turn_sticker_map(Turn.U)
    for here, there in zip(SIDE_RING, (*SIDE_RING[1:], SIDE_RING[0]), strict=True):
        assert int(carried[9 * here + 1]) == 9 * there + 1


@pytest.mark.parametrize("turn", TURNS)
def test_location_tables_say_what_the_sticker_map_says(turn: Turn) -> None:
    carried = turn_sticker_map(turn)
    assert [CORNER_STICKERS[location] for location in CORNER_MOVE[turn]] == carried[
        list(CORNER_STICKERS)
    ].tolist()
    assert [EDGE_STICKERS[location] for location in EDGE_MOVE[turn]] == carried[list(EDGE_STICKERS)].tolist()


def test_location_tables_cannot_be_written_to() -> None:
    for table in (CORNER_MOVE, EDGE_MOVE):
        with pytest.raises(ValueError, match="read-only"):
            table[0, 0] = 1


def test_there_are_48_symmetries_half_of_them_rotations() -> None:
    determinants = [round(float(np.linalg.det(matrix))) for matrix in SYMMETRY_MATRICES]
    assert len({matrix.tobytes() for matrix in SYMMETRY_MATRICES}) == 48
    assert determinants.count(1) == determinants.count(-1) == 24
