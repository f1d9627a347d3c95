"""What two hands do at a slot: lifts, lowers, blocks and turn-aways, and the sequences made of them.

A *lift* of a slot is the quarter turn of one of its side faces that carries its place up into the top layer,
a *lower* the turn that undoes it, a *block* a lift, a turn of the top and the lower. A *turn-away* is a
second way in for a made pair. A *hand way* is made of turns of the top and of blocks, and ends with a block
or a turn-away that brings the pair home; neighbouring turns of one face merge and count once, and none
cancel (all of these are definitions of the method).

Sequences here are for the slot FR, turns as numbers; ``slot_view`` brings every slot there.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from tutor.cube.faces import TURNS, Face, Turn
from tutor.cube.geometry import CORNER_MOVE, EDGE_MOVE
from tutor.cube.merging import together
from tutor.cube.position import SLOTS, Slot
from tutor.method.settling_sequences import CORNER_STEP, EDGE_STEP, NO_TURN
from tutor.method.settling_sequences import Ids as Ids
from tutor.method.slot_view import slot_view
from tutor.method.terms import TURNS_PER_STEP

Turns = tuple[int, ...]

LONGEST = 2 * TURNS_PER_STEP
"""Turns of the longest sequence: two steps of four, or the Raise of pieces caught in two slots."""
_LEAST = 2
"""Turns that one more block adds at least, where its lift merges with the turn before it."""
TOP_TURNS: tuple[Turn, ...] = (Turn.U, Turn.U2, Turn.U_PRIME)


def is_lift(turn: Turn, slot: Slot) -> bool:
    """Whether the turn carries both places of the slot to the top layer."""
    return bool(CORNER_MOVE[turn, 3 * slot.corner] < 12 and EDGE_MOVE[turn, 2 * slot.edge] < 8)


LIFTS: dict[Slot, tuple[Turn, ...]] = {
    slot: tuple(turn for turn in TURNS if is_lift(turn, slot)) for slot in SLOTS
}
"""The two lifts of each slot."""

_TURN_AWAYS: tuple[tuple[Turn, ...], ...] = (
    (Turn.R_PRIME, Turn.F, Turn.R, Turn.F_PRIME),
    (Turn.F, Turn.R_PRIME, Turn.F_PRIME, Turn.R),
)


def turn_aways(slot: Slot) -> tuple[tuple[Turn, ...], ...]:
    """The two turn-aways of a slot."""
    view = slot_view(slot)
    return tuple(view.as_held(turns) for turns in _TURN_AWAYS)


def blocks(slots: tuple[Slot, ...]) -> tuple[tuple[Turn, Turn, Turn], ...]:
    """Every block of these slots: a lift, a turn of the top, and the lower that undoes the lift."""
    return tuple((lift, top, lift.inverse) for slot in slots for lift in LIFTS[slot] for top in TOP_TURNS)


def open_slots(keep: int) -> tuple[Slot, ...]:
    """The slots that are not kept, FR first; bits 1, 2 and 3 of ``keep`` stand for FL, BL and BR."""
    return tuple(slot for slot in SLOTS if not keep >> slot & 1)


def joined_on(before: Turns, after: Turns) -> Turns | None:
    """One sequence after the other, merged where they meet on one face; None where that cancels."""
    if not before or not after or before[-1] // 3 != after[0] // 3:
        return before + after
    turn = together(TURNS[before[-1]], TURNS[after[0]])
    return None if turn is None else (*before[:-1], int(turn), *after[1:])


class HandSequences(Struct, frozen=True, eq=False):
    """Beginnings and ends of hand ways: turns of the top and blocks, the last of them a block or turn-away.

    ``n`` sequences of at most eight turns: ``turns`` (n, 8) uint8, filled up with ``NO_TURN``; ``length``,
    ``first``, ``last`` (n,); ``away`` (n,): whether a turn-away ends it; ``rests`` (n, 9): whether a block
    ends after so many turns; ``corners`` and ``edges`` (9, n, 24) uint8: where each location is carried by
    so many turns.
    """

    turns: NDArray[np.uint8]
    length: NDArray[np.int16]
    first: NDArray[np.uint8]
    last: NDArray[np.uint8]
    away: NDArray[np.bool_]
    rests: NDArray[np.bool_]
    corners: NDArray[np.uint8]
    edges: NDArray[np.uint8]

    def tuple_of(self, number: int) -> Turns:
        """The turns of one sequence."""
        return tuple(self.turns[number, : self.length[number]].tolist())


_Draft = tuple[Turns, frozenset[int], bool]
"""Turns, after how many of them a block ends, and whether a turn-away ends them."""


def _extensions(keep: int) -> list[tuple[Turns, bool]]:
    """What makes a draft longer: blocks and (True) turn-aways, with or without a turn of the top before."""
    ends = [(block, False) for block in blocks(open_slots(keep))] + [(turns, True) for turns in _TURN_AWAYS]
    return [
        ((*map(int, top), *map(int, end)), away)
        for top in ((), *((turn,) for turn in TOP_TURNS))
        for end, away in ends
    ]


def _grown(draft: _Draft, extensions: list[tuple[Turns, bool]]) -> Iterator[_Draft]:
    """The draft with each extension that it has room for; one turn is saved where two on one face meet."""
    turns, rests, _ = draft
    room = LONGEST - len(turns)
    for more, away in extensions:
        longer = joined_on(turns, more) if len(more) <= room + 1 else None
        if longer is not None and len(longer) <= LONGEST:
            hidden = len(longer) < len(turns) + len(more)
            kept = rests - {len(turns)} if hidden else rests
            yield longer, kept | {len(longer)}, away


def _drafts(keep: int) -> list[_Draft]:
    extensions = _extensions(keep)
    found: dict[tuple[Turns, bool], _Draft] = {}
    ends: list[_Draft] = [((), frozenset(), False)]
    while ends:
        grown = [longer for draft in ends for longer in _grown(draft, extensions)]
        fresh = {(draft[0], draft[2]): draft for draft in grown if (draft[0], draft[2]) not in found}
        found |= fresh
        ends = [draft for draft in fresh.values() if not draft[2] and len(draft[0]) + _LEAST <= LONGEST]
    return sorted(found.values(), key=lambda draft: (len(draft[0]), draft[0]))


def _paths(turns: NDArray[np.uint8], step: NDArray[np.uint8]) -> NDArray[np.uint8]:
    """Where each of 24 locations is after each number of turns; shape (9, n, 24)."""
    path = [np.repeat(np.arange(24, dtype=np.uint8)[None, :], len(turns), axis=0)]
    for column in turns.T:
        path.append(step[column[:, None], path[-1]])
    return np.stack(path)


@cache
def hand_sequences(keep: int) -> HandSequences:
    """The sequences with these slots kept, shortest first; made at first use in a process."""
    drafts = _drafts(keep)
    turns = np.full((len(drafts), LONGEST), NO_TURN, dtype=np.uint8)
    rests = np.zeros((len(drafts), LONGEST + 1), dtype=np.bool_)
    for row, (own, ends, _) in enumerate(drafts):
        turns[row, : len(own)] = own
        rests[row, list(ends)] = True
    length = np.array([len(own) for own, _, _ in drafts], dtype=np.int16)
    last = turns[np.arange(len(drafts)), length - 1]
    away = np.array([ends_away for _, _, ends_away in drafts])
    corners, edges = _paths(turns, CORNER_STEP), _paths(turns, EDGE_STEP)
    return HandSequences(turns, length, turns[:, 0].copy(), last, away, rests, corners, edges)


def is_top(turns: NDArray[np.uint8]) -> NDArray[np.bool_]:
    """Which of the turns are of the top or none at all; any shape."""
    return np.asarray((turns // 3 == Face.U) | (turns == NO_TURN))
