"""Routes: turn sequences that complete the steps in their order, and the step under way.

A route is cut into one segment for each step from the step under way on. A segment has at most four turns
and ends where its step is done; it is empty when its step is done at its start. Turns of one face that meet
at a seam merge and count once; a merge that cancels is not allowed.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from tutor.cube.faces import TURNS, Turn
from tutor.cube.position import Position
from tutor.method.comfort import comfort
from tutor.method.route_tables import MERGED, NEVER, Costs, RouteTables, route_tables
from tutor.method.steps import TURNING_STEPS, Step
from tutor.method.words import NO_TURN, SlotView, slot_view, words
from tutor.solver.task import Task

SLACK = 2
"""A turn on a route at most so many turns longer than the shortest is acceptable (a definition)."""


@dataclass(frozen=True, slots=True)
class Route:
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


@dataclass(frozen=True, slots=True)
class RouteLengths:
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


@dataclass(frozen=True, slots=True)
class RouteSet:
    """The lengths by first turn, and a few of the shortest routes that begin in the step under way.

    The most comfortable comes first.
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


@dataclass(frozen=True, slots=True)
class _Sight:
    """A position as the tables see it, the step under way, and lengths by first turn as seen.

    ``of_step`` are those of routes that begin in the step under way, ``every`` of all; both (18,).
    """

    view: SlotView
    keep: int
    code: int
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
    """The lengths, and up to ``limit`` (None: all) of the shortest routes, most comfortable first."""
    sight = _sight(position, task)
    back = sight.view.back
    shortest = (sight.of_step == sight.of_step.min()) & (sight.of_step < NEVER)
    drafts = (
        draft
        for first in np.flatnonzero(shortest).tolist()
        for draft in _drafts(sight.keep, sight.step, sight.code, first)
    )
    ways = [
        Route(tuple(TURNS[back[turn]] for turn in draft.turns), draft.steps) for draft in _best_cuts(drafts)
    ]
    ways.sort(key=lambda way: (comfort(way.turns).cost, way.turns))
    return RouteSet(sight.lengths, tuple(ways[:limit]))


def _sight(position: Position, task: Task) -> _Sight:
    view = slot_view(task.slot)
    keep = view.keep(task.keep)
    tables = route_tables(keep)
    code = view.code(position) & tables.bits
    return _Sight(view, keep, code, *_under_way(tables, code))


def _under_way(tables: RouteTables, code: int) -> tuple[Step, Costs, Costs]:
    """The step under way, and lengths by first turn: of routes that begin in that step, and of all."""
    if tables.settled(code):
        costs = tables.settled_lengths(code)
        return tables.step_of_settled(code), costs, costs
    by_step = tables.unsettled_lengths(code)
    every = np.minimum.reduce(list(by_step.values()))
    shortest = every.min()
    if shortest >= NEVER:
        return Step.RAISE, every, every
    step = next(step for step in reversed(by_step) if by_step[step].min() == shortest)
    return step, by_step[step], every


# ---------------------------------------------------------------------------- the shortest routes themselves


@dataclass(frozen=True, slots=True)
class _Draft:
    """A route for the slot FR, its turns as numbers, with the number of seams at which turns merged."""

    turns: tuple[int, ...]
    steps: tuple[Step, ...]
    seams: int = 0

    def behind(self, word: tuple[int, ...], step: Step) -> _Draft:
        """This route with the word of an earlier step before it, merged where the two meet on one face."""
        if self.turns and word[-1] // 3 == self.turns[0] // 3:
            turns = (*word[:-1], int(MERGED[word[-1], self.turns[0]]), *self.turns[1:])
            return _Draft(turns, (step,) * (len(word) - 1) + self.steps, self.seams + 1)
        return _Draft(word + self.turns, (step,) * len(word) + self.steps, self.seams)


def _best_cuts(drafts: Iterator[_Draft]) -> list[_Draft]:
    """One cut for each turn sequence: fewest merged seams, then every step ending as early as can be."""

    def preference(draft: _Draft) -> tuple[int, tuple[int, ...]]:
        return draft.seams, tuple(-TURNING_STEPS.index(step) for step in draft.steps)

    best: dict[tuple[int, ...], _Draft] = {}
    for draft in drafts:
        known = best.get(draft.turns)
        if known is None or preference(draft) < preference(known):
            best[draft.turns] = draft
    return list(best.values())


@lru_cache(maxsize=2048)
def _drafts(keep: int, step: Step, code: int, first: int) -> tuple[_Draft, ...]:
    """All shortest routes from ``code`` for ``step`` and the later steps whose first turn is ``first``."""
    tables = route_tables(keep)
    if step is Step.INSERT:
        return _insert_drafts(tables, code, first)
    drafts: list[_Draft] = []
    target = int(_lengths_in(tables, step, code)[first])
    for word, then, by_first in _continuing(tables, step, code):
        for following in np.flatnonzero(by_first < NEVER).tolist():
            same_face = word[-1] // 3 == following // 3
            merged = int(MERGED[word[-1], following])
            if same_face and merged == NO_TURN:
                continue
            begins = word[0] if len(word) > 1 or not same_face else merged
            if begins != first or len(word) + int(by_first[following]) - same_face != target:
                continue
            later = tables.step_of_settled(then) if step is not Step.JOIN else Step.INSERT
            drafts += [rest.behind(word, step) for rest in _drafts(keep, later, then, following)]
    return tuple(drafts)


def _insert_drafts(tables: RouteTables, code: int, first: int) -> tuple[_Draft, ...]:
    table = words()
    chosen = tables.homing_words(code)
    chosen = chosen[table.first[chosen] == first]
    shortest = chosen[table.length[chosen] == table.length[chosen].min()]
    return tuple(_Draft(turns, (Step.INSERT,) * len(turns)) for turns in map(_turns, shortest.tolist()))


def _turns(word: int) -> tuple[int, ...]:
    return tuple(words().turns[word, : words().length[word]].tolist())


def _lengths_in(tables: RouteTables, step: Step, code: int) -> Costs:
    return tables.settled_lengths(code) if tables.settled(code) else tables.unsettled_lengths(code)[step]


def _continuing(tables: RouteTables, step: Step, code: int) -> Iterator[tuple[tuple[int, ...], int, Costs]]:
    """The words that end ``step``: their turns, the code they lead to, lengths by first turn from there."""
    if step is Step.JOIN:
        chosen, rows = tables.joins(code)
        for word, row in zip(chosen.tolist(), rows.tolist(), strict=True):
            yield _turns(word), int(tables.inserts.codes[row]), tables.inserts.by_first[row]
        return
    for word, corner, edge in tables.ending_words(step, code):
        then = tables.settled_code(corner, edge)
        yield _turns(word), then, tables.settled_lengths(then)
