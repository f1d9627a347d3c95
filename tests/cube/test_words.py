"""Places of the cube in words."""

import pytest

from tutor.cube.faces import FACES, Face
from tutor.cube.geometry import CORNER_FACES, EDGE_FACES
from tutor.cube.words import place_in_words

U, D, L, R, F, B = FACES


@pytest.mark.parametrize(
    ("faces", "words"),
    [
        ((U, F), "the top front edge"),
        ((R, D, F), "the bottom front-right corner"),
        ((R, F), "the front-right edge"),
        ((B, L), "the back-left edge"),
        ((U,), "the top centre"),
        ((F,), "the front centre"),
    ],
)
def test_a_place_is_named_as_a_person_would(faces: tuple[Face, ...], words: str) -> None:
    # Which words come first is common usage: top or bottom, then front or back, then left or right.
    assert place_in_words(faces) == words


def test_every_place_has_a_name_of_its_own() -> None:
    places = [*CORNER_FACES, *EDGE_FACES, *((face,) for face in FACES)]
    assert len({place_in_words(faces) for faces in places}) == 26
