"""How long the shortest route is, by its first turn, from every settled position and from unsettled ones.

For the slot FR and one set of kept slots. In a settled position nothing but where the pair is matters, so
lengths are tables over the pair's locations, worked out from the last step to the first: a sequence that
ends the step at hand, followed by a route from where it leads. Where the two meet on one face their turns
merge and count once; a merge that cancels is not allowed.

From an unsettled position a route begins with turns that settle it, its *way back*: what is left of a block
or a turn-away begun, else any sequence of at most four turns.
"""

from __future__ import annotations

from functools import cache, cached_property
from itertools import product

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from tutor.cube.faces import TURNS
from tutor.cube.geometry import CORNER_MOVE, EDGE_MOVE
from tutor.cube.merging import same_layer, together
from tutor.cube.position import Slot
from tutor.method.hand_ways import (
    LIFTS,
    TOP_TURNS,
    Ids,
    Turns,
    hand_sequences,
    open_slots,
    turn_aways,
)
from tutor.method.homecomings import HOME, JOINED, TOP, Homecomings, inserts, joins, ready_places
from tutor.method.pairs import in_two_slots
from tutor.method.settling_sequences import (
    CORNER_STEP,
    EDGE_STEP,
    NO_TURN,
    is_settled,
    settling,
    settling_sequences,
)
from tutor.method.slot_view import PACKED, pair_of
from tutor.method.steps import TURNING_STEPS, Step
from tutor.method.terms import TURNS_PER_STEP

Costs = NDArray[np.int16]

NEVER = 99
"""The length where there is no route."""
SETTLING_STEPS = (Step.RAISE, Step.PART)
"""The steps that end only where the position is settled."""


def _merge_table() -> NDArray[np.uint8]:
    table = np.full((18, 18), NO_TURN, dtype=np.uint8)
    for before, after in product(TURNS, TURNS):
        both = together(before, after) if same_layer(before, after) else None
        if both is not None:
            table[before, after] = both
    return table


MERGED: NDArray[np.uint8] = _merge_table()
"""``MERGED[before, after]``: the one turn that two on one face make, else ``NO_TURN``; shape (18, 18)."""


def _seam_table() -> Costs:
    table = np.zeros((NO_TURN + 1, 18), dtype=np.int16)
    same_face = np.repeat(np.arange(6), 3)
    table[:NO_TURN][same_face[:, None] == same_face[None, :]] = -1
    for before in TURNS:
        table[before, before.inverse] = NEVER
    return table


_FACES = np.arange(18) // 3
_SEAM = _seam_table()
"""What a seam adds to the length, by the turn before it (or ``NO_TURN``) and the turn after it."""
_SEAM_BEFORE_INSERT: Costs = np.where(_SEAM == 0, np.int16(0), np.int16(NEVER))
"""The same where Insert follows: Join ends where one sees the made pair, after a turn, never within one."""


def after_seam(by_first: Costs, seam: Costs = _SEAM) -> Costs:
    """From lengths by first turn, (.., 18): the shortest after each last turn or ``NO_TURN``, (.., 19)."""
    after: Costs = np.minimum((by_first[..., None, :] + seam).min(axis=-1), NEVER).astype(np.int16)
    return after


class WaysBack(Struct, frozen=True, eq=False):
    """Turns that settle a position, ``turns`` (n, 4) uint8 filled up with ``NO_TURN`` and their ``length``
    (n,), and the ``corner`` and ``edge`` location (n,) to which they take the pair of FR.

    ``seam`` (n, 18): what it adds to the length to go on with each turn, ``NEVER`` where that cancels, or
    where the turn merges with the last but one, only the opposite face being turned between. ``begins``
    (n, 18): the first turn of all, then.
    """

    turns: NDArray[np.uint8]
    length: Ids
    corner: Ids
    edge: Ids
    seam: Costs
    begins: NDArray[np.uint8]

    @property
    def places(self) -> tuple[Ids, Ids]:
        """The locations of the pair, as an index."""
        return self.corner, self.edge

    def tuple_of(self, number: int) -> Turns:
        """The turns of one way."""
        return tuple(self.turns[number, : self.length[number]].tolist())


def _ways_back(turns: NDArray[np.uint8], code: int) -> WaysBack:
    length = (turns != NO_TURN).sum(axis=1)
    corner, edge = (np.full(len(turns), location) for location in pair_of(code))
    for column in turns.T:
        corner, edge = CORNER_STEP[column, corner], EDGE_STEP[column, edge]
    rows = np.arange(len(turns))
    first, before, last = turns[:, 0], turns[rows, length - 2], turns[rows, length - 1]
    across = (length > 1) & (before // 6 == last // 6)
    seam = np.where(across[:, None] & (before[:, None] // 3 == _FACES), np.int16(NEVER), _SEAM[last])
    begins = np.where((length == 1)[:, None] & (seam == -1), MERGED[last], first[:, None])
    return WaysBack(turns, length, corner, edge, seam, begins)


def _settled_first(turns: NDArray[np.uint8]) -> NDArray[np.uint8]:
    """Those of all sequences that settle a position, (n, 4), that do not pass a settled one sooner."""
    every = [tuple(turn for turn in way if turn != NO_TURN) for way in turns.tolist()]
    known = set(every)
    return turns[[known.isdisjoint(way[:made] for made in range(1, len(way))) for way in every]]


_STEPS = {True: CORNER_MOVE.tolist(), False: EDGE_MOVE.tolist()}


def _moved(code: int, turns: Turns) -> int:
    """The code after turns."""
    after = 0
    for is_corner, _, shift in PACKED:
        location = code >> shift & 31
        for turn in turns:
            location = _STEPS[is_corner][turn][location]
        after |= location << shift
    return after


class RouteTables:
    """Everything about routes for the slot FR with ``keep`` (bits 1, 2, 3 for FL, BL, BR) kept.

    Made at first use in a process, in some hundredths of a second. Codes are those of ``slot_view``.
    """

    def __init__(self, keep: int) -> None:
        self.keep = keep
        self.sequences = hand_sequences(keep)

    def settled(self, code: int) -> bool:
        """Whether the cross and the kept pairs are home."""
        return is_settled(self.keep, code)

    def step_at(self, place: tuple[int, int]) -> Step:
        """The first step not done in a settled position with the pair at this place, or ``DONE``."""
        if place == HOME:
            return Step.DONE
        if JOINED[place]:
            return Step.INSERT
        if self.ready[place]:
            return Step.JOIN
        return Step.PART if TOP[place] else Step.RAISE

    @property
    def ready(self) -> NDArray[np.bool_]:
        """Where the pair is ready; shape (24, 24)."""
        return ready_places(self.keep)

    # ---------------------------------------------------------------------------- settled positions

    @cached_property
    def by_first(self) -> Costs:
        """Length of the shortest route by the pair's place and the first turn; shape (24, 24, 18)."""
        return self._settled_tables[0]

    @cached_property
    def after(self) -> Costs:
        """The same by the last turn before it, or ``NO_TURN``, merged with it; shape (24, 24, 19)."""
        return self._settled_tables[1]

    @cached_property
    def _settled_tables(self) -> tuple[Costs, Costs]:
        by_first = np.full((24, 24, 18), NEVER, dtype=np.int16)
        after = np.full((24, 24, 19), NEVER, dtype=np.int16)
        joining, homing = joins(self.keep), inserts(self.keep)
        self._least(by_first, homing.taken(JOINED[homing.corner, homing.edge]))
        self._least(by_first, joining.taken(self.ready[joining.corner, joining.edge]))
        after[:] = after_seam(by_first)
        after[JOINED] = after_seam(by_first[JOINED], _SEAM_BEFORE_INSERT)
        for step in reversed(SETTLING_STEPS):
            places = self._places_of(step)
            corner, edge, numbers = self.ending(step, *np.nonzero(places))
            rest = after[(*self._ends(numbers, corner, edge), self.sequences.last[numbers])]
            length = np.minimum(self.sequences.length[numbers] + rest, NEVER).astype(np.int16)
            np.minimum.at(by_first, (corner, edge, self.sequences.first[numbers]), length)
            after[places] = after_seam(by_first[places])
        return by_first, after

    def _least(self, by_first: Costs, ways: Homecomings) -> None:
        first, length = self.sequences.first[ways.numbers], self.sequences.length[ways.numbers]
        np.minimum.at(by_first, (ways.corner, ways.edge, first), length)

    def _places_of(self, step: Step) -> NDArray[np.bool_]:
        """The places of the pair, in settled positions, at which a step is the first that is not done."""
        if step is Step.PART:
            return np.asarray(TOP & ~self.ready)
        places = np.arange(24)
        kept = [slot for slot in (Slot.FL, Slot.BL, Slot.BR) if self.keep >> slot & 1]
        corner = ~np.isin(places // 3, [slot.corner for slot in kept])
        edge = ~np.isin(places // 2, [slot.edge for slot in kept]) & (places < 16)
        possible = corner[:, None] & edge[None, :] & ~TOP
        possible[HOME] = False
        return np.asarray(possible)

    def _ends(self, numbers: Ids, corner: Ids, edge: Ids) -> tuple[NDArray[np.uint8], NDArray[np.uint8]]:
        return self.sequences.corners[-1, numbers, corner], self.sequences.edges[-1, numbers, edge]

    def ending(self, step: Step, corner: Ids, edge: Ids) -> tuple[Ids, Ids, Ids]:
        """The sequences that end Raise or Part from places (n,), and nothing sooner: for each the corner and
        the edge location where it begins, and its number."""
        wanted = TOP if step is Step.RAISE else self.ready
        slots = np.ones(len(corner), dtype=np.intp)
        if step is Step.RAISE:
            slots += in_two_slots(corner, edge)
        longest = TURNS_PER_STEP * slots.max(initial=1)
        usable = np.flatnonzero(~self.sequences.away & (self.sequences.length <= longest))
        length = self.sequences.length[usable]
        good = length[:, None] <= TURNS_PER_STEP * slots[None, :]
        for made in np.flatnonzero(self.sequences.rests[usable].any(axis=0)):
            rests = np.flatnonzero(self.sequences.rests[usable, made])
            there = usable[rests]
            to_corner = self.sequences.corners[made, there][:, corner]
            to_edge = self.sequences.edges[made, there][:, edge]
            # Done where the sequence ends, and at no rest before that.
            good[rests] &= wanted[to_corner, to_edge] == (length[rests] == made)[:, None]
        number, row = np.nonzero(good)
        return corner[row], edge[row], usable[number]

    # --------------------------------------------------------------------------- unsettled positions

    def ways_back(self, code: int) -> WaysBack:
        """The turns that settle an unsettled position; see the head of this module."""
        begun = self.finishing(code)
        if not begun:
            return _ways_back(_settled_first(settling_sequences().turns[settling(self.keep, code)]), code)
        padded = [turns + (NO_TURN,) * (TURNS_PER_STEP - len(turns)) for turns in begun]
        return _ways_back(np.array(padded, dtype=np.uint8), code)

    def lifted(self, code: int) -> list[tuple[Slot, int]]:
        """The slots that are lifted in an unsettled position, and for each the lower that settles it."""
        lowers = [(slot, int(lift.inverse)) for slot in open_slots(self.keep) for lift in LIFTS[slot]]
        return [(slot, lower) for slot, lower in lowers if self.settled(_moved(code, (lower,)))]

    def finishing(self, code: int) -> list[Turns]:
        """What is left of every block begun, and of every turn-away begun that brings the pair home."""
        found: list[Turns] = []
        for _, lower in self.lifted(code):
            found += [(lower,), *((int(top), lower) for top in TOP_TURNS)]
        for turns in turn_aways(Slot.FR):
            for made in range(1, len(turns)):
                rest = tuple(map(int, turns[made:]))
                end = _moved(code, rest)
                if rest not in found and self.settled(end) and pair_of(end) == HOME:
                    found.append(rest)
        return found

    @cached_property
    def _rests(self) -> dict[Step, Costs]:
        """The rest of a step, and what follows, by the turns left for it, the place, and the first turn.

        For Part, Join and Insert; shape (5, 24, 24, 18) each. The place is one at which a settled position is
        passed in the midst of the step.
        """
        empty = np.full((TURNS_PER_STEP + 1, 24, 24, 18), NEVER, dtype=np.int16)
        rests = {step: empty.copy() for step in (Step.PART, Step.JOIN, Step.INSERT)}
        joining, homing = joins(self.keep), inserts(self.keep)
        lengths = self.sequences.length
        for left in range(1, TURNS_PER_STEP + 1):
            self._least(rests[Step.JOIN][left], joining.taken(joining.join <= left))
            self._least(rests[Step.INSERT][left], homing.taken(lengths[homing.numbers] <= left))
            for number, corner, edge, length in self._parting(left):
                first = self.sequences.first[number]
                np.minimum.at(rests[Step.PART][left], (corner, edge, first), length)
        return rests

    def _parting(self, left: int) -> list[tuple[int, Ids, Ids, Costs]]:
        """The sequences of at most ``left`` turns that end Part: number, where from, and length with what
        follows."""
        found = []
        for number in np.flatnonzero(~self.sequences.away & (self.sequences.length <= left)).tolist():
            to = np.ix_(self.sequences.corners[-1, number], self.sequences.edges[-1, number])
            corner, edge = np.nonzero(self.ready[to] & ~self.ready)
            rest = self.after[to][corner, edge, self.sequences.last[number]]
            length = np.minimum(self.sequences.length[number] + rest, NEVER).astype(np.int16)
            found.append((number, corner, edge, length))
        return found

    def rest_of(self, step: Step, ways: WaysBack, joined: bool) -> Costs:
        """What may follow each way back if ``step`` is the one under way, by first turn; shape (n, 18).

        Zero for all turns where the way back brings the pair home. ``joined``: whether Join is done already.
        """
        home = (ways.corner == HOME[0]) & (ways.edge == HOME[1])
        at_home = np.int16(0 if step is Step.INSERT else NEVER)
        return np.where(home[:, None], at_home, self._rest_before_home(step, ways, joined))

    def _rest_before_home(self, step: Step, ways: WaysBack, joined: bool) -> Costs:
        onward = self._onward(ways)
        if step is Step.RAISE:
            return onward
        if step is Step.JOIN and joined:
            return np.full_like(onward, NEVER)
        rest = self._within_four(step, ways)
        if step is Step.INSERT:
            return rest
        ended = (self.ready if step is Step.PART else JOINED)[ways.places]
        return np.where(ended[:, None], onward, rest)

    def _onward(self, ways: WaysBack) -> Costs:
        """The routes from where the ways back lead, by first turn; none of Insert merges with a way back."""
        onward = self.by_first[ways.places]
        merges = JOINED[ways.places][:, None] & (ways.seam == -1)
        return np.where(merges, np.int16(NEVER), onward)

    def _within_four(self, step: Step, ways: WaysBack) -> Costs:
        """The rests that make at most four turns with the way back; a turn merged with it counts once."""
        left, places = TURNS_PER_STEP - ways.length, ways.places
        rests = self._rests[step]
        return np.where(ways.seam == -1, rests[left + 1, *places], rests[left, *places])

    def under_way(self, code: int, ways: WaysBack) -> dict[Step, Costs]:
        """Length by first turn, (18,), if each of the steps is the one under way."""
        joined = bool(JOINED[pair_of(code)])
        return {step: self._begun_by(ways, self.rest_of(step, ways, joined)) for step in TURNING_STEPS}

    def _begun_by(self, ways: WaysBack, rest: Costs) -> Costs:
        """Length by first turn, (18,), of routes that are a way back and then the rest, (n, 18)."""
        costs = np.full(18, NEVER, dtype=np.int16)
        if not len(ways.length):
            return costs
        home = (rest == 0).all(axis=1)
        np.minimum.at(costs, ways.turns[home, 0], ways.length[home].astype(np.int16))
        total = (ways.length[:, None] + rest + ways.seam)[~home]
        allowed = total < NEVER
        np.minimum.at(costs, ways.begins[~home][allowed], total[allowed].astype(np.int16))
        return costs


@cache
def route_tables(keep: int) -> RouteTables:
    """The tables for one set of kept slots, made once in a process."""
    return RouteTables(keep)
