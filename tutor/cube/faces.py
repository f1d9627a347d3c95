"""The six faces and the eighteen face turns, as WCA Regulations 12a1 names them."""

from __future__ import annotations

from enum import IntEnum


class Face(IntEnum):
    """A face of the cube as held. Opposite faces differ in the lowest bit."""

    U = 0
    D = 1
    L = 2
    R = 3
    F = 4
    B = 5

    @property
    def opposite(self) -> Face:
        """The face on the other side of the cube."""
        return Face(self ^ 1)


SUFFIXES = ("", "2", "'")
"""Notation suffix of one, two and three clockwise quarters."""


class Turn(IntEnum):
    """One of the 18 face turns; the value is ``3 * face + quarters - 1``.

    Quarters are counted clockwise as seen from outside the face (WCA 12a1a-c).
    """

    U = 0
    U2 = 1
    U_PRIME = 2
    D = 3
    D2 = 4
    D_PRIME = 5
    L = 6
    L2 = 7
    L_PRIME = 8
    R = 9
    R2 = 10
    R_PRIME = 11
    F = 12
    F2 = 13
    F_PRIME = 14
    B = 15
    B2 = 16
    B_PRIME = 17

    @classmethod
    def of(cls, face: Face, quarters: int) -> Turn:
        """The turn of ``face`` by ``quarters`` clockwise quarters, taken modulo four.

        Raises ValueError when the quarters add up to no turn at all.
        """
        amount = quarters % 4
        if amount == 0:
            raise ValueError(f"{quarters} quarters of {face.name} are no turn")
        return cls(3 * face + amount - 1)

    @property
    def face(self) -> Face:
        """The face that turns."""
        return FACES[self // 3]

    @property
    def quarters(self) -> int:
        """Clockwise quarters: 1, 2 or 3."""
        return self % 3 + 1

    @property
    def inverse(self) -> Turn:
        """The turn that takes this one back."""
        return Turn.of(self.face, -self.quarters)

    @property
    def notation(self) -> str:
        """The turn as written, for example ``R``, ``R2`` or ``R'``."""
        return self.face.name + SUFFIXES[self.quarters - 1]


FACES = tuple(Face)
TURNS = tuple(Turn)


def inverse(turns: tuple[Turn, ...] | list[Turn]) -> tuple[Turn, ...]:
    """The sequence that takes ``turns`` back."""
    return tuple(turn.inverse for turn in reversed(turns))
