"""Numbers for what the search moves about: the four cross edges together, and each pair by itself.

The *cross number* (0 to 190079) names a placement of the four cross edges. The *pair number* (0 to 575) is
``24 * corner location + edge location``. A pair is always numbered in its *own view*: the cube turned about
its upright axis so that the pair's slot is FR. So one table serves all four slots, and turning the cube
leaves the numbers of the pairs as they are.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from tutor.cube.faces import TURNS, Face
from tutor.cube.geometry import CORNER_MOVE, EDGE_MOVE
from tutor.cube.position import CROSS_EDGES, SLOTS, Position, Slot
from tutor.cube.symmetry import Symmetry, quarter_about
from tutor.solver.task import slot_sides

CROSS_COUNT = 12 * 11 * 10 * 9 * 16
"""Placements of four cross edges: 190080."""
PAIR_COUNT = 24 * 24
"""Pair numbers; one in three of them meets a given cross only where two edges would share a place."""

Int32Array = NDArray[np.int32]
Int64Array = NDArray[np.int64]
UInt8Array = NDArray[np.uint8]


def _arrangements() -> Int64Array:
    """Four different places out of twelve, in each order; shape (11880, 4)."""
    every = np.indices((12,) * 4, dtype=np.int64).reshape(4, -1).T
    firsts, seconds = np.triu_indices(4, 1)
    return np.asarray(every[(every[:, firsts] != every[:, seconds]).all(axis=1)])


_ARRANGEMENTS = _arrangements()
_ARRANGEMENT_NUMBER = np.zeros(12**4, dtype=np.int32)
_ARRANGEMENT_NUMBER[_ARRANGEMENTS @ (12 ** np.arange(3, -1, -1))] = np.arange(len(_ARRANGEMENTS))


def _view_of(slot: Slot) -> Symmetry:
    front_right = slot_sides(Slot.FR)
    for quarters in range(4):
        rotation = quarter_about(Face.U, quarters)
        if frozenset(rotation.faces[face] for face in slot_sides(slot)) == front_right:
            return rotation
    raise AssertionError("four quarters about U bring every slot to FR")


VIEWS: tuple[Symmetry, ...] = tuple(_view_of(slot) for slot in SLOTS)
"""For each slot the rotation about the upright axis that brings it to FR."""


def _carried_sources(view: Symmetry, pieces: tuple[int, ...], size: int) -> list[tuple[int, int]]:
    """For each piece of the carried cube: which piece it was, and which of its stickers comes first."""
    back = view.inverse.corner_locations if size == 3 else view.inverse.edge_locations
    return [divmod(back[size * piece], size) for piece in pieces]


def _shifted(locations: Int64Array, sticker: int, size: int) -> Int64Array:
    return locations - locations % size + (locations + sticker) % size


def cross_locations() -> Int64Array:
    """The locations of the four cross edges for every cross number; shape (190080, 4)."""
    flips = (np.arange(16)[:, None] >> np.arange(3, -1, -1)) & 1
    every = 2 * _ARRANGEMENTS[:, None, :] + flips[None, :, :]
    return every.reshape(CROSS_COUNT, 4)


def cross_numbers(locations: Int64Array) -> Int32Array:
    """The cross numbers of rows of four edge locations; shape (n, 4) to (n,)."""
    places, flips = locations >> 1, locations & 1
    arrangement = _ARRANGEMENT_NUMBER[places @ (12 ** np.arange(3, -1, -1))]
    numbers: Int64Array = 16 * arrangement + flips @ np.array([8, 4, 2, 1])
    return numbers.astype(np.int32)


def cross_number(position: Position) -> int:
    """The cross number of a position."""
    first, second, third, fourth = position.edges[CROSS_EDGES[0] :]
    arrangement = ((first >> 1) * 12 + (second >> 1)) * 144 + (third >> 1) * 12 + (fourth >> 1)
    flips = (first & 1) * 8 + (second & 1) * 4 + (third & 1) * 2 + (fourth & 1)
    return 16 * int(_ARRANGEMENT_NUMBER[arrangement]) + flips


def make_cross_moves() -> Int32Array:
    """The cross number after each turn; shape (190080, 18), int32."""
    locations = cross_locations()
    columns = [cross_numbers(EDGE_MOVE[turn].astype(np.int64)[locations]) for turn in TURNS]
    return np.ascontiguousarray(np.stack(columns, axis=1))


def make_cross_views() -> Int32Array:
    """The cross number as seen in each slot's own view; shape (4, 190080), int32."""
    locations = cross_locations()
    rows = []
    for view in VIEWS:
        carry = np.array(view.edge_locations)
        sources = _carried_sources(view, CROSS_EDGES, 2)
        columns = [carry[_shifted(locations[:, piece - 8], sticker, 2)] for piece, sticker in sources]
        rows.append(cross_numbers(np.stack(columns, axis=1)))
    return np.ascontiguousarray(np.stack(rows))


def _own_view_table(slot: Slot, size: int) -> tuple[int, ...]:
    """For each location of the slot's corner (size 3) or edge (size 2): the location in the slot's view."""
    view = VIEWS[slot]
    ((piece, sticker),) = _carried_sources(view, (4,), size)
    if piece != 4 + slot:
        raise AssertionError("the view brings the slot's own pieces to FR")
    carry = np.array(view.corner_locations if size == 3 else view.edge_locations)
    return tuple(int(location) for location in carry[_shifted(np.arange(24), sticker, size)])


_OWN_CORNER = tuple(_own_view_table(slot, 3) for slot in SLOTS)
_OWN_EDGE = tuple(_own_view_table(slot, 2) for slot in SLOTS)


def pair_number(position: Position, slot: Slot) -> int:
    """The number of the slot's pair in its own view."""
    corner = _OWN_CORNER[slot][position.corners[4 + slot]]
    return 24 * corner + _OWN_EDGE[slot][position.edges[4 + slot]]


def _pair_moves() -> Int64Array:
    corners, edges = CORNER_MOVE.astype(np.int64), EDGE_MOVE.astype(np.int64)
    moved = 24 * corners[:, :, None] + edges[:, None, :]
    return np.ascontiguousarray(moved.reshape(len(TURNS), PAIR_COUNT).T)


PAIR_MOVES: Int64Array = _pair_moves()
"""The pair number after each turn made in the pair's own view; shape (576, 18)."""
HOME_PAIR = 24 * 3 * Slot.FR.corner + 2 * Slot.FR.edge
"""The number of every pair when it is home."""
HOME_CROSS = int(cross_numbers(2 * np.array([CROSS_EDGES]))[0])
"""The cross number of a cross that is home."""


def turns_in_view(slot: Slot) -> list[int]:
    """What each turn is called in the slot's own view; 18 turn values."""
    return [int(VIEWS[slot].turn(turn)) for turn in TURNS]
