"""What the picture itself says, in English: the mirrors' labels."""

from __future__ import annotations

from tutor.cube.faces import Face

FACES = {
    Face.U: "top",
    Face.D: "below",
    Face.L: "left",
    Face.R: "right",
    Face.F: "front",
    Face.B: "back",
}
"""Where each face is on the cube as held."""
SLOT_HERE = "slot here"
