"""Verdicts by the rules of the method."""

from __future__ import annotations

import random

from tests.solver.plain_search import unsolved_placements
from tutor.cube.faces import TURNS, Face, Turn
from tutor.cube.position import SLOTS, SOLVED, Slot
from tutor.method.continuations import Continuation, Verdict, continuations
from tutor.solver.search import Solver, TurnDistances
from tutor.solver.task import Task

KEPT = Task(Slot.FR, frozenset(SLOTS) - {Slot.FR})
NONE: frozenset[Turn] = frozenset()


def judged(solver: Solver, made: str, starts: frozenset[Turn] = NONE) -> dict[Turn, Continuation]:
    position = SOLVED.after([next(turn for turn in TURNS if turn.notation == name) for name in made.split()])
    found = solver.distances(position, KEPT)
    return {item.turn: item for item in continuations(found, KEPT.working_faces, starts)}


def test_the_only_optimal_turn_of_a_made_pair_begins_its_insertion(solver: Solver) -> None:
    items = judged(solver, "R U R'")
    assert [turn for turn, item in items.items() if item.verdict is Verdict.OPTIMAL] == [Turn.R]
    assert (items[Turn.R].after, items[Turn.R].cost) == (2, 0)


def test_a_half_turn_that_must_be_mended_is_a_detour_though_it_costs_one(solver: Solver) -> None:
    items = judged(solver, "R U R'")
    assert items[Turn.R2].cost == 1
    assert items[Turn.R2].verdict is Verdict.DETOUR
    assert "again at once" in items[Turn.R2].why


def test_another_way_that_is_one_turn_longer_is_acceptable_on_a_working_face(solver: Solver) -> None:
    items = judged(solver, "R U R'")
    assert (items[Turn.U].cost, items[Turn.U].verdict) == (1, Verdict.ACCEPTABLE)


def test_a_turn_that_begins_a_route_is_acceptable_at_any_cost(solver: Solver) -> None:
    plain = judged(solver, "R U R'")[Turn.F]
    assert (plain.cost, plain.verdict) == (2, Verdict.DETOUR)
    assert judged(solver, "R U R'", frozenset({Turn.F}))[Turn.F].verdict is Verdict.ACCEPTABLE


def test_a_direct_turn_of_a_face_not_worked_with_is_a_detour() -> None:
    after = tuple(3 if turn is Turn.L else 2 if turn is Turn.R else 4 for turn in TURNS)
    found = TurnDistances(3, after, frozenset({Turn.L, Turn.R}))
    items = continuations(found, frozenset({Face.U, Face.R, Face.F}), NONE)
    assert items[Turn.L].verdict is Verdict.DETOUR
    assert "L" in items[Turn.L].why
    with_left = continuations(found, frozenset({Face.U, Face.L}), NONE)
    assert with_left[Turn.L].verdict is Verdict.ACCEPTABLE


def test_verdicts_follow_from_cost_directness_faces_and_routes_everywhere(solver: Solver) -> None:
    """The definition, written once more the other way round."""
    chooser = random.Random(8)
    for position in chooser.sample(unsolved_placements(Slot.FR), 40):
        found = solver.distances(position, KEPT)
        starts = frozenset(chooser.sample(TURNS, 3))
        working = KEPT.working_faces
        items = continuations(found, working, starts)
        assert [item.turn for item in items] == list(TURNS)
        optimal = {item.turn for item in items if item.verdict is Verdict.OPTIMAL}
        acceptable = {item.turn for item in items if item.verdict is Verdict.ACCEPTABLE}
        by_another_way = {turn for turn in found.direct if found.cost(turn) == 1 and turn.face in working}
        assert optimal == found.optimal
        assert acceptable == (starts | by_another_way) - optimal
        assert all(item.cost == item.after + 1 - found.distance in (0, 1, 2) and item.why for item in items)
