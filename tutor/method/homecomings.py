"""The sequences that bring the pair of FR home, by where the pair starts, and where their Join ends."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from tutor.cube.faces import Turn
from tutor.cube.geometry import CORNER_MOVE, EDGE_MOVE
from tutor.cube.position import Slot
from tutor.method.hand_ways import LONGEST, HandSequences, Ids, hand_sequences, is_top
from tutor.method.pairs import MATCH, TOP_CORNER, TOP_EDGE
from tutor.method.settling_sequences import CORNER_STEP, EDGE_STEP, NO_TURN

TURNS_PER_STEP = 4
"""A step of a route takes at most so many turns; Raise so many for each slot that holds a piece of the pair
(a definition of the method)."""

TOP: NDArray[np.bool_] = TOP_CORNER[:, None] & TOP_EDGE[None, :]
"""Whether both pieces are on top, by their locations; shape (24, 24)."""
JOINED: NDArray[np.bool_] = TOP & MATCH[Slot.FR]
"""Whether Join is done, by the locations of FR's pair; shape (24, 24)."""
HOME = (3 * Slot.FR.corner, 2 * Slot.FR.edge)
"""The locations of FR's pair when it is home."""


@dataclass(frozen=True, slots=True)
class Homecomings:
    """Sequences by number and the corner and edge location where each begins, once for each way to cut it.

    ``join`` is how many of its turns belong to Join, ``spent`` how many turns Join takes: one more where its
    last has merged with the first of Insert.
    """

    numbers: Ids
    corner: Ids
    edge: Ids
    join: Ids
    spent: Ids

    def taken(self, chosen: NDArray[np.bool_] | Ids) -> Homecomings:
        """Those chosen."""
        columns = (self.numbers, self.corner, self.edge, self.join, self.spent)
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
    return Homecomings(np.arange(len(corner)), corner, edge, none, none)


@cache
def joins(keep: int) -> Homecomings:
    """The sequences that are a Join and an Insert, each of at most four turns and with one of a side.

    Join ends where the pair matches on top, after no turn of the top that only prepares Insert. It may end
    within a turn: a block brings the pair up and a turn-away or a block of another slot goes on with the
    same face.
    """
    every = _homing(keep)
    sequences = hand_sequences(keep)
    every = every.taken(~JOINED[every.corner, every.edge])
    found = []
    for count in range(LONGEST):
        for seam in (False, True):
            rows = np.flatnonzero(_join_ends(sequences, every, count, seam))
            cut = every.taken(rows)
            join = np.full(len(rows), count)
            found.append(Homecomings(cut.numbers, cut.corner, cut.edge, join, join + seam))
    columns = ("numbers", "corner", "edge", "join", "spent")
    return Homecomings(*(np.concatenate([getattr(part, name) for part in found]) for name in columns))


def _join_ends(sequences: HandSequences, ways: Homecomings, count: int, seam: bool) -> NDArray[np.bool_]:
    """For which of the ways Join may end after ``count`` turns, or with a merged one after these."""
    rows = ways.numbers
    corner, edge = sequences.corners[count, rows, ways.corner], sequences.edges[count, rows, ways.edge]
    insert = sequences.length[rows] - count
    fits = (insert > 0) & (insert <= TURNS_PER_STEP)
    top = is_top(sequences.turns[rows])
    if seam:
        lower = sequences.seams[rows, count]
        joined = JOINED[CORNER_STEP[lower, corner], EDGE_STEP[lower, edge]] & (lower < NO_TURN)
        return np.asarray(joined & fits & (count + 1 <= TURNS_PER_STEP))
    if not 0 < count <= TURNS_PER_STEP:
        return np.zeros(len(rows), dtype=np.bool_)
    return np.asarray(JOINED[corner, edge] & fits & ~top[:, count - 1] & ~top[:, count:].all(axis=1))


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
