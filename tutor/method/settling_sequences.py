"""All turn sequences of at most four turns, and which of them settle an unsettled position.

They are the ways back from any disorder that four turns can mend: no two turns in a row on one face, and
none that is taken back across a turn of the opposite face, since such a turn would only have to be undone.
"""

from __future__ import annotations

from functools import cache

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from tutor.cube.faces import TURNS
from tutor.cube.geometry import CORNER_MOVE, EDGE_MOVE
from tutor.method.slot_view import HOME_CODE, PACKED, settled_bits
from tutor.method.terms import TURNS_PER_STEP

Codes = NDArray[np.int64]
Ids = NDArray[np.intp]
Locations = NDArray[np.uint8]

NO_TURN = 18
"""Stands for a turn where there is none."""
_STILL = np.arange(24, dtype=np.uint8)[None, :]
CORNER_STEP: Locations = np.concatenate((CORNER_MOVE, _STILL))
"""Where a turn, or ``NO_TURN``, carries each corner location; shape (19, 24)."""
EDGE_STEP: Locations = np.concatenate((EDGE_MOVE, _STILL))
"""The same for edge locations."""
_FACE = np.append(np.repeat(np.arange(6), 3), 6)
_AXIS = np.append(np.repeat(np.arange(3), 6), 3)


class SettlingSequences(Struct, frozen=True, eq=False):
    """The sequences, shortest first; the first is empty. ``n`` is their number.

    ``turns`` (n, 4) uint8, filled up with ``NO_TURN``; ``length``, ``last`` (n,); ``corners`` and ``edges``
    (24, n) uint8: where a sequence carries each location; ``inverse_codes`` (n,) int64: the code of the
    position that the sequence brings home, in the view of FR.
    """

    turns: NDArray[np.uint8]
    length: NDArray[np.int16]
    last: NDArray[np.uint8]
    corners: Locations
    edges: Locations
    inverse_codes: Codes


def _every_sequence() -> NDArray[np.uint8]:
    levels = [np.full((1, TURNS_PER_STEP), NO_TURN, dtype=np.uint8)]
    for made in range(TURNS_PER_STEP):
        before = levels[-1]
        last = before[:, made - 1] if made else np.full(len(before), NO_TURN)
        earlier = before[:, made - 2] if made > 1 else np.full(len(before), NO_TURN)
        taken_back = (_AXIS[last] == _AXIS[earlier])[:, None] & (_FACE[earlier][:, None] == _FACE[:NO_TURN])
        rows, turns = np.nonzero((_FACE[last][:, None] != _FACE[:NO_TURN]) & ~taken_back)
        longer = before[rows]
        longer[:, made] = turns
        levels.append(longer)
    return np.concatenate(levels)


def _carried(turns: NDArray[np.uint8], step: Locations) -> Locations:
    """Where each row of turns carries each of 24 locations; shape (24, n)."""
    where = np.repeat(_STILL.T, len(turns), axis=1)
    table = step.ravel()
    for column in turns.T:
        where = table.take(24 * column.astype(np.intp) + where)
    return where


def _reversed(turns: NDArray[np.uint8]) -> NDArray[np.uint8]:
    inverse = np.append([turn.inverse for turn in TURNS], NO_TURN).astype(np.uint8)
    return inverse[turns[:, ::-1]]


@cache
def settling_sequences() -> SettlingSequences:
    """The table of all sequences, made once in a process (about a tenth of a second)."""
    turns = _every_sequence()
    length = (turns != NO_TURN).sum(axis=1).astype(np.int16)
    last = turns[np.arange(len(turns)), np.maximum(length - 1, 0)]
    back = _reversed(turns)
    corners_from, edges_from = _carried(back, CORNER_STEP), _carried(back, EDGE_STEP)
    codes = np.zeros(len(turns), dtype=np.int64)
    for is_corner, piece, shift in PACKED:
        source = corners_from[3 * piece] if is_corner else edges_from[2 * piece]
        codes |= source.astype(np.int64) << shift
    table = SettlingSequences(
        turns, length, last, _carried(turns, CORNER_STEP), _carried(turns, EDGE_STEP), codes
    )
    for array in (turns, length, last, table.corners, table.edges, codes):
        array.setflags(write=False)
    return table


@cache
def _sorted_codes(keep: int) -> tuple[Codes, Ids]:
    codes = settling_sequences().inverse_codes & settled_bits(keep)
    order = np.argsort(codes, kind="stable")
    return codes[order], order


def settling(keep: int, code: int) -> Ids:
    """The sequences of at least one turn that bring cross and kept pairs home, by number; shortest first."""
    codes, order = _sorted_codes(keep)
    wanted = code & settled_bits(keep)
    left, right = codes.searchsorted(wanted), codes.searchsorted(wanted, "right")
    found = order[left:right]
    return found[found > 0]


def is_settled(keep: int, code: int) -> bool:
    """Whether the cross and the kept pairs are home."""
    return (code ^ HOME_CODE) & settled_bits(keep) == 0
