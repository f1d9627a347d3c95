"""Sequences cut into steps: routes into their own, lines and a learner's turns by what the position says."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from tests.method.placements import all_kept, first_step_not_done, placements, sampled, sequences, tasks
from tests.method.plain_routes import named, plain_routes
from tutor.cube.faces import TURNS, Face, Turn, inverse
from tutor.cube.position import SLOTS, SOLVED, Position, Slot
from tutor.method.cutting import cut, step_under_way
from tutor.method.routes import routes
from tutor.method.steps import DONE_WHEN, TURNING_STEPS, Step
from tutor.solver.search import Solver
from tutor.solver.task import Task

KEPT = all_kept(Slot.FR)
SETTLING = (Step.RAISE, Step.PART)
EVERY_STEP = (*TURNING_STEPS, Step.DONE)


def passed_by(position: Position, turns: tuple[Turn, ...]) -> list[Position]:
    passed = [position]
    for turn in turns:
        passed.append(passed[-1].turned(turn))
    return passed


def ended(step: Step, position: Position, following: Turn, task: Task) -> bool:
    """Whether a step has ended before a turn, or half way through it where the turn is two that merged."""
    if DONE_WHEN[step](position, task):
        return True
    if step not in SETTLING or following.quarters != 2 or following.face is Face.U:
        return False
    quarters = (Turn.of(following.face, 1), Turn.of(following.face, 3))
    return any(DONE_WHEN[step](position.turned(quarter), task) for quarter in quarters)


def check_cut(position: Position, task: Task, turns: tuple[Turn, ...]) -> tuple[Step, ...]:
    """One label a turn, in the order of the steps; none moves on from a step that has not ended.

    Where a turn ends several steps together, the label goes on with what follows the last of them.
    """
    labels = cut(position, task, turns)
    assert len(labels) == len(turns)
    assert list(labels) == sorted(labels, key=EVERY_STEP.index)
    passed = passed_by(position, turns)
    for made, (before, after) in enumerate(pairwise(labels), start=1):
        if after is Step.DONE:
            assert before is Step.DONE or task.done(passed[made])
        elif after is not before:
            last = TURNING_STEPS[TURNING_STEPS.index(after) - 1]
            assert ended(last, passed[made], turns[made], task), (position, task, turns, labels)
    if labels and task.done(passed[-1]):
        home_for_good = next(
            made for made in range(len(turns) + 1) if all(task.done(at) for at in passed[made:])
        )
        # Where nothing was to be done at the start no step is made, though the pair goes out and comes back.
        steps_made = 0 if task.done(position) else home_for_good
        assert labels.count(Step.DONE) == len(turns) - steps_made
    return labels


@pytest.mark.parametrize("slot", SLOTS, ids=lambda slot: slot.name)
def test_every_route_shown_is_cut_into_its_own_steps(slot: Slot) -> None:
    for position, task in placements(slot):
        (route,) = routes(position, task, limit=1).routes
        assert check_cut(position, task, route.turns) == route.steps


@pytest.mark.slow
@pytest.mark.parametrize("slot", SLOTS, ids=lambda slot: slot.name)
def test_every_shortest_route_is_cut_into_its_own_steps(slot: Slot) -> None:
    for position, task in placements(slot):
        for route in routes(position, task, limit=None).routes:
            assert check_cut(position, task, route.turns) == route.steps


@pytest.mark.parametrize("free", [0, 1, 2, 3])
def test_routes_with_free_slots_and_from_unsettled_positions_are_cut_into_their_own_steps(free: int) -> None:
    for position, task in sampled(8, 12 if free > 1 else 24, free):
        for route in routes(position, task, limit=4).routes:
            assert cut(position, task, route.turns) == route.steps, (position, task, route)


def test_lines_by_hand_are_cut_by_what_the_position_says(solver: Solver) -> None:
    together = 0
    for position, task in placements(Slot.FR):
        for line in solver.hand_lines(position, task, 6):
            labels = check_cut(position, task, line)
            assert labels[0] is first_step_not_done(position, task)
            together += len(set(labels)) < len({*routes(position, task, 1).routes[0].steps})
    # Some lines do in one step what the route does in several.
    assert together


@settings(max_examples=80)
@given(sequences, st.lists(st.sampled_from(TURNS), max_size=12).map(tuple), tasks)
@example([], (Turn.D, Turn.D_PRIME), Task(Slot.FR, frozenset()))
def test_whatever_is_turned_is_cut_in_the_order_of_the_steps(
    before: list[Turn], turns: tuple[Turn, ...], task: Task
) -> None:
    position = SOLVED.after(before)
    labels = check_cut(position, task, turns)
    if labels and labels[0] is not Step.DONE:
        assert labels[0] is step_under_way(position, task)


@settings(max_examples=60)
@given(st.integers(0, 148), st.sampled_from(SLOTS), st.lists(st.sampled_from(TURNS), max_size=3).map(tuple))
def test_turns_made_once_the_pair_is_home_for_good_belong_to_no_step(
    number: int, slot: Slot, tops: tuple[Turn, ...]
) -> None:
    position, task = placements(slot)[number]
    route = routes(position, task, limit=1).routes[0]
    away = tuple(Turn.of(Face.U, turn.quarters) for turn in tops)
    assert cut(position, task, route.turns + away) == route.steps + (Step.DONE,) * len(away)


def test_a_wrong_turn_taken_back_leaves_the_cut_of_the_rest_as_it_was() -> None:
    for position, task in placements(Slot.FR)[::6]:
        route = routes(position, task, limit=1).routes[0]
        labels = cut(position, task, (Turn.B, Turn.B_PRIME, *route.turns))
        assert labels[2:] == route.steps
        assert set(labels[:2]) == {route.steps[0]}


def test_nothing_turned_has_no_steps_and_turns_of_a_solved_task_belong_to_none() -> None:
    assert cut(SOLVED, KEPT, ()) == ()
    assert cut(SOLVED.after(named("R U R'")), KEPT, ()) == ()
    assert cut(SOLVED, KEPT, named("U U2")) == (Step.DONE, Step.DONE)


@pytest.mark.parametrize(
    ("turns", "letters"),
    [
        # Worked out by hand on a real cube, from memory: r, p, j, i for the step of each turn.
        ("R U R'", "jii"),
        ("R U' R'", "iii"),
        ("U' R U R'", "jjii"),
        ("F' U F U2 R U R'", "pppjjii"),
        ("R U R2 F R F'", "jjjjjj"),
    ],
)
def test_known_ways_are_cut_as_one_sees_them(turns: str, letters: str) -> None:
    way = named(turns)
    position = SOLVED.after(inverse(way))
    assert "".join(step.value[0] for step in cut(position, KEPT, way)) == letters


@pytest.mark.parametrize("free", [0, 1])
def test_the_step_under_way_is_that_of_the_plain_search(free: int) -> None:
    for position, task in sampled(9, 24 if not free else 6, free):
        assert step_under_way(position, task) is plain_routes(task).answer(position)[0]
