"""A corner and an edge, seen as a pair: where the two lie, whether they touch, and whether they match."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from tutor.cube.geometry import CORNER_STICKERS, EDGE_STICKERS, STICKERS
from tutor.cube.position import SLOTS, Position, Slot
from tutor.cube.symmetry import ROTATIONS

IntArray = NDArray[np.intp]


def _touch_table() -> NDArray[np.bool_]:
    corners = np.array([STICKERS[sticker][0] for sticker in CORNER_STICKERS])
    edges = np.array([STICKERS[sticker][0] for sticker in EDGE_STICKERS])
    return np.asarray(np.abs(corners[:, None, :] - edges[None, :, :]).sum(axis=2) == 1)


def _match_table(slot: Slot) -> NDArray[np.bool_]:
    """A pair is joined wherever the whole cube could be turned to carry it there from home."""
    table = np.zeros((24, 24), dtype=np.bool_)
    for rotation in ROTATIONS:
        table[rotation.corner_locations[3 * slot.corner], rotation.edge_locations[2 * slot.edge]] = True
    return table


TOUCH: NDArray[np.bool_] = _touch_table()
"""``TOUCH[corner location, edge location]``: whether the two pieces share a side; shape (24, 24)."""
MATCH: NDArray[np.bool_] = np.array([_match_table(slot) for slot in SLOTS])
"""``MATCH[slot, corner location, edge location]``: whether the slot's pair is joined; shape (4, 24, 24)."""
TOP_CORNER: NDArray[np.bool_] = np.arange(24) < 12
"""Whether each corner location is in the top layer; shape (24,)."""
TOP_EDGE: NDArray[np.bool_] = np.arange(24) < 8
"""Whether each edge location is in the top layer; shape (24,)."""
for _table in (TOUCH, MATCH, TOP_CORNER, TOP_EDGE):
    _table.setflags(write=False)


def touch(corner_location: int, edge_location: int) -> bool:
    """Whether a corner and an edge at these locations share a side."""
    return bool(TOUCH[corner_location, edge_location])


def match(slot: Slot, corner_location: int, edge_location: int) -> bool:
    """Whether the slot's corner and edge touch and both colours of the edge continue the corner's.

    A pair that is home matches too.
    """
    return bool(MATCH[slot, corner_location, edge_location])


def pair_locations(position: Position, slot: Slot) -> tuple[int, int]:
    """Where the slot's own corner and edge are: corner location, edge location."""
    return position.corners[slot.corner], position.edges[slot.edge]


def both_on_top(position: Position, slot: Slot) -> bool:
    """Whether the slot's corner and edge are both in the top layer."""
    corner, edge = pair_locations(position, slot)
    return bool(TOP_CORNER[corner] and TOP_EDGE[edge])


def in_two_slots(corner_locations: IntArray, edge_locations: IntArray) -> NDArray[np.bool_]:
    """Whether corner and edge lie in two different slots, by their locations; arrays of one shape."""
    low = (corner_locations >= 12) & (edge_locations >= 8) & (edge_locations < 16)
    return np.asarray(low & (corner_locations // 3 != edge_locations // 2))
