"""What a person solving a whole cube may ask, and the exact answers: cross, costs of pairs, plan, proof.

Questions are plain values that name positions with the cross down, so that an answer can be kept by its
question and worked out anywhere. ``advise`` answers any of them.
"""

from __future__ import annotations

import time

from msgspec import Struct

from tutor.cube.faces import TURNS, Turn
from tutor.cube.position import SLOTS, Position, every_other_slot
from tutor.method.continuations import Verdict
from tutor.method.ergonomics import by_comfort
from tutor.method.lines import fewest_together
from tutor.method.plan import PairCost, Plan, best_plan, in_order, open_pairs, pair_costs
from tutor.method.savings import SavedTurns, savings
from tutor.solver.cross import CrossDistance, CrossSolver
from tutor.solver.lines import Interrupt
from tutor.solver.search import Solver
from tutor.solver.task import Task

CROSS_LINES = 60
"""Shortest lines of a cross among which the most comfortable are chosen."""
LINES_SHOWN = 6
PLAN_SECONDS = 1.5
"""After so long the search for a plan is finished with what it has."""
PROOF_SECONDS = 4.0
"""The search for the fewest turns of all is given so long."""


class CrossQuestion(Struct, frozen=True):
    """What about the cross of the colour that is down?"""

    position: Position


class PairsQuestion(Struct, frozen=True):
    """What does each open pair cost?"""

    position: Position


class PlanQuestion(Struct, frozen=True):
    """In which order are the open pairs best taken?"""

    position: Position


class ProofQuestion(Struct, frozen=True):
    """What is the fewest turns to all four pairs, whatever the order, as far as a time limit allows?"""

    position: Position


PositionQuestion = CrossQuestion | PairsQuestion | PlanQuestion | ProofQuestion


class CrossReading(Struct, frozen=True):
    """The cross: its distance, the distance after each of the 18 turns, shortest lines, and other colours.

    ``direct`` holds the turns of cost one after which home can be reached in ``after`` turns without turning
    the same face again at once. ``lines`` are the most comfortable first; ``colours`` the cheapest first.
    """

    distance: int
    after: tuple[int, ...]
    direct: frozenset[Turn]
    lines: tuple[tuple[Turn, ...], ...]
    colours: tuple[CrossDistance, ...]

    def verdict(self, turn: Turn) -> Verdict:
        """How good a turn is for the cross, as for a pair: every face is a working face here."""
        if self.after[turn] < self.distance:
            return Verdict.OPTIMAL
        return Verdict.ACCEPTABLE if turn in self.direct else Verdict.DETOUR


class PairsReading(Struct, frozen=True):
    """Every open pair with its exact cost, the cheapest first, and what saves turns here."""

    costs: tuple[PairCost, ...]
    savings: tuple[SavedTurns, ...]


class PlanReading(Struct, frozen=True):
    """The shortest plan found, and the slots in order as they come, each by a shortest line."""

    plan: Plan
    plain: Plan


class Proof(Struct, frozen=True):
    """The fewest turns of any face in which all four pairs come home with the cross kept.

    ``line`` does it in so many turns by hand; None when no such line was met.
    """

    fewest: int
    line: tuple[Turn, ...] | None


Advice = CrossReading | PairsReading | PlanReading | Proof | None
"""An answer; None when the time limit of a proof ran out."""


class _OutOfTimeError(Exception):
    """Raised inside a search when its time is over."""


def read_cross(crosses: CrossSolver, position: Position) -> CrossReading:
    """All there is to say about the cross of the colour that is down."""
    distance, after = crosses.distance(position), crosses.after(position)
    direct = frozenset(
        turn for turn in TURNS if after[turn] == distance and _goes_on(crosses, position, turn, distance)
    )
    lines = tuple(by_comfort(crosses.lines(position, limit=CROSS_LINES))[:LINES_SHOWN])
    return CrossReading(distance, after, direct, lines, crosses.colours(position))


def _goes_on(crosses: CrossSolver, position: Position, turn: Turn, remaining: int) -> bool:
    """Whether home is ``remaining`` turns away after ``turn`` by a way that begins with another face."""
    if remaining == 0:
        return True
    further = crosses.after(position.turned(turn))
    return any(further[other] == remaining - 1 for other in TURNS if other.face is not turn.face)


def _go_on() -> None:
    """The interrupt that never is one."""


def prove(
    solver: Solver, position: Position, seconds: float = PROOF_SECONDS, interrupt: Interrupt = _go_on
) -> Proof | None:
    """The fewest turns to two whole layers, exact; None when it is not found in time."""
    limited = Solver(solver.tables, _deadline(seconds, interrupt))
    slot = next(iter(open_pairs(position)), SLOTS[0])
    try:
        return Proof(*fewest_together(limited, position, Task(slot, every_other_slot(slot))))
    except _OutOfTimeError:
        return None


def _deadline(seconds: float, interrupt: Interrupt) -> Interrupt:
    end = time.monotonic() + seconds

    def check() -> None:
        interrupt()
        if time.monotonic() > end:
            raise _OutOfTimeError

    return check


def advise(solver: Solver, question: PositionQuestion, interrupt: Interrupt = _go_on) -> Advice:
    """The answer to a question about a position; what ``interrupt`` raises ends a proof."""
    match question:
        case CrossQuestion(position):
            return read_cross(CrossSolver(solver.tables), position)
        case PairsQuestion(position):
            costs = pair_costs(solver, position)
            return PairsReading(costs, savings(solver, position, costs))
        case PlanQuestion(position):
            end = time.monotonic() + PLAN_SECONDS
            plan = best_plan(solver, position, lambda: time.monotonic() < end)
            return PlanReading(plan, in_order(solver, position))
        case ProofQuestion(position):
            return prove(solver, position, interrupt=interrupt)
