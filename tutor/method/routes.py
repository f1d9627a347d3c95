"""Routes: hand ways that complete the steps in their order, and the step under way.

A route is cut into one segment for each step from the step under way on. A segment has at most four turns
(Raise four for each slot that holds a piece of the pair) and ends where its step is done; it is empty when
its step is done at its start. Turns of one face that meet at a seam merge and count once, but Join ends
where one sees the made pair, so that Insert begins with a turn of its own.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from tutor.cube.faces import TURNS, Face, Turn
from tutor.cube.geometry import CORNER_MOVE, EDGE_MOVE
from tutor.cube.position import Position
from tutor.method.ergonomics import comfort
from tutor.method.hand_ways import Turns, joined_on
from tutor.method.homecomings import HOME, JOINED, Homecomings, inserts, joins
from tutor.method.route_tables import NEVER, Costs, RouteTables, WaysBack, route_tables
from tutor.method.slot_view import (
    PAIR_BITS,
    SlotView,
    mirrored_view,
    pair_of,
    settled_bits,
    slot_mirror,
    slot_view,
)
from tutor.method.steps import TURNING_STEPS, Step
from tutor.method.terms import TURNS_PER_STEP
from tutor.solver.task import Task

SLACK = 2
"""A turn on a route at most so many turns longer than the shortest is acceptable (a definition)."""


class Route(Struct, frozen=True):
    """A way through the steps: its turns, and the step that each turn belongs to.

    A turn merged at a seam belongs to the later of the two steps.
    """

    turns: tuple[Turn, ...]
    steps: tuple[Step, ...]

    @property
    def segments(self) -> tuple[tuple[Step, tuple[Turn, ...]], ...]:
        """The turns of each step that has any, in order."""
        return tuple(
            (step, tuple(turn for turn, own in zip(self.turns, self.steps, strict=True) if own is step))
            for step in TURNING_STEPS
            if step in self.steps
        )


class RouteLengths(Struct, frozen=True):
    """The step under way, and the length of the shortest route that begins with each of the 18 turns.

    ``by_turn`` holds None where no route begins. When the task is done, or when no route leads on, all are.
    A position that is settled is at its first step not done. One that is not may be in the midst of any
    step: the shortest whole decides, ties go to the later step; with no route at all it is at Raise.
    """

    step: Step
    by_turn: tuple[int | None, ...]

    @property
    def length(self) -> int | None:
        """Turns of the shortest route; 0 when the task is done, None when there is no route."""
        if self.step is Step.DONE:
            return 0
        return min((length for length in self.by_turn if length is not None), default=None)

    def starts(self, slack: int = SLACK) -> frozenset[Turn]:
        """The first turns of all routes at most ``slack`` turns longer than the shortest."""
        if not self.length:
            return frozenset()
        longest = self.length + slack
        return frozenset(
            turn for turn in TURNS if (length := self.by_turn[turn]) is not None and length <= longest
        )


class RouteSet(Struct, frozen=True):
    """The lengths by first turn, and a few of the shortest routes that begin in the step under way.

    The one to show comes first: the most comfortable, and for a mirrored case or another slot the image of
    the one shown for the case.
    """

    lengths: RouteLengths
    routes: tuple[Route, ...]

    @property
    def step(self) -> Step:
        """The step under way."""
        return self.lengths.step

    @property
    def length(self) -> int | None:
        """Turns of the shortest route; 0 when the task is done, None when there is no route."""
        return self.lengths.length

    def starts(self, slack: int = SLACK) -> frozenset[Turn]:
        """The first turns of all routes at most ``slack`` turns longer than the shortest."""
        return self.lengths.starts(slack)


class _Sight(Struct, frozen=True):
    """A position as the tables see it, the step under way, and lengths by first turn as seen.

    ``ways`` are the ways back, None where the position is settled; ``of_step`` are lengths of routes that
    begin in the step under way, ``every`` of all; both (18,).
    """

    view: SlotView
    tables: RouteTables
    code: int
    ways: WaysBack | None
    step: Step
    of_step: Costs
    every: Costs

    @property
    def lengths(self) -> RouteLengths:
        """The lengths by turn as held."""
        by_turn: list[int | None] = [None] * len(TURNS)
        for seen, length in enumerate(self.every.tolist()):
            if length < NEVER:
                by_turn[self.view.back[seen]] = length
        return RouteLengths(self.step, tuple(by_turn))


def route_lengths(position: Position, task: Task) -> RouteLengths:
    """The step under way and the shortest route by first turn; some tenths of a millisecond."""
    return _sight(position, task).lengths


def routes(position: Position, task: Task, limit: int | None = 4) -> RouteSet:
    """The lengths, and up to ``limit`` (None: all) of the shortest routes, the one to show first."""
    sight = _sight(position, task)
    drafts = _best_cuts(_shortest(sight))
    chosen = _in_order(drafts, position, sight)[:limit]
    ways = tuple(Route(sight.view.as_held(draft.turns), draft.steps) for draft in chosen)
    return RouteSet(sight.lengths, ways)


def _sight(position: Position, task: Task) -> _Sight:
    view = slot_view(task.slot)
    tables = route_tables(view.keep(task.keep))
    code = view.code(position)
    if tables.settled(code):
        place = pair_of(code)
        lengths = tables.by_first[place]
        return _Sight(view, tables, code, None, tables.step_at(place), lengths, lengths)
    ways = tables.ways_back(code)
    by_step = tables.under_way(code, ways)
    every = np.minimum.reduce(list(by_step.values()))
    shortest = every.min()
    if shortest >= NEVER:
        return _Sight(view, tables, code, ways, Step.RAISE, every, every)
    step = next(step for step in reversed(by_step) if by_step[step].min() == shortest)
    return _Sight(view, tables, code, ways, step, by_step[step], every)


# ------------------------------------------------------------------------------------- the one that is shown


def _in_order(drafts: list[_Draft], position: Position, sight: _Sight) -> list[_Draft]:
    """The routes, the one to show first.

    A route is as comfortable as it and its image in the slot's own mirror are together, and of two places
    that are images of each other one decides for both, so that the routes shown are images too. Of equally
    comfortable ones that which settles an unsettled position sooner comes first.
    """
    if len(drafts) < 2:
        return drafts
    seen, mirrored = _both_ways(position, sight)

    def order(draft: _Draft) -> tuple[float, float, int, Turns]:
        turns = tuple([TURNS[turn] for turn in draft.turns])
        image = slot_mirror().turns(turns)
        own, other = comfort(turns).cost, comfort(image).cost
        if seen == mirrored:
            return own, other, draft.back, draft.turns
        return own + other, 0.0, draft.back, draft.turns if seen < mirrored else tuple(map(int, image))

    return sorted(drafts, key=order)


def _both_ways(position: Position, sight: _Sight) -> tuple[tuple[int, int], tuple[int, int]]:
    """What matters of the position, as seen and in the slot's own mirror: the slots kept and where pieces
    of cross, pair and kept slots are."""
    keep = sight.tables.keep
    mirror = mirrored_view(sight.view.slot)
    keep_mirrored = keep & 0b0100 | (keep & 0b0010) << 2 | (keep & 0b1000) >> 2
    bits, bits_mirrored = (settled_bits(kept) | PAIR_BITS for kept in (keep, keep_mirrored))
    return (keep, sight.code & bits), (keep_mirrored, mirror.code(position) & bits_mirrored)


# ---------------------------------------------------------------------------- the shortest routes themselves


class _Draft(Struct, frozen=True):
    """A route for the slot FR, its turns as numbers, with the number of seams at which turns merged and of
    the turns that settle the position."""

    turns: Turns
    steps: tuple[Step, ...]
    seams: int = 0
    back: int = 0

    def behind(self, before: Turns, step: Step) -> _Draft | None:
        """This route with turns of ``step`` before it, merged where the two meet on one face.

        None where that cancels, and where it would hide the end of Join within a turn.
        """
        turns = joined_on(before, self.turns)
        if turns is None:
            return None
        hidden = len(before) + len(self.turns) - len(turns)
        if hidden and self.steps[0] is Step.INSERT and step is not Step.INSERT:
            return None
        return _Draft(turns, (step,) * (len(before) - hidden) + self.steps, self.seams + hidden)


def _best_cuts(drafts: Iterator[_Draft]) -> list[_Draft]:
    """One cut for each turn sequence: fewest merged seams, then every step ending as early as can be."""

    def preference(draft: _Draft) -> tuple[int, tuple[int, ...]]:
        return draft.seams, tuple(-TURNING_STEPS.index(step) for step in draft.steps)

    best: dict[Turns, _Draft] = {}
    for draft in drafts:
        known = best.get(draft.turns)
        if known is None or preference(draft) < preference(known):
            best[draft.turns] = draft
    return list(best.values())


def _shortest(sight: _Sight) -> Iterator[_Draft]:
    """All shortest routes that begin in the step under way."""
    length = int(sight.of_step.min())
    if sight.step is Step.DONE or length >= NEVER:
        return
    if sight.ways is None:
        for first in np.flatnonzero(sight.of_step == length).tolist():
            yield from _drafts(sight.tables.keep, pair_of(sight.code), first)
        return
    rests = sight.tables.rest_of(sight.step, sight.ways, bool(JOINED[pair_of(sight.code)]))
    rests = np.where(sight.ways.seam >= NEVER, np.int16(NEVER), rests)
    for number, rest in enumerate(rests):
        yield from _after_way_back(sight, number, rest, length)


def _after_way_back(sight: _Sight, number: int, rest: Costs, length: int) -> Iterator[_Draft]:
    """The routes of this length that begin with one of the ways back; ``rest`` (18,) is what may follow."""
    assert sight.ways is not None
    turns = sight.ways.tuple_of(number)
    place = int(sight.ways.corner[number]), int(sight.ways.edge[number])
    if place == HOME:
        if sight.step is Step.INSERT and len(turns) == length:
            yield _Draft(turns, (Step.INSERT,) * len(turns))
        return
    left = TURNS_PER_STEP - len(turns)
    # A merge saves one turn at most, so nothing longer than this can be part of a shortest route.
    for first in np.flatnonzero(len(turns) + rest - 1 <= length).tolist():
        merges = first // 3 == turns[-1] // 3
        for later in _going_on(sight.tables.keep, sight.step, place, first, left + merges):
            whole = later.behind(turns, sight.step)
            if whole is not None and len(whole.turns) == length:
                yield _joined_at_first(replace(whole, back=len(turns)), pair_of(sight.code))


def _joined_at_first(draft: _Draft, place: tuple[int, int]) -> _Draft:
    """The draft with Join ended by the first turn that makes the pair, be it before the position settles, if
    that leaves Insert at most four turns; ``place`` is where the pair begins. Only where Join is under way.
    """
    if draft.steps[0] is not Step.JOIN:
        return draft
    corner, edge = place
    for made, turn in enumerate(draft.turns[: draft.steps.count(Step.JOIN)], start=1):
        corner, edge = int(CORNER_MOVE[turn, corner]), int(EDGE_MOVE[turn, edge])
        left = len(draft.turns) - made
        if JOINED[corner, edge] and left <= TURNS_PER_STEP and TURNS[turn].face is not Face.U:
            return replace(draft, steps=(Step.JOIN,) * made + (Step.INSERT,) * left)
    return draft


@lru_cache(maxsize=2048)
def _going_on(keep: int, step: Step, place: tuple[int, int], first: int, left: int) -> tuple[_Draft, ...]:
    """The shortest ways on from a settled place in the midst of ``step``, with ``left`` turns for it."""
    tables = route_tables(keep)
    ended = {Step.RAISE: True, Step.PART: bool(tables.ready[place]), Step.JOIN: bool(JOINED[place])}
    if ended.get(step, False):
        return _drafts(keep, place, first)
    if step is Step.PART:
        return tuple(_behind_sequences(keep, Step.PART, place, first, left))
    ways = joins(keep) if step is Step.JOIN else inserts(keep)
    return tuple(_homing_drafts(tables, ways.from_place(*place), first, left))


def _homing_drafts(tables: RouteTables, ways: Homecomings, first: int, left: int) -> list[_Draft]:
    """The shortest of the sequences that begin with a turn; no more than ``left`` turns before Join ends, or
    in all where there is no Join."""
    spent = np.where(ways.join > 0, ways.join, tables.sequences.length[ways.numbers])
    ways = ways.taken((tables.sequences.first[ways.numbers] == first) & (spent <= left))
    lengths = tables.sequences.length[ways.numbers]
    found = []
    for row in np.flatnonzero(lengths == lengths.min(initial=NEVER)).tolist():
        join = int(ways.join[row])
        steps = (Step.JOIN,) * join + (Step.INSERT,) * (int(lengths[row]) - join)
        found.append(_Draft(tables.sequences.tuple_of(ways.numbers[row]), steps))
    return found


@lru_cache(maxsize=2048)
def _drafts(keep: int, place: tuple[int, int], first: int) -> tuple[_Draft, ...]:
    """All shortest routes from a settled place whose first turn is ``first``."""
    tables = route_tables(keep)
    step = tables.step_at(place)
    if step is Step.INSERT or step is Step.JOIN:
        ways = inserts(keep) if step is Step.INSERT else joins(keep)
        return tuple(_homing_drafts(tables, ways.from_place(*place), first, TURNS_PER_STEP))
    return tuple(_behind_sequences(keep, step, place, first, None))


def _behind_sequences(
    keep: int, step: Step, place: tuple[int, int], first: int, left: int | None
) -> Iterator[_Draft]:
    """The shortest routes that begin with a sequence that ends Raise or Part, of at most ``left`` turns."""
    tables = route_tables(keep)
    sequences = tables.sequences
    _, _, numbers = tables.ending(step, np.array([place[0]]), np.array([place[1]]))
    numbers = numbers[sequences.first[numbers] == first]
    if left is not None:
        numbers = numbers[sequences.length[numbers] <= left]
    found: list[_Draft] = []
    for number in numbers.tolist():
        to = int(sequences.corners[-1, number, place[0]]), int(sequences.edges[-1, number, place[1]])
        before = sequences.tuple_of(number)
        for following in np.flatnonzero(tables.by_first[to] < NEVER).tolist():
            whole = (later.behind(before, step) for later in _drafts(keep, to, following))
            found += [draft for draft in whole if draft is not None]
    shortest = min((len(draft.turns) for draft in found), default=0)
    return (draft for draft in found if len(draft.turns) == shortest)
