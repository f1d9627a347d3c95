import numpy as np
import pytest

from render.stage.geometry import (
    CUBIE_PLACES,
    FRAMES,
    STICKER_CUBIES,
    STICKERS_OF_CUBIE,
    cubie_number,
    sticker_at,
    sticker_centre,
    sticker_cubie_place,
    turned_cubies,
    turning_matrix,
)
from render.stage.linear import vector
from tutor.ui.view import Face, Turning


@pytest.mark.parametrize(
    ("face", "above"),
    [
        (Face.U, Face.B),
        (Face.D, Face.F),
        (Face.L, Face.U),
        (Face.R, Face.U),
        (Face.F, Face.U),
        (Face.B, Face.U),
    ],
)
def test_each_face_lies_on_the_page_as_the_view_says(face: Face, above: Face) -> None:
    frame = FRAMES[face]
    assert np.allclose(-vector(frame.down), FRAMES[above].normal)
    # Right, up and out are a right-handed triple for someone who looks at the face from outside.
    assert np.allclose(np.cross(frame.right, -vector(frame.down)), frame.normal)


def test_cubies_are_numbered_by_their_coordinates() -> None:
    assert [cubie_number(place) for place in CUBIE_PLACES] == list(range(27))
    assert cubie_number((1, -1, 0)) == 9 * 2 + 3 * 0 + 1


def test_there_are_eight_corners_twelve_edges_and_six_centres() -> None:
    counts = [len(stickers) for stickers in STICKERS_OF_CUBIE]
    assert [counts.count(n) for n in (3, 2, 1, 0)] == [8, 12, 6, 1]


def test_a_point_belongs_to_the_sticker_around_it() -> None:
    for sticker in range(54):
        assert sticker_at(Face(sticker // 9), sticker_centre(sticker)) == sticker
        assert STICKER_CUBIES[sticker] == cubie_number(sticker_cubie_place(sticker))


@pytest.mark.parametrize(("layers", "count"), [(1, 9), (2, 18), (3, 27)])
def test_a_turning_carries_nine_cubies_to_a_layer(layers: int, count: int) -> None:
    for face in Face:
        moved = turned_cubies(Turning(face, 0.3, layers))
        assert moved.sum() == count
        assert moved[cubie_number(vector(FRAMES[face].normal))]


@pytest.mark.parametrize(
    ("face", "corner", "carried_to"),
    [
        (Face.U, (1, 1, 1), (-1, 1, 1)),
        (Face.R, (1, 1, 1), (1, 1, -1)),
        (Face.F, (1, 1, 1), (1, -1, 1)),
        (Face.D, (1, -1, 1), (1, -1, -1)),
        (Face.L, (-1, 1, 1), (-1, -1, 1)),
        (Face.B, (1, 1, -1), (-1, 1, -1)),
    ],
)
def test_a_positive_quarter_is_clockwise_from_outside(
    face: Face, corner: tuple[int, int, int], carried_to: tuple[int, int, int]
) -> None:
    # WCA Regulations 12a1a: U takes the corner between U, R and F to the left, and so on.
    assert np.allclose(turning_matrix(Turning(face, np.pi / 2)) @ vector(corner), carried_to)
