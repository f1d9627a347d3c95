"""The whole answer for a position and a task: distance, case, step, verdicts, lines and routes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol

from tutor.cube.faces import Turn
from tutor.cube.notation import format_moves
from tutor.cube.position import Position
from tutor.method.cases import Case, CaseSighting, case_of
from tutor.method.comfort import by_comfort
from tutor.method.routes import Route, RouteSet, routes
from tutor.method.steps import Step
from tutor.solver.continuations import Continuation, Verdict, continuations
from tutor.solver.search import TurnDistances
from tutor.solver.task import Task

LINES_SHOWN = 4
ROUTES_SHOWN = 4
_LINES_WEIGHED = 200
"""So many of the shortest lines are ranked by comfort; positions of the method have far fewer."""


class Distances(Protocol):
    """What the answer needs of a solver (see ``tutor.solver.search.Solver``)."""

    def distances(self, position: Position, task: Task) -> TurnDistances:
        """The exact distance of the position and of its 18 neighbours."""

    def lines(self, position: Position, task: Task, limit: int = ...) -> tuple[tuple[Turn, ...], ...]:
        """Shortest lines, at most ``limit``."""


@dataclass(frozen=True, slots=True)
class Answer:
    """Everything there is to say about a position for a task.

    ``lines`` and ``routes`` are a few of the shortest, most comfortable first; at distance 0 the only line
    is the empty one, and there is no route. ``continuations`` are the 18, in the order of the turns.
    """

    position: Position
    task: Task
    settled: bool
    distance: int
    sighting: CaseSighting | None
    continuations: tuple[Continuation, ...]
    lines: tuple[tuple[Turn, ...], ...]
    route_set: RouteSet

    @property
    def case(self) -> Case | None:
        """The case, when all is settled and the pair is on top or in its slot but not home."""
        return None if self.sighting is None else self.sighting.case

    @property
    def step(self) -> Step:
        """The step under way."""
        return self.route_set.step

    @property
    def routes(self) -> tuple[Route, ...]:
        """A few of the shortest routes, most comfortable first."""
        return self.route_set.routes

    def continuation(self, turn: Turn) -> Continuation:
        """The continuation by ``turn``."""
        return self.continuations[turn]

    def turns(self, verdict: Verdict) -> tuple[Turn, ...]:
        """The turns with this verdict, in their order."""
        return tuple(item.turn for item in self.continuations if item.verdict is verdict)


def answer(solver: Distances, position: Position, task: Task) -> Answer:
    """The answer for ``position`` and ``task``, exact."""
    distances = solver.distances(position, task)
    found = routes(position, task, ROUTES_SHOWN)
    if distances.distance == 0:
        judged = _when_done(distances)
    else:
        judged = continuations(distances, task.working_faces(position), found.starts())
    lines = by_comfort(solver.lines(position, task, _LINES_WEIGHED))[:LINES_SHOWN]
    return Answer(
        position,
        task,
        task.settled(position),
        distances.distance,
        case_of(position, task),
        judged,
        tuple(lines),
        found,
    )


def _when_done(distances: TurnDistances) -> tuple[Continuation, ...]:
    """With the task done nothing is left to judge: a turn either leaves it done or takes it apart."""
    return tuple(
        Continuation(turn, after, distances.cost(turn), Verdict.OPTIMAL, "the pair is home, and stays so")
        if after == 0
        else Continuation(turn, after, distances.cost(turn), Verdict.DETOUR, "the pair was home already")
        for turn, after in zip(Turn, distances.after, strict=True)
    )


def answer_as_dict(answer: Answer, setup: str) -> dict[str, object]:
    """The answer in plain values for JSON; ``setup`` is the notation that made the position.

    Keys: setup, slot, keep (slot names in the order FR FL BL BR), settled, distance, case (name or null),
    step, turns (18 of turn, after, cost, verdict, why), lines (notation), routes (notation, length,
    and steps: the turns of each step in notation, by the step's name).
    """
    return {
        "setup": setup,
        "slot": answer.task.slot.name,
        "keep": [slot.name for slot in sorted(answer.task.keep)],
        "settled": answer.settled,
        "distance": answer.distance,
        "case": None if answer.case is None else answer.case.name,
        "step": answer.step.value,
        "turns": [_continuation_as_dict(item) for item in answer.continuations],
        "lines": [format_moves(line) for line in answer.lines if line],
        "routes": [_route_as_dict(route) for route in answer.routes],
    }


def _continuation_as_dict(item: Continuation) -> dict[str, object]:
    return {
        "turn": item.turn.notation,
        "after": item.after,
        "cost": item.cost,
        "verdict": item.verdict.value,
        "why": item.why,
    }


def _route_as_dict(route: Route) -> dict[str, object]:
    return {
        "notation": format_moves(route.turns),
        "length": len(route.turns),
        "steps": {step.value: format_moves(turns) for step, turns in route.segments},
    }
