"""Any turn sequence cut into the steps of the method, by the conditions that end them.

What is shown or made, be it a route, a shortest line or a learner's own way, is cut by this one function, so
that rail, captions, sheets and lessons never disagree about the step.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property
from itertools import accumulate

from msgspec import Struct

from tutor.cube.faces import Face, Turn
from tutor.cube.position import Position
from tutor.method.routes import route_lengths
from tutor.method.steps import DONE_WHEN, TURNING_STEPS, Step
from tutor.method.terms import TURNS_PER_STEP
from tutor.solver.task import Task

_ORDER = {step: number for number, step in enumerate(TURNING_STEPS)}


def step_under_way(position: Position, task: Task) -> Step:
    """The step under way in any position; ``DONE`` when the task is done."""
    return route_lengths(position, task).step


def cut(position: Position, task: Task, turns: Sequence[Turn]) -> tuple[Step, ...]:
    """The step that each of the turns belongs to.

    A step ends only where its condition holds, so Raise and Part only where the position is settled. Where a
    sequence can be cut in several ways, the cut is that of a route if it is one; else as few steps as can be
    are passed over, and each ends as early as can be. Turns by which a step and the next are done together
    belong to the first of them. Turns made once the pair is home for good are ``DONE``, and so are all where
    it was home at the start.
    """
    passed = [position]
    for turn in turns:
        passed.append(passed[-1].turned(turn))
    return _Cutting(task, tuple(turns), tuple(passed)).steps()


class _Cost(Struct, frozen=True, order=True):
    """What speaks against a cut, the weightiest first; ``ends`` are the counts after which steps end."""

    passed_over: int
    too_long: int
    idle: int
    ends: tuple[int, ...]

    def __add__(self, other: _Cost) -> _Cost:
        return _Cost(
            self.passed_over + other.passed_over,
            self.too_long + other.too_long,
            self.idle + other.idle,
            self.ends + other.ends,
        )


def _middles(position: Position, turn: Turn) -> tuple[Position, ...]:
    """The positions half way through a half turn of a side, which may go either way."""
    if turn.quarters != 2 or turn.face is Face.U:
        return ()
    return position.turned(Turn.of(turn.face, 1)), position.turned(Turn.of(turn.face, 3))


_Segment = tuple[Step, int]
"""A step and after how many turns it ends."""
_Cut = tuple[_Cost, tuple[_Segment, ...]]


class _Cutting(Struct, frozen=True, dict=True):
    """Turns for a task and the positions they pass, the start first."""

    task: Task
    turns: tuple[Turn, ...]
    passed: tuple[Position, ...]

    def steps(self) -> tuple[Step, ...]:
        """The step of each turn."""
        begin = 0
        labels: list[Step] = []
        for step, end in self._best:
            labels += [step] * (end - begin)
            begin = end
        return tuple(labels + [Step.DONE] * (len(self.turns) - begin))

    @cached_property
    def _done(self) -> tuple[tuple[bool, ...], ...]:
        """Whether each step's condition holds after each number of turns."""
        return tuple(tuple(DONE_WHEN[step](at, self.task) for at in self.passed) for step in TURNING_STEPS)

    @cached_property
    def _within(self) -> tuple[tuple[bool, ...], ...]:
        """Whether each step's condition holds in the middle of each turn, where two that met have merged.

        What merges to a half turn is the lower that ends Raise or Part and the lift that begins what
        follows. Join ends where one sees the pair made.
        """
        middles = [_middles(at, turn) for at, turn in zip(self.passed, self.turns, strict=False)]
        return tuple(
            tuple(any(DONE_WHEN[step](at, self.task) for at in either) for either in middles)
            for step in TURNING_STEPS
        )

    @cached_property
    def _count(self) -> int:
        """After how many turns the pair is home for good; all of them where it never is."""
        still_open = [count for count, home in enumerate(self._done[-1]) if not home]
        return min(still_open[-1] + 1, len(self.turns)) if still_open else 0

    @cached_property
    def _best(self) -> tuple[_Segment, ...]:
        """The best cut."""
        first = step_under_way(self.passed[0], self.task)
        if first is Step.DONE or not self._count:
            return ()
        return self._best_from(_ORDER[first], 0, {})[1]

    def _best_from(self, number: int, begin: int, known: dict[tuple[int, int], _Cut]) -> _Cut:
        """The best cut of what is left where a step begins; ``known`` are those worked out already."""
        if (number, begin) not in known:
            whole = self._cost(number, len(TURNING_STEPS) - 1, begin, self._count)
            best: _Cut = whole, ((TURNING_STEPS[number], self._count),)
            for end, within, following in self._ends[number]:
                if end > begin:
                    cost, segments = self._best_from(following, end, known)
                    whole = self._cost(number, following, begin, end, within) + cost
                    candidate = whole, ((TURNING_STEPS[number], end), *segments)
                    best = min(best, candidate, key=lambda each: each[0])
            known[number, begin] = best
        return known[number, begin]

    @cached_property
    def _ends(self) -> tuple[tuple[tuple[int, bool, int], ...], ...]:
        """For each step where it may end: after how many turns, whether within the turn after them, and the
        number of the step that may begin there."""
        return tuple(
            tuple(
                (end, within, following)
                for end in range(1, self._count)
                for within in (False, True)
                if (following := self._following(number, end, within)) is not None
            )
            for number in range(len(TURNING_STEPS))
        )

    def _following(self, number: int, end: int, within: bool) -> int | None:
        """The step that may begin after so many turns, or within the turn after them; None where this one
        goes on."""
        done = self._within if within else self._done
        last = _ORDER[Step.PART] if within else _ORDER[Step.JOIN]
        ended = [later for later in range(number, last + 1) if done[later][end]]
        return ended[-1] + 1 if ended else None

    @cached_property
    def _sides(self) -> tuple[int, ...]:
        """How many of the first so many turns are of a side."""
        return tuple(accumulate((turn.face is not Face.U for turn in self.turns), initial=0))

    def _cost(self, number: int, following: int, begin: int, end: int, within: bool = False) -> _Cost:
        done = self._within if within else self._done
        over = sum(not done[step][end] for step in range(number, following))
        too_long = max(0, end - begin + within - TURNS_PER_STEP)
        idle = self._sides[begin] == self._sides[end]
        last_on_top = self.turns[end - 1].face is Face.U
        prepares = end - 1 > begin and last_on_top and self._done[number][end - 1] and end < self._count
        return _Cost(over, too_long, int(within) + int(idle) + int(prepares), (end,))
