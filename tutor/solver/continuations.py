"""The verdict on each of the 18 turns: Optimal, Acceptable or Detour, and the rule that decided it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from tutor.cube.faces import TURNS, Face, Turn

if TYPE_CHECKING:
    from tutor.solver.search import TurnDistances


class Verdict(Enum):
    """How good a turn is."""

    OPTIMAL = "optimal"
    ACCEPTABLE = "acceptable"
    DETOUR = "detour"


@dataclass(frozen=True, slots=True)
class Continuation:
    """One of the 18 turns at a position: the distance after it, what it costs, and how it is judged.

    ``cost`` is 0, 1 or 2 turns; ``why`` is a short reason in plain words, from the rule that decided.
    """

    turn: Turn
    after: int
    cost: int
    verdict: Verdict
    why: str


def continuations(
    distances: TurnDistances, working_faces: frozenset[Face], route_starts: frozenset[Turn]
) -> tuple[Continuation, ...]:
    """The 18 continuations, in the order of ``TURNS``.

    ``working_faces`` are the task's at this position; ``route_starts`` are the turns that begin a route at
    most two turns longer than the shortest one. At distance 0 nothing is left to judge; the verdicts then
    only say what would be lost.
    """
    return tuple(_judged(turn, distances, working_faces, route_starts) for turn in TURNS)


def _judged(
    turn: Turn, distances: TurnDistances, working_faces: frozenset[Face], route_starts: frozenset[Turn]
) -> Continuation:
    after, cost = distances.after[turn], distances.cost(turn)
    verdict, why = _rule(
        turn, cost, after, turn in distances.direct, turn.face in working_faces, turn in route_starts
    )
    return Continuation(turn, after, cost, verdict, why)


def _rule(
    turn: Turn, cost: int, after: int, direct: bool, working: bool, starts: bool
) -> tuple[Verdict, str]:
    """The rules in the order in which they decide."""
    if cost == 0:
        return Verdict.OPTIMAL, "begins a shortest line"
    if starts:
        return Verdict.ACCEPTABLE, f"begins a way through the steps, {_longer(cost)}"
    if cost > 1:
        return Verdict.DETOUR, f"{_turns(after)} to go after it: two more than needed in all"
    if not direct:
        return Verdict.DETOUR, f"costs one turn: {turn.face.name} must be turned again at once"
    if not working:
        return Verdict.DETOUR, f"costs one turn, on a face this pair does not need: {turn.face.name}"
    return Verdict.ACCEPTABLE, "one turn longer, by another way"


def _longer(cost: int) -> str:
    return "one turn longer" if cost == 1 else "two turns longer"


def _turns(count: int) -> str:
    return "1 turn" if count == 1 else f"{count} turns"
