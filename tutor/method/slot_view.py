"""Every slot seen as FR, so that one table and one choice serve all four.

From FR to FL and BR a mirror leads, to BL half a turn of the whole cube. So what is chosen for FR, such as
the route that is shown, is in every other slot the image of it (a definition of the method).

The *code* of a position packs the twelve locations that matter into 60 bits, five each: the four cross
edges, the pair of FR, and the pairs of FL, BL and BR, all as seen. Leaving a pair out is masking its bits.
"""

from __future__ import annotations

from functools import cache

from msgspec import Struct

from tutor.cube.faces import TURNS, Face, Turn
from tutor.cube.position import CROSS_EDGES, SLOTS, Position, Slot
from tutor.cube.symmetry import (
    IDENTITY,
    MIRROR_FRONT_BACK,
    MIRROR_LEFT_RIGHT,
    SYMMETRIES,
    Symmetry,
    quarter_about,
)
from tutor.solver.task import slot_sides

BITS = 5
CROSS_BITS = (1 << 20) - 1
"""Mask of the cross edges in a code."""
CORNER_SHIFT = 20
"""Where the location of FR's corner begins in a code."""
EDGE_SHIFT = 25
"""Where the location of FR's edge begins in a code."""
PAIR_BITS = ((1 << 10) - 1) << CORNER_SHIFT
"""Mask of FR's pair in a code."""

PACKED: tuple[tuple[bool, int, int], ...] = (
    *((False, piece, BITS * n) for n, piece in enumerate(CROSS_EDGES)),
    *((True, slot.corner, CORNER_SHIFT + 10 * slot) for slot in SLOTS),
    *((False, slot.edge, EDGE_SHIFT + 10 * slot) for slot in SLOTS),
)
"""Whether it is a corner, the piece, and where its location begins, for each location in a code."""


def settled_bits(keep: int) -> int:
    """Mask of all that must be home for a position to be settled; bits 1, 2, 3 of ``keep``: FL, BL, BR."""
    return CROSS_BITS | sum(PAIR_BITS << (10 * slot) for slot in SLOTS if slot and keep >> slot & 1)


def pair_of(code: int) -> tuple[int, int]:
    """The locations of FR's corner and edge in a code."""
    return code >> CORNER_SHIFT & 31, code >> EDGE_SHIFT & 31


class SlotView(Struct, frozen=True):
    """How a cube is seen once ``symmetry`` has brought ``slot`` to FR."""

    slot: Slot
    symmetry: Symmetry
    back: tuple[Turn, ...]
    """The turn as held, for each of the 18 turns as seen."""
    _locations: tuple[tuple[bool, int, tuple[int, ...]], ...]
    _slots: tuple[Slot, ...]

    def code(self, position: Position) -> int:
        """The code of ``position`` as seen."""
        code = 0
        for is_corner, piece, bits in self._locations:
            code |= bits[position.corners[piece] if is_corner else position.edges[piece]]
        return code

    def keep(self, keep: frozenset[Slot]) -> int:
        """A set of slots as seen: bits 1, 2 and 3 for FL, BL and BR."""
        return sum(1 << self._slots[kept] for kept in keep)

    def slot_as_held(self, slot: Slot) -> Slot:
        """The slot as held that is seen at ``slot``."""
        return SLOTS[self._slots.index(slot)]

    def as_held(self, turns: tuple[int, ...]) -> tuple[Turn, ...]:
        """Turns as seen, named for the cube as held."""
        return tuple([self.back[turn] for turn in turns])


def _bits_by_location(
    symmetry: Symmetry, is_corner: bool, piece: int, shift: int
) -> tuple[int, tuple[int, ...]]:
    """Which piece comes to be ``piece`` and its code bits by its location as held.

    The sticker by which a piece is located may change with the symmetry.
    """
    size = 3 if is_corner else 2
    carry = symmetry.corner_locations if is_corner else symmetry.edge_locations
    back = symmetry.inverse.corner_locations if is_corner else symmetry.inverse.edge_locations
    source, sticker = divmod(back[size * piece], size)
    located = [location - location % size + (location + sticker) % size for location in range(24)]
    return source, tuple(carry[location] << shift for location in located)


def _view(slot: Slot, symmetry: Symmetry) -> SlotView:
    rows = []
    for is_corner, piece, shift in PACKED:
        source, bits = _bits_by_location(symmetry, is_corner, piece, shift)
        rows.append((is_corner, source, bits))
    carried = [frozenset(symmetry.faces[face] for face in slot_sides(each)) for each in SLOTS]
    slots = tuple(next(to for to in SLOTS if slot_sides(to) == sides) for sides in carried)
    return SlotView(slot, symmetry, symmetry.inverse.turns(TURNS), tuple(rows), slots)


_TO_FRONT_RIGHT = {
    Slot.FR: IDENTITY,
    Slot.FL: MIRROR_LEFT_RIGHT,
    Slot.BL: quarter_about(Face.U, 2),
    Slot.BR: MIRROR_FRONT_BACK,
}


@cache
def slot_mirror() -> Symmetry:
    """The mirror image that leaves top and FR in place and exchanges front and right, back and left."""
    exchanged = (Face.U, Face.D, Face.B, Face.F, Face.R, Face.L)
    return next(symmetry for symmetry in SYMMETRIES if symmetry.faces == exchanged)


@cache
def slot_view(slot: Slot) -> SlotView:
    """The view that brings ``slot`` to FR."""
    return _view(slot, _TO_FRONT_RIGHT[slot])


@cache
def mirrored_view(slot: Slot) -> SlotView:
    """The same in the mirror that exchanges the two faces of the slot."""
    return _view(slot, slot_mirror() @ _TO_FRONT_RIGHT[slot])


HOME_CODE: int = slot_view(Slot.FR).code(Position())
"""The code of the solved cube."""
