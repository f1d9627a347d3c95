"""The whole answer for a position and a task: distances, case, step, verdicts, lines and routes."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from tutor.cube.faces import Face, Turn
from tutor.cube.notation import format_moves
from tutor.cube.position import Position
from tutor.method.cases import Case, CaseSighting, case_of
from tutor.method.continuations import Continuation, Judging, Verdict
from tutor.method.cutting import cut
from tutor.method.ergonomics import by_comfort
from tutor.method.lines import Line
from tutor.method.routes import Route, RouteSet, routes
from tutor.method.steps import Step
from tutor.method.ticks import in_the_midst
from tutor.solver.search import Solver
from tutor.solver.task import Task

LINES_SHOWN = 4
ROUTES_SHOWN = 4
_LINES_WEIGHED = 200
"""So many of the shortest lines are ranked by comfort; positions of the method have far fewer."""


class Answer(Struct, frozen=True):
    """Everything there is to say about a position for a task.

    ``distance`` is the fewest of all turns, ``by_hand`` the fewest of working faces alone, None where they
    do not lead home. ``lines`` and ``routes`` are a few of the shortest, the one to show first; lines are by
    hand where there is a way by hand. At distance 0 the only line is the empty one, and there is no route.
    ``at_all_line`` is a shortest sequence with far layers too, where that is shorter than by hand, else
    empty. ``continuations`` are the 18, in the order of the turns.
    """

    position: Position
    task: Task
    settled: bool
    distance: int
    by_hand: int | None
    sighting: CaseSighting | None
    continuations: tuple[Continuation, ...]
    lines: tuple[Line, ...]
    at_all_line: Line
    route_set: RouteSet

    @property
    def to_go(self) -> int:
        """Turns to go: by hand where there is a way by hand, else with all turns."""
        return self.distance if self.by_hand is None else self.by_hand

    @property
    def far_is_shorter(self) -> bool:
        """Whether ``to_go`` counts by hand what takes fewer turns with far layers."""
        return self.distance < self.to_go

    @property
    def fewest_with_top_free(self) -> int:
        """A case's own figure: its fewest turns by hand with the top turned as best.

        A turn of the top before them does not count, so it is the same for each turn of the top.
        """
        tops = (self.continuation(Turn.of(Face.U, quarters)).to_go for quarters in (1, 2, 3))
        return min(self.to_go, *tops)

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
        """A few of the shortest routes, the one to show first."""
        return self.route_set.routes

    @property
    def way(self) -> Route:
        """What is hinted and shown; who follows it from turn to turn comes home.

        The route, where the position is settled or a block is begun, or where one turn makes it so; else a
        line by hand. A far layer is turned only to take harm back, and where there is no way by hand.
        """
        turns = self._way_to_hand() if self.by_hand is None else self._way_by_hand(self.by_hand)
        shown = next((route for route in self.routes if route.turns == turns), None)
        if shown is not None and self.settled:
            return shown
        return Route(turns, cut(self.position, self.task, turns))

    def _way_by_hand(self, fewest: int) -> Line:
        """The first of the routes that may be followed, else a line."""
        working, detours = self.task.working_faces, self.turns(Verdict.DETOUR)
        orderly = self.settled or in_the_midst(self.position, self.task)
        for route in self.routes:
            first, *rest = route.turns
            mends = first.face in working or (len(route.turns) < fewest and first not in detours)
            if {turn.face for turn in rest} <= working and (orderly or (mends and self._settles(first))):
                return route.turns
        return self.lines[0]

    def _settles(self, turn: Turn) -> bool:
        """Whether the turn leads where the position is settled or in the midst of a block."""
        after = self.position.turned(turn)
        return self.task.settled(after) or in_the_midst(after, self.task)

    def _way_to_hand(self) -> Line:
        """A route or line whose first turn makes a way by hand, if that turn is no detour; else a line."""
        mending = {
            item.turn
            for item in self.continuations
            if item.by_hand is not None and item.verdict is not Verdict.DETOUR
        }
        ways = (*(route.turns for route in self.routes), *self.lines)
        return next((turns for turns in ways if turns[0] in mending), self.lines[0])

    def continuation(self, turn: Turn) -> Continuation:
        """The continuation by ``turn``."""
        return self.continuations[turn]

    def turns(self, verdict: Verdict) -> tuple[Turn, ...]:
        """The turns with this verdict, in their order."""
        return tuple(item.turn for item in self.continuations if item.verdict is verdict)


def answer(solver: Solver, position: Position, task: Task) -> Answer:
    """The answer for ``position`` and ``task``, exact."""
    at_all, by_hand = solver.distances(position, task), solver.hand_distances(position, task)
    found = routes(position, task, ROUTES_SHOWN)
    judging = Judging(at_all, by_hand, task.working_faces, found.starts())
    with_far_layers = by_hand.distance is None or at_all.distance < by_hand.distance
    # Told once as a curiosity where there is a way by hand, so that a few are enough to choose from.
    weighed = _LINES_WEIGHED if by_hand.distance is None else LINES_SHOWN
    far_lines = _most_comfortable(solver.lines(position, task, weighed)) if with_far_layers else ()
    return Answer(
        position,
        task,
        task.settled(position),
        at_all.distance,
        by_hand.distance,
        case_of(position, task),
        judging.continuations(),
        _most_comfortable(solver.hand_lines(position, task, _LINES_WEIGHED)) or far_lines,
        far_lines[0] if far_lines and by_hand.distance is not None else (),
        found,
    )


def _most_comfortable(weighed: tuple[Line, ...]) -> tuple[Line, ...]:
    """A few of the shortest lines."""
    return tuple(by_comfort(weighed)[:LINES_SHOWN])


def answer_as_dict(answer: Answer, setup: str, says: Sequence[str]) -> dict[str, object]:
    """The answer in plain values for JSON.

    ``setup`` is the notation that made the position; ``says`` are sentences about the 18 turns, in order.

    Keys: setup, slot, keep (slot names in the order FR FL BL BR), settled, distance (of all turns), by_hand
    (null where there is no way by hand), to_go, case (name or null), step, turns (18 of turn, after, cost,
    by_hand, verdict, why, says), lines (notation), routes (notation, length, and steps: the turns of each
    step in notation, by the step's name).
    """
    return {
        "setup": setup,
        "slot": answer.task.slot.name,
        "keep": [slot.name for slot in sorted(answer.task.keep)],
        "settled": answer.settled,
        "distance": answer.distance,
        "by_hand": answer.by_hand,
        "to_go": answer.to_go,
        "case": None if answer.case is None else answer.case.name,
        "step": answer.step.value,
        "turns": [
            _continuation_as_dict(item) | {"says": said}
            for item, said in zip(answer.continuations, says, strict=True)
        ],
        "lines": [format_moves(line) for line in answer.lines if line],
        "routes": [route_as_dict(route) for route in answer.routes],
    }


def _continuation_as_dict(item: Continuation) -> dict[str, object]:
    return {
        "turn": item.turn.notation,
        "after": item.after,
        "cost": item.cost,
        "by_hand": item.by_hand,
        "lost": item.lost,
        "verdict": item.verdict.value,
        "why": item.why,
    }


def route_as_dict(route: Route) -> dict[str, object]:
    """The route in plain values for JSON: notation, length, and the turns of each step by its name."""
    return {
        "notation": format_moves(route.turns),
        "length": len(route.turns),
        "steps": {step.value: format_moves(turns) for step, turns in route.segments},
    }
