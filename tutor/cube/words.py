"""What is said about the cube itself, in English: its places."""

from __future__ import annotations

from tutor.cube.faces import Face

SIDES = {
    Face.U: "top",
    Face.D: "bottom",
    Face.F: "front",
    Face.B: "back",
    Face.L: "left",
    Face.R: "right",
}
"""Each face as a word, in the order in which a place names them."""


def place_words(faces: tuple[Face, ...]) -> str:
    """A place in words: ``the top front edge`` for U and F, ``the bottom front-right corner`` for D, F, R."""
    kind = ("centre", "edge", "corner")[len(faces) - 1]
    layer = [SIDES[face] for face in (Face.U, Face.D) if face in faces]
    sides = "-".join(SIDES[face] for face in SIDES if face in faces and SIDES[face] not in layer)
    return " ".join(filter(None, ("the", *layer, sides, kind)))
