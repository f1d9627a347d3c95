"""The sequences that bring the pair of FR home, by where the pair starts, and where their Join ends."""

from __future__ import annotations

from functools import cache

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from tutor.cube.faces import Turn
from tutor.cube.geometry import CORNER_MOVE, EDGE_MOVE
from tutor.cube.position import Slot
from tutor.method.hand_ways import HandSequences, Ids, hand_sequences, is_top
from tutor.method.pairs import MATCH, TOP_CORNER, TOP_EDGE
from tutor.method.terms import TURNS_PER_STEP

TOP: NDArray[np.bool_] = TOP_CORNER[:, None] & TOP_EDGE[None, :]
"""Whether both pieces are on top, by their locations; shape (24, 24)."""
JOINED: NDArray[np.bool_] = TOP & MATCH[Slot.FR]
"""Whether Join is done, by the locations of FR's pair; shape (24, 24)."""
HOME = (3 * Slot.FR.corner, 2 * Slot.FR.edge)
"""The locations of FR's pair when it is home."""


class Homecomings(Struct, frozen=True):
    """Sequences by number, the corner and edge location where each begins, and the turns of its Join."""

    numbers: Ids
    corner: Ids
    edge: Ids
    join: Ids

    def taken(self, chosen: NDArray[np.bool_] | Ids) -> Homecomings:
        """Those chosen."""
        columns = (self.numbers, self.corner, self.edge, self.join)
        return Homecomings(*(column[chosen] for column in columns))

    def from_place(self, corner: int, edge: int) -> Homecomings:
        """Those that begin with the pair at these locations."""
        return self.taken((self.corner == corner) & (self.edge == edge))


@cache
def inserts(keep: int) -> Homecomings:
    """The sequences of at most four turns that bring the pair home, whatever the start; without a Join."""
    every = _homing(keep)
    return every.taken(hand_sequences(keep).length <= TURNS_PER_STEP)


@cache
def _homing(keep: int) -> Homecomings:
    """Every sequence, from where the pair begins so as to end at home."""
    sequences = hand_sequences(keep)
    corner = np.argmax(sequences.corners[-1] == HOME[0], axis=1)
    edge = np.argmax(sequences.edges[-1] == HOME[1], axis=1)
    none = np.zeros(len(corner), dtype=np.intp)
    return Homecomings(np.arange(len(corner)), corner, edge, none)


@cache
def joins(keep: int) -> Homecomings:
    """The sequences that are a Join and an Insert, each of at most four turns.

    Join ends after a turn that leaves the pair matching on top, never within one: a block whose lower merges
    with the turn-away behind it makes a pair that nobody sees.
    """
    every, sequences = _homing(keep), hand_sequences(keep)
    ends = _join_ends(sequences, every)
    found = Homecomings(every.numbers, every.corner, every.edge, ends)
    return found.taken((ends > 0) & ~JOINED[every.corner, every.edge])


def _join_ends(sequences: HandSequences, ways: Homecomings) -> Ids:
    """After how many turns Join ends: the first count that leaves neither step too long or without a turn
    of a side, and whose turn is none of the top that only prepares Insert; 0 where there is none."""
    matching = JOINED[
        sequences.corners[:, ways.numbers, ways.corner], sequences.edges[:, ways.numbers, ways.edge]
    ]
    top = is_top(sequences.turns)
    ends = np.zeros(len(ways.numbers), dtype=np.intp)
    for count in range(TURNS_PER_STEP, 0, -1):
        left = sequences.length - count
        fits = (left > 0) & (left <= TURNS_PER_STEP)
        sides = ~top[:, :count].all(axis=1) & ~top[:, count:].all(axis=1)
        idle = top[:, count - 1] & matching[count - 1]
        ends[matching[count] & fits & sides & ~idle] = count
    return ends


@cache
def ready_places(keep: int) -> NDArray[np.bool_]:
    """Whether the pair is ready, by its locations in a settled position; shape (24, 24).

    Both are on top and match, or however the top is turned a Join and an Insert lead home.
    """
    found = joins(keep)
    leads = np.zeros((24, 24), dtype=np.bool_)
    leads[found.corner, found.edge] = True
    always = leads.copy()
    corner = edge = np.arange(24)
    for _ in range(3):
        corner, edge = CORNER_MOVE[Turn.U][corner], EDGE_MOVE[Turn.U][edge]
        always &= leads[np.ix_(corner, edge)]
    ready: NDArray[np.bool_] = JOINED | (TOP & always)
    ready.setflags(write=False)
    return ready
