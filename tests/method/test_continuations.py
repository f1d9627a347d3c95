"""Verdicts by the rules of the method."""

from __future__ import annotations

import random

import pytest

from tests.method.placements import all_kept, placements, sampled
from tests.method.plain_routes import named, plain_routes
from tutor.cube.faces import TURNS, Face, Turn
from tutor.cube.position import SLOTS, SOLVED, Position, Slot
from tutor.method.answer import Answer, answer
from tutor.method.continuations import Continuation, Judging, Reason, Verdict
from tutor.method.routes import routes
from tutor.solver.search import HandDistances, Solver, TurnDistances
from tutor.solver.task import Task

KEPT = all_kept(Slot.FR)
NONE: frozenset[Turn] = frozenset()
REASONS = {
    Verdict.OPTIMAL: {Reason.BY_HAND, Reason.WITH_FAR_LAYERS, Reason.STAYS_HOME},
    Verdict.ACCEPTABLE: {Reason.ROUTE, Reason.ANOTHER_WAY},
    Verdict.DETOUR: {Reason.AGAIN, Reason.FAR_LAYER, Reason.LONGER, Reason.WAS_HOME},
}


def judged(solver: Solver, made: str, starts: frozenset[Turn] = NONE) -> dict[Turn, Continuation]:
    position = SOLVED.after(named(made))
    at_all, by_hand = solver.distances(position, KEPT), solver.hand_distances(position, KEPT)
    items = Judging(at_all, by_hand, KEPT.working_faces, starts).continuations()
    return {item.turn: item for item in items}


def test_the_only_optimal_turn_of_a_made_pair_begins_its_insertion(solver: Solver) -> None:
    items = judged(solver, "R U R'")
    assert [turn for turn, item in items.items() if item.verdict is Verdict.OPTIMAL] == [Turn.R]
    assert (items[Turn.R].after, items[Turn.R].by_hand, items[Turn.R].cost, items[Turn.R].lost) == (
        2,
        2,
        0,
        0,
    )


def test_a_half_turn_that_must_be_mended_is_a_detour_though_it_costs_one(solver: Solver) -> None:
    item = judged(solver, "R U R'")[Turn.R2]
    assert (item.cost, item.lost, item.verdict, item.reason) == (1, 1, Verdict.DETOUR, Reason.AGAIN)
    assert item.why == "you must turn the same layer again at once, 1 turn longer"


def test_another_way_that_is_one_turn_longer_is_acceptable(solver: Solver) -> None:
    item = judged(solver, "R U R'")[Turn.U]
    assert (item.lost, item.verdict, item.reason) == (1, Verdict.ACCEPTABLE, Reason.ANOTHER_WAY)


def test_a_turn_that_begins_a_route_is_acceptable_at_any_cost(solver: Solver) -> None:
    plain = judged(solver, "R U R'")[Turn.F]
    assert (plain.cost, plain.lost, plain.verdict) == (2, 2, Verdict.DETOUR)
    item = judged(solver, "R U R'", frozenset({Turn.F}))[Turn.F]
    assert (item.verdict, item.reason) == (Verdict.ACCEPTABLE, Reason.ROUTE)


def test_a_far_layer_is_a_detour_and_costs_itself_and_its_taking_back(solver: Solver) -> None:
    for turn, item in judged(solver, "R U R'", frozenset(TURNS)).items():
        if turn.face not in KEPT.working_faces:
            assert (item.verdict, item.reason) == (Verdict.DETOUR, Reason.FAR_LAYER)
            assert (item.by_hand, item.lost) == (None, 2)
            assert item.to_go == item.after


def test_a_turn_on_a_shortest_way_with_far_layers_is_optimal(solver: Solver) -> None:
    # The way back of "R U B U2 B' R'" goes on with B at its second turn, which by hand nobody would.
    position = SOLVED.after(named("R B U2 B' R' R"))
    found = answer(solver, position, KEPT)
    item = found.continuation(Turn.B)
    assert found.distance == 4
    assert (item.verdict, item.reason) == (Verdict.OPTIMAL, Reason.WITH_FAR_LAYERS)
    assert (item.cost, item.lost, item.why) == (0, 0, "it starts a shortest way that turns far layers too")


def test_with_the_task_done_a_turn_leaves_it_done_or_takes_it_apart(solver: Solver) -> None:
    for turn, item in judged(solver, "").items():
        stays = turn.face is Face.U
        assert item.verdict is (Verdict.OPTIMAL if stays else Verdict.DETOUR)
        assert item.reason is (Reason.STAYS_HOME if stays else Reason.WAS_HOME)


# ------------------------------------------------------------------------------------ the definition again


def by_definition(
    turn: Turn, task: Task, at_all: TurnDistances, by_hand: HandDistances, starts: frozenset[Turn]
) -> Verdict:
    """The definition, written once more."""
    here, after = by_hand.distance, by_hand.after[turn]
    working = Face.U, *(Face[letter] for slot in set(SLOTS) - task.keep for letter in slot.name)
    on_a_line = here is not None and after == here - 1 and turn.face in working
    if on_a_line or at_all.after[turn] == at_all.distance - 1:
        return Verdict.OPTIMAL
    if turn.face not in working:
        return Verdict.DETOUR
    one_longer = here is not None and after == here and turn in by_hand.direct
    return Verdict.ACCEPTABLE if turn in starts or one_longer else Verdict.DETOUR


def check_verdicts(solver: Solver, position: Position, task: Task) -> Answer:
    at_all, by_hand = solver.distances(position, task), solver.hand_distances(position, task)
    found = answer(solver, position, task)
    starts = found.route_set.starts(2)
    for turn, item in zip(TURNS, found.continuations, strict=True):
        assert item.turn is turn
        assert item.reason in REASONS[item.verdict]
        assert item.why
        assert (item.after, item.by_hand) == (at_all.after[turn], by_hand.after[turn])
        assert item.cost == item.after + 1 - at_all.distance in (0, 1, 2)
        if at_all.distance:
            assert item.verdict is by_definition(turn, task, at_all, by_hand, starts), (position, task, turn)
        if item.verdict is Verdict.ACCEPTABLE:
            assert turn.face in task.working_faces
        if item.verdict is not Verdict.OPTIMAL and by_hand.distance is not None and item.by_hand is not None:
            told = item.by_hand + 1 - by_hand.distance
            # A turn of a far layer costs no more than itself and its undoing.
            assert item.lost == (told if turn.face in task.working_faces else max(0, min(2, told)))
    return found


def check_along_routes(solver: Solver, position: Position, task: Task, seen: set[Position]) -> None:
    """Every turn of every shortest route is Optimal or Acceptable; each position is judged once."""
    for route in routes(position, task, limit=None).routes:
        after = position
        for turn in route.turns:
            if after not in seen:
                seen.add(after)
                found = check_verdicts(solver, after, task)
                shortest = found.route_set.starts(0)
                assert all(found.continuation(start).verdict is not Verdict.DETOUR for start in shortest)
            after = after.turned(turn)


def test_along_shortest_routes_verdicts_follow_the_definition(solver: Solver) -> None:
    seen: set[Position] = set()
    for position, task in placements(Slot.FR)[::12]:
        check_along_routes(solver, position, task, seen)
    assert len(seen) > 100


@pytest.mark.slow
@pytest.mark.parametrize("slot", SLOTS, ids=lambda slot: slot.name)
def test_along_every_shortest_route_verdicts_follow_the_definition(slot: Slot, solver: Solver) -> None:
    seen: set[Position] = set()
    for position, task in placements(slot):
        check_along_routes(solver, position, task, seen)


@pytest.mark.parametrize("slot", SLOTS, ids=lambda slot: slot.name)
def test_at_placements_verdicts_follow_the_definition(slot: Slot, solver: Solver) -> None:
    for position, task in placements(slot)[slot :: len(SLOTS)]:
        check_verdicts(solver, position, task)


@pytest.mark.slow
@pytest.mark.parametrize("slot", SLOTS, ids=lambda slot: slot.name)
def test_at_every_placement_verdicts_follow_the_definition(slot: Slot, solver: Solver) -> None:
    """No turn off the working faces is Acceptable, among the rest."""
    for position, task in placements(slot):
        check_verdicts(solver, position, task)


@pytest.mark.parametrize(("free", "number"), [(0, 36), (1, 12), (2, 6), (3, 6)])
def test_anywhere_verdicts_follow_the_definition(free: int, number: int, solver: Solver) -> None:
    for position, task in sampled(21, number, free):
        check_verdicts(solver, position, task)


def only_undone(solver: Solver, position: Position, task: Task, turn: Turn) -> bool:
    """Whether no way on from a turn leaves it alone: neither one by hand, which may not turn its face again
    at once, nor a route at most two longer, which may not even with its opposite face turned between."""
    here, after = solver.hand_distance(position, task), position.turned(turn)
    for line in solver.hand_lines(after, task, 2000):
        if here is not None and len(line) <= here and not (line and line[0].face is turn.face):
            return False
    _, every, _ = plain_routes(task).answer(position)
    shortest = min((length for length, _ in every.values()), default=0)
    length, found = every.get(turn, (99, frozenset()))
    return length > shortest + 2 or all(turned_again(turn, route[1:]) for route in found)


def turned_again(turn: Turn, following: tuple[Turn, ...]) -> bool:
    for later in following:
        if later.face is turn.face:
            return True
        if later.face is not turn.face.opposite:
            return False
    return False


def test_a_turn_that_only_has_to_be_undone_is_never_acceptable(solver: Solver) -> None:
    sample = [*sampled(31, 18), *random.Random(3).sample(placements(Slot.FR), 12), *sampled(32, 2, 1)]
    acceptable = 0
    for position, task in sample:
        for turn in answer(solver, position, task).turns(Verdict.ACCEPTABLE):
            acceptable += 1
            assert not only_undone(solver, position, task, turn), (position, task, turn)
    assert acceptable > 30


@pytest.mark.slow
def test_in_a_large_sample_no_turn_that_only_has_to_be_undone_is_acceptable(solver: Solver) -> None:
    for position, task in [*sampled(33, 300), *sampled(34, 40, 1)]:
        for turn in answer(solver, position, task).turns(Verdict.ACCEPTABLE):
            assert not only_undone(solver, position, task, turn), (position, task, turn)
