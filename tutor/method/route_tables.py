"""How long the shortest route is, by its first turn, from every settled position and in the midst of a step.

For the slot FR and one set of kept slots. A route is worked out from its end: a word that ends the step at
hand, followed by a route from where it leads for the steps after it. Where the two meet on one face their
turns merge and count once; a merge that cancels is not allowed.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, cached_property

import numpy as np
from numpy.typing import NDArray

from tutor.cube.faces import TURNS
from tutor.cube.position import Slot
from tutor.method.steps import MATCH, TOP_CORNER, TOP_EDGE, TOUCH, TURNING_STEPS, Step
from tutor.method.words import (
    CORNER_SHIFT,
    CROSS_BITS,
    EDGE_SHIFT,
    HOME_CODE,
    NO_TURN,
    PAIR_BITS,
    Codes,
    Locations,
    carried_codes,
    carried_crosses,
    settled_bits,
    words,
)

Costs = NDArray[np.int16]
Ids = NDArray[np.intp]

NEVER = 99
"""The length where there is no route."""

TOP: NDArray[np.bool_] = TOP_CORNER[:, None] & TOP_EDGE[None, :]
"""Whether both pieces are on top, by their locations; shape (24, 24)."""
JOINED: NDArray[np.bool_] = TOP & MATCH[Slot.FR]
"""Whether Join is done, by the locations of FR's pair; shape (24, 24)."""
PARTED: NDArray[np.bool_] = TOP & (~TOUCH | MATCH[Slot.FR])
"""Whether Part is done in a settled position; shape (24, 24)."""
_ENDS = {Step.RAISE: TOP, Step.PART: PARTED}
_HOME = (3 * Slot.FR.corner, 2 * Slot.FR.edge)


def _merged(before: int, after: int) -> int:
    """The turn that two turns make, or ``NO_TURN`` when they are on different faces or cancel."""
    if before // 3 != after // 3:
        return NO_TURN
    quarters = (before % 3 + after % 3 + 2) % 4
    return 3 * (before // 3) + quarters - 1 if quarters else NO_TURN


MERGED: NDArray[np.uint8] = np.array([[_merged(a, b) for b in TURNS] for a in TURNS], dtype=np.uint8)
"""``MERGED[before, after]``: the one turn that two on one face make, else ``NO_TURN``; shape (18, 18)."""


def _seam_table() -> Costs:
    table = np.zeros((NO_TURN + 1, 18), dtype=np.int16)
    for before in TURNS:
        same = [turn for turn in TURNS if turn.face is before.face]
        table[before, same] = -1
        table[before, before.inverse] = NEVER
    return table


_SEAM = _seam_table()
"""What a seam adds to the length, by the turn before it (or ``NO_TURN``) and the turn after it."""


def _after_seam(by_first: Costs) -> Costs:
    """From lengths by first turn, (.., 18): the shortest after each last turn or ``NO_TURN``, (.., 19)."""
    after: Costs = np.minimum((by_first[..., None, :] + _SEAM).min(axis=-1), NEVER).astype(np.int16)
    return after


@dataclass(frozen=True, slots=True)
class _Settling:
    """Words in the order of what they bring home."""

    codes: Codes
    words: Ids

    def of(self, code: int) -> Ids:
        """The words that bring the position with this (masked) code home."""
        left, right = self.codes.searchsorted(code), self.codes.searchsorted(code, "right")
        return self.words[left:right]


@dataclass(frozen=True, slots=True)
class _Inserts:
    """The positions with the pair joined on top from which one word brings all home.

    ``codes`` (K,) sorted; ``by_first`` (K, 18) and ``after`` (K, 19) as in the tables of settled positions.
    """

    codes: Codes
    by_first: Costs
    after: Costs

    def find(self, codes: Codes) -> tuple[NDArray[np.bool_], Ids]:
        """Which codes are among these positions, and the row of each that is."""
        rows = np.minimum(self.codes.searchsorted(codes), len(self.codes) - 1)
        known = self.codes[rows] == codes
        return known, rows[known]


@cache
def _joining_words(corner: int, edge: int) -> Ids:
    """The words that take the pair from these locations to where it is joined on top."""
    table = words()
    return np.flatnonzero(JOINED[table.corners[corner], table.edges[edge]])


@cache
def _insert_words() -> Ids:
    """The words that bring the pair home from where it is joined on top."""
    codes = words().inverse_codes
    places = codes >> CORNER_SHIFT & 31, codes >> EDGE_SHIFT & 31
    return np.flatnonzero(JOINED[places] & (words().length > 0))


@cache
def _insert_crosses() -> NDArray[np.bool_]:
    """Whether a cross, by its code, is one that a word of ``_insert_words`` mends; shape (2^20,)."""
    crosses = np.zeros(CROSS_BITS + 1, dtype=np.bool_)
    crosses[words().inverse_codes[_insert_words()] & CROSS_BITS] = True
    return crosses


def _least(costs: Costs, first: NDArray[np.uint8], values: NDArray[np.int16]) -> None:
    np.minimum.at(costs, first, values)


class RouteTables:
    """Everything about routes for the slot FR with ``keep`` (bits 1, 2, 3 for FL, BL, BR) kept.

    Made at first use in a process, in some hundredths of a second. Codes are those of ``words``.
    """

    def __init__(self, keep: int) -> None:
        self.keep = keep
        self.settled_bits = settled_bits(keep)
        self.bits = self.settled_bits | PAIR_BITS
        self._home = HOME_CODE & self.settled_bits

    def settled(self, code: int) -> bool:
        """Whether the cross and the kept pairs are home."""
        return code & self.settled_bits == self._home

    @cached_property
    def _settling(self) -> _Settling:
        codes = words().inverse_codes & self.settled_bits
        order = np.argsort(codes, kind="stable")
        return _Settling(codes[order], order)

    def settling_words(self, code: int) -> Ids:
        """The words of at least one turn that bring cross and kept pairs home."""
        found = self._settling.of(code & self.settled_bits)
        return found[found > 0]

    @cached_property
    def inserts(self) -> _Inserts:
        """Where Insert may begin, and how long it takes."""
        chosen = _insert_words()
        codes, rows = np.unique(words().inverse_codes[chosen] & self.bits, return_inverse=True)
        by_first = np.full((len(codes), 18), NEVER, dtype=np.int16)
        np.minimum.at(by_first, (rows, words().first[chosen]), words().length[chosen])
        return _Inserts(codes, by_first, _after_seam(by_first))

    def joins(self, code: int) -> tuple[Ids, Ids]:
        """The words that end Join where Insert can begin, and the row of ``inserts`` each leads to."""
        chosen = _joining_words(code >> CORNER_SHIFT & 31, code >> EDGE_SHIFT & 31)
        chosen = chosen[_insert_crosses()[carried_crosses(code, chosen)]]
        known, rows = self.inserts.find(carried_codes(code, self.keep, chosen))
        chosen = chosen[known]
        moving = chosen > 0
        return chosen[moving], rows[moving]

    def by_first_turn(self, chosen: Ids, by_first: Costs, after: Costs) -> Costs:
        """Length by first turn, (18,), of routes that begin with one of the ``chosen`` words.

        ``by_first`` (n, 18) and ``after`` (n, 19) tell the length of the rest from where each word leads.
        """
        table = words()
        costs = np.full(18, NEVER, dtype=np.int16)
        length, first, last = table.length[chosen], table.first[chosen], table.last[chosen]
        long = length > 1
        rest = after[np.arange(len(chosen)), last]
        _least(costs, first[long], (length + rest)[long])
        for row in np.flatnonzero(~long):
            # A word of one turn may merge with what follows, and the route then begins with the merged turn.
            turn, rest_by_first = int(first[row]), by_first[row]
            face = range(turn // 3 * 3, turn // 3 * 3 + 3)
            sides = rest_by_first[: face.start], rest_by_first[face.stop :]
            apart = min(int(side.min(initial=NEVER)) for side in sides)
            costs[turn] = min(costs[turn], 1 + apart)
            for following in face:
                merged = MERGED[turn, following]
                if merged != NO_TURN:
                    costs[merged] = min(costs[merged], rest_by_first[following])
        return np.minimum(costs, NEVER)

    # ------------------------------------------------------------------------------ settled positions

    @cached_property
    def _settled_tables(self) -> tuple[Costs, Costs]:
        """Lengths from each settled position by the pair's locations: by first turn and after a last turn."""
        by_first = np.full((24, 24, 18), NEVER, dtype=np.int16)
        after = np.full((24, 24, 19), NEVER, dtype=np.int16)
        chosen = self.settling_words(HOME_CODE)
        for places, ends in self._backward_steps():
            if ends is None:
                for corner, edge in np.argwhere(places):
                    by_first[corner, edge] = self.join_lengths(self.settled_code(int(corner), int(edge)))
            else:
                self._fill(by_first, after, places, ends, chosen)
            after[places] = _after_seam(by_first[places])
        return by_first, after

    def _backward_steps(self) -> list[tuple[NDArray[np.bool_], NDArray[np.bool_] | None]]:
        """The settled placements at each step, last step first, and the placements where it ends.

        Join may end lifted, so it has no such table.
        """
        home = np.zeros((24, 24), dtype=np.bool_)
        home[_HOME] = True
        possible = self._possible & ~home
        return [
            (possible & JOINED, home),
            (possible & PARTED & ~JOINED, None),
            (possible & TOP & ~PARTED, PARTED),
            (possible & ~TOP, TOP),
        ]

    @cached_property
    def _possible(self) -> NDArray[np.bool_]:
        """Where the pair can be while cross and kept pairs are home; shape (24, 24)."""
        places = np.arange(24)
        taken = [slot for slot in (Slot.FL, Slot.BL, Slot.BR) if self.keep >> slot & 1]
        corner = ~np.isin(places // 3, [slot.corner for slot in taken])
        edge = ~np.isin(places // 2, [slot.edge for slot in taken]) & (places < 16)
        return np.asarray(corner[:, None] & edge[None, :])

    def settled_code(self, corner: int, edge: int) -> int:
        """The code of the settled position with the pair at these locations."""
        return self._home | corner << CORNER_SHIFT | edge << EDGE_SHIFT

    def _fill(
        self, by_first: Costs, after: Costs, places: NDArray[np.bool_], ends: NDArray[np.bool_], chosen: Ids
    ) -> None:
        """Lengths for the placements of one step whose words run from settled to settled."""
        table = words()
        corner, edge = np.nonzero(places)
        to_corner = table.corners[:, chosen][corner]
        to_edge = table.edges[:, chosen][edge]
        row, word = np.nonzero(ends[to_corner, to_edge])
        last = table.last[chosen[word]]
        # Where the word ends at home nothing follows; elsewhere the later steps are in the table already.
        rest = np.where(ends[_HOME], 0, after[to_corner[row, word], to_edge[row, word], last])
        length = np.minimum(table.length[chosen[word]] + rest, NEVER).astype(np.int16)
        np.minimum.at(by_first, (corner[row], edge[row], table.first[chosen[word]]), length)

    def settled_lengths(self, code: int) -> Costs:
        """Length of the shortest route by first turn, (18,), from a settled position."""
        lengths: Costs = self._settled_tables[0][code >> CORNER_SHIFT & 31, code >> EDGE_SHIFT & 31]
        return lengths

    # --------------------------------------------------------------------------- in the midst of a step

    def join_lengths(self, code: int) -> Costs:
        """Length by first turn, (18,), of the shortest Join and Insert from here."""
        chosen, rows = self.joins(code)
        return self.by_first_turn(chosen, self.inserts.by_first[rows], self.inserts.after[rows])

    def unsettled_lengths(self, code: int) -> dict[Step, Costs]:
        """Lengths by first turn, (18,), for each step that may be in progress in an unsettled position."""
        chosen, corner, edge = self._settling_places(code)
        by_first, after = self._settled_tables
        lengths = {Step.INSERT: self._insert_lengths(chosen[(corner == _HOME[0]) & (edge == _HOME[1])])}
        for step, ends in _ENDS.items():
            good = ends[corner, edge]
            where = corner[good], edge[good]
            lengths[step] = self.by_first_turn(chosen[good], by_first[where], after[where])
        if not JOINED[code >> CORNER_SHIFT & 31, code >> EDGE_SHIFT & 31]:
            lengths[Step.JOIN] = self.join_lengths(code)
        return {step: lengths[step] for step in TURNING_STEPS if step in lengths}

    def _settling_places(self, code: int) -> tuple[Ids, Locations, Locations]:
        """The words that settle the position, and where each takes the pair's corner and edge."""
        table = words()
        chosen = self.settling_words(code)
        corner = table.corners[code >> CORNER_SHIFT & 31][chosen]
        return chosen, corner, table.edges[code >> EDGE_SHIFT & 31][chosen]

    def _insert_lengths(self, homing: Ids) -> Costs:
        lengths = np.full(18, NEVER, dtype=np.int16)
        _least(lengths, words().first[homing], words().length[homing])
        return lengths

    def homing_words(self, code: int) -> Ids:
        """The words that settle the position and bring the pair home."""
        chosen, corner, edge = self._settling_places(code)
        homing: Ids = chosen[(corner == _HOME[0]) & (edge == _HOME[1])]
        return homing

    def ending_words(self, step: Step, code: int) -> list[tuple[int, int, int]]:
        """The words that end Raise or Part from here, and where each takes the pair's corner and edge."""
        chosen, corner, edge = self._settling_places(code)
        good = _ENDS[step][corner, edge]
        return list(zip(chosen[good].tolist(), corner[good].tolist(), edge[good].tolist(), strict=True))

    def step_of_settled(self, code: int) -> Step:
        """The first step not done in a settled position, or ``DONE``."""
        where = code >> CORNER_SHIFT & 31, code >> EDGE_SHIFT & 31
        if where == _HOME:
            return Step.DONE
        if JOINED[where]:
            return Step.INSERT
        if PARTED[where]:
            return Step.JOIN
        return Step.PART if TOP[where] else Step.RAISE


@cache
def route_tables(keep: int) -> RouteTables:
    """The tables for one set of kept slots, made once in a process."""
    return RouteTables(keep)
