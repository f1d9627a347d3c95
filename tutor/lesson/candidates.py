"""Places of the cube to choose from, for those who do not point at one."""

from __future__ import annotations

from collections.abc import Set

from tutor.coach.catalogue import ENGLISH, capitalised
from tutor.cube.faces import Face
from tutor.cube.geometry import CORNER_CUBIES, CORNER_FACES, EDGE_CUBIES, EDGE_FACES
from tutor.lesson.scenes import Sought

CANDIDATES = 4
"""How many places are offered."""


def candidate_places(sought: Sought, answer: Set[int]) -> tuple[tuple[str, int], ...]:
    """The right place among others of its kind, in their order: each in words and by its cubie."""
    corners = sought is not Sought.EDGE
    cubies = CORNER_CUBIES if corners else EDGE_CUBIES
    faces = CORNER_FACES if corners else EDGE_FACES
    places = range(4, 8) if sought is Sought.SLOT else range(len(cubies))
    right = next(place for place in places if cubies[place] in answer)
    # Neighbours in the numbering lie beside it; stepping by three mixes top and bottom.
    wrong = [place for step in range(1, 12) if (place := _nth(places, right, 3 * step)) != right]
    offered = sorted({right, *list(dict.fromkeys(wrong))[: CANDIDATES - 1]})
    return tuple((_place_words(faces[place], slot=sought is Sought.SLOT), cubies[place]) for place in offered)


def _nth(places: range, right: int, step: int) -> int:
    return places[(right - places.start + step) % len(places)]


def _place_words(faces: tuple[Face, ...], *, slot: bool) -> str:
    """A place in plain words, as an answer to choose."""
    letters = "".join(face.name for face in (Face.F, Face.B, Face.L, Face.R) if face in faces)
    kind = "corner" if len(faces) == 3 else "edge"
    if slot or (Face.U not in faces and not (kind == "edge" and Face.D in faces)):
        named = ENGLISH.say(f"slot.{letters}")
        return capitalised(named if slot else ENGLISH.say("place.slot", slot=named))
    level = "place.top" if Face.U in faces else "place.bottom"
    return capitalised(ENGLISH.say(level, spot=ENGLISH.say(f"spot.{kind}.{letters}")))
