"""What a shortest line saves against a route: the steps it skips, and those it does with one turn."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from tutor.cube.faces import Turn
from tutor.cube.position import Position
from tutor.method.routes import Route, routes
from tutor.method.steps import DONE_WHEN, Step
from tutor.solver.task import Task


class Shortcut(Struct, frozen=True):
    """A line held against a route.

    ``saved``: how many turns the line is shorter (0 or more for a shortest line). ``ends`` tells for each
    step of the route after how many turns of the line it is done; None for a step that the line never does.
    A line that is a route itself has the ends of that route.
    """

    saved: int
    ends: tuple[tuple[Step, int | None], ...]

    @property
    def skipped(self) -> tuple[Step, ...]:
        """The steps of the route that the line never does."""
        return tuple(step for step, end in self.ends if end is None)

    @property
    def merged(self) -> tuple[tuple[Step, ...], ...]:
        """Groups of two or more steps that the line finishes with one and the same turn."""
        groups: dict[int, tuple[Step, ...]] = {}
        for step, end in self.ends:
            if end is not None:
                groups[end] = (*groups.get(end, ()), step)
        return tuple(group for group in groups.values() if len(group) > 1)


def compare(position: Position, task: Task, line: Sequence[Turn], route: Route) -> Shortcut:
    """What ``line`` merges or skips of ``route``, a shortest one; both start at ``position``.

    Raises ValueError when the line does not bring the pair home with all else kept.
    """
    passed = [position]
    for turn in line:
        passed.append(passed[-1].turned(turn))
    if not task.done(passed[-1]):
        raise ValueError(
            "the line does not bring the pair home with all else kept, so it is none for this task"
        )
    ways = routes(position, task, limit=None).routes if len(line) == len(route.turns) else ()
    same = next((way for way in ways if way.turns == tuple(line)), None)
    ends = _passed_ends(passed, task, route) if same is None else _own_ends(same)
    return Shortcut(len(route.turns) - len(line), ends)


def _passed_ends(passed: list[Position], task: Task, route: Route) -> tuple[tuple[Step, int | None], ...]:
    """When each step of the route is first done on the way, the earlier ones being done by then."""
    ends: list[tuple[Step, int | None]] = []
    reached = 0
    for step, _ in route.segments:
        end = next((n for n in range(reached, len(passed)) if DONE_WHEN[step](passed[n], task)), None)
        ends.append((step, end))
        reached = reached if end is None else end
    return tuple(ends)


def _own_ends(route: Route) -> tuple[tuple[Step, int | None], ...]:
    return tuple(
        (step, len(route.steps) - tuple(reversed(route.steps)).index(step)) for step, _ in route.segments
    )
