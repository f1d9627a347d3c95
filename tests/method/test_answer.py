"""The whole answer for a position."""

from __future__ import annotations

import json
import pickle
from collections import Counter
from itertools import pairwise
from random import Random

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.method.placements import placements, sampled, to_go
from tutor.cube.faces import TURNS, Turn
from tutor.cube.notation import parse_turns
from tutor.cube.position import SLOTS, SOLVED, Position, Slot
from tutor.method.answer import Answer, answer, answer_as_dict
from tutor.method.cases import CASES
from tutor.method.continuations import Verdict
from tutor.method.cutting import cut
from tutor.method.steps import Step
from tutor.method.ticks import in_the_midst
from tutor.solver.search import Solver
from tutor.solver.task import Task

TASK = Task(Slot.FR, frozenset(SLOTS) - {Slot.FR})


def test_a_pair_just_taken_out_goes_back_in_by_one_turn_only(solver: Solver) -> None:
    found = answer(solver, SOLVED.after(parse_turns("R U R'")), TASK)
    assert (found.distance, found.settled, found.step) == (3, True, Step.INSERT)
    assert found.turns(Verdict.OPTIMAL) == (Turn.R,)
    assert found.lines == (parse_turns("R U' R'"),)
    assert [route.turns for route in found.routes] == [parse_turns("R U' R'")]


def test_turns_that_begin_a_route_are_acceptable_or_better(solver: Solver) -> None:
    for case in CASES:
        found = answer(solver, case.position(), TASK)
        assert found.case == case
        for turn in found.route_set.starts():
            assert found.continuation(turn).verdict is not Verdict.DETOUR


def test_lines_are_ranked_by_comfort_and_as_short_as_can_be(solver: Solver) -> None:
    position = SOLVED.after(parse_turns("R U2 R' F' U' F"))
    found = answer(solver, position, TASK)
    assert all(len(line) == found.by_hand and TASK.done(position.after(line)) for line in found.lines)
    assert found.lines[0] == parse_turns("R U' R' F' U2 F")


def check_way(found: Answer) -> None:
    """What is shown ends at home, is cut into its steps, and turns a far layer only to take harm back."""
    way, task = found.way, found.task
    assert task.done(found.position.after(way.turns))
    assert all(one.face is not other.face for one, other in pairwise(way.turns))
    assert way.steps == cut(found.position, task, way.turns)
    if found.by_hand is not None:
        far = [made for made, turn in enumerate(way.turns) if turn.face not in task.working_faces]
        assert far in ([], [0])
        if far:
            then = found.position.turned(way.turns[0])
            assert not found.settled
            assert task.settled(then) or in_the_midst(then, task)
    if found.settled and found.routes:
        assert way == found.routes[0]


@pytest.mark.parametrize("free", range(4))
def test_who_follows_the_way_that_is_shown_comes_home_and_nowhere_twice(solver: Solver, free: int) -> None:
    draw = Random(free)
    for _ in range(12):
        slot = draw.choice(SLOTS)
        others = [each for each in SLOTS if each is not slot]
        task = Task(slot, frozenset(draw.sample(others, 3 - free)))
        position = draw.choice(CASES).position(slot, draw.randrange(4)).after(draw.choices(TURNS, k=2))
        seen: set[Position] = set()
        while not task.done(position):
            assert position not in seen
            seen.add(position)
            found = answer(solver, position, task)
            check_way(found)
            position = position.turned(found.way.turns[0])


def check_figures(solver: Solver, position: Position, task: Task) -> Answer:
    """The figures of an answer, the lines, and the one with far layers, which is told only where shorter."""
    found = answer(solver, position, task)
    assert found.distance == solver.distance(position, task)
    assert found.by_hand == solver.hand_distance(position, task)
    assert found.to_go == to_go(solver, position, task)
    assert found.lines
    for line in found.lines:
        assert len(line) == found.to_go
        assert task.done(position.after(line))
        assert found.by_hand is None or {turn.face for turn in line} <= task.working_faces
    if found.by_hand is not None and found.distance < found.by_hand:
        assert len(found.at_all_line) == found.distance
        assert task.done(position.after(found.at_all_line))
        assert not {turn.face for turn in found.at_all_line} <= task.working_faces
    else:
        assert found.at_all_line == ()
    check_way(found)
    return found


def test_the_sequence_with_far_layers_is_told_only_where_it_is_shorter(solver: Solver) -> None:
    """Check value: by hand 6 of the 149 placements need 3 turns and 10 need 4 (independent search)."""
    answers = [check_figures(solver, position, task) for position, task in placements(Slot.FR)]
    by_hand = Counter(found.by_hand for found in answers)
    assert (by_hand[3], by_hand[4]) == (6, 10)
    assert set(by_hand) == {3, 4, 6, 7, 8, 9}
    assert any(found.at_all_line for found in answers)


@pytest.mark.parametrize(("free", "number"), [(0, 36), (1, 9), (2, 6), (3, 6)])
def test_anywhere_the_figures_of_an_answer_are_the_solvers(free: int, number: int, solver: Solver) -> None:
    for position, task in sampled(41, number, free):
        check_figures(solver, position, task)


@pytest.mark.slow
@pytest.mark.parametrize("slot", SLOTS, ids=lambda slot: slot.name)
def test_at_every_placement_the_figures_of_an_answer_are_the_solvers(slot: Slot, solver: Solver) -> None:
    for position, task in placements(slot):
        assert check_figures(solver, position, task).by_hand is not None


def test_when_the_pair_is_home_a_turn_leaves_it_home_or_not(solver: Solver) -> None:
    found = answer(solver, SOLVED, TASK)
    assert (found.distance, found.step, found.case, found.routes) == (0, Step.DONE, None, ())
    assert found.turns(Verdict.OPTIMAL) == (Turn.U, Turn.U2, Turn.U_PRIME)
    assert found.turns(Verdict.ACCEPTABLE) == ()
    assert len(found.continuations) == 18


def test_in_plain_values_the_answer_is_json_with_the_agreed_keys(solver: Solver) -> None:
    position = SOLVED.after(parse_turns("F' U F U2 R U R'"))
    said = [f"It is {turn.notation}." for turn in TURNS]
    plain = answer_as_dict(answer(solver, position, TASK), "F' U F U2 R U R'", said)
    assert json.loads(json.dumps(plain)) == plain
    keys = ["setup", "slot", "keep", "settled", "distance", "by_hand", "to_go", "case", "step", "turns"]
    assert list(plain) == [*keys, "lines", "routes"]
    assert (plain["slot"], plain["keep"], plain["step"]) == ("FR", ["FL", "BL", "BR"], "part")
    turns, ways = plain["turns"], plain["routes"]
    assert isinstance(turns, list)
    assert [item["turn"] for item in turns] == [turn.notation for turn in TURNS]
    keys = ["turn", "after", "cost", "by_hand", "lost", "verdict", "why", "says"]
    assert all(list(item) == keys for item in turns)
    assert [item["says"] for item in turns] == said
    assert isinstance(ways, list)
    assert list(ways[0]["steps"]) == ["part", "join", "insert"]
    assert " ".join(ways[0]["steps"].values()) == ways[0]["notation"]
    assert ways[0]["length"] == len(ways[0]["notation"].split())


@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(turns=st.lists(st.sampled_from(TURNS), max_size=5), slot=st.sampled_from(SLOTS))
def test_an_answer_is_consistent_and_survives_a_trip_to_a_worker(
    solver: Solver, turns: list[Turn], slot: Slot
) -> None:
    position = SOLVED.after(turns)
    task = Task(slot, frozenset(SLOTS) - {slot})
    found = answer(solver, position, task)
    assert pickle.loads(pickle.dumps(found)) == found
    assert found.distance <= len(turns)
    assert found.settled == task.settled(position)
    assert (found.distance == 0) == (found.step is Step.DONE)
    if found.route_set.length is not None:
        assert found.distance <= found.route_set.length


@pytest.mark.parametrize("slot", SLOTS)
def test_the_same_case_has_the_same_answer_in_every_slot(solver: Solver, slot: Slot) -> None:
    task = Task(slot, frozenset(SLOTS) - {slot})
    for case in CASES[::8]:
        here, there = answer(solver, case.position(), TASK), answer(solver, case.position(slot), task)
        assert (there.case, there.distance, there.step) == (here.case, here.distance, here.step)
        assert there.route_set.length == here.route_set.length
