"""What a rail may tick: a statement about the position that is shown, whatever led there."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tutor.cube.faces import TURNS, Turn
from tutor.cube.notation import parse_turns
from tutor.cube.position import SLOTS, SOLVED, Position, Slot
from tutor.method.cases import CASES, Case
from tutor.method.pairs import both_on_top
from tutor.method.routes import routes
from tutor.method.steps import DONE_WHEN, TURNING_STEPS, Step
from tutor.method.ticks import in_the_midst, lifted_slot, ticked
from tutor.solver.task import Task

KEPT = Task(Slot.FR, frozenset(SLOTS) - {Slot.FR})


def passed(start: Position, turns: tuple[Turn, ...]) -> list[Position]:
    positions = [start]
    for turn in turns:
        positions.append(positions[-1].turned(turn))
    return positions


@settings(max_examples=300, deadline=None)
@given(st.sampled_from(CASES), st.lists(st.sampled_from(TURNS), max_size=6), st.sampled_from(SLOTS))
def test_no_step_is_ticked_whose_condition_fails_but_for_a_lifted_slot(
    case: Case, turns: list[Turn], slot: Slot
) -> None:
    task = Task(slot, frozenset(SLOTS) - {slot})
    positions = passed(case.position(slot), tuple(turns))
    now, done = positions[-1], ticked(positions, task)
    if task.done(now):
        assert done == {*TURNING_STEPS}
    elif task.settled(now):
        assert done == {step for step in TURNING_STEPS if DONE_WHEN[step](now, task)}
    elif not in_the_midst(now, task):
        assert done == frozenset()
    else:
        begun = next(at for at in reversed(positions) if task.settled(at))
        before = {step for step in TURNING_STEPS if DONE_WHEN[step](begun, task)}
        on_route = any(
            at.after(route.turns[:made]) == now
            for at in positions
            if task.settled(at)
            for route in routes(at, task, None).routes
            for made in range(1, len(route.turns))
        )
        assert Step.RAISE not in done or both_on_top(now, slot) or on_route
        assert Step.JOIN not in done or DONE_WHEN[Step.JOIN](now, task)
        assert done - {Step.JOIN} in (before - {Step.JOIN}, frozenset())


@settings(max_examples=100, deadline=None)
@given(st.sampled_from(CASES), st.integers(0, 3))
def test_the_end_of_a_route_ticks_every_step_and_each_step_ends_ticked(case: Case, alignment: int) -> None:
    route = case.route(alignment=alignment)
    positions = passed(case.position(alignment=alignment), route.turns)
    assert ticked(positions, KEPT) == {*TURNING_STEPS}
    made = 0
    for step, turns in route.segments:
        made += len(turns)
        if step is not Step.INSERT:
            assert step in ticked(positions[: made + 1], KEPT)


@pytest.mark.parametrize("alignment", range(4))
@pytest.mark.parametrize("case", CASES, ids=lambda case: case.slug)
def test_on_the_route_shown_no_step_done_is_lost(case: Case, alignment: int) -> None:
    route = case.route(alignment=alignment)
    positions = passed(case.position(alignment=alignment), route.turns)
    done = [ticked(positions[: made + 1], KEPT) for made in range(len(positions))]
    assert all(before <= after for before, after in pairwise(done))


def test_pieces_in_the_slots_are_not_raised_by_lifting_them() -> None:
    # Corner and edge lie in their slot, turned over: R carries both up, and down again.
    case = next(each for each in CASES if each.slug == "corner-in-down-edge-in-turned")
    lifted = passed(case.position(), parse_turns("R"))
    assert both_on_top(lifted[-1], Slot.FR)
    assert ticked(lifted, KEPT) == frozenset()
    assert lifted_slot(lifted[-1], KEPT) is Slot.FR


def test_a_lifted_slot_does_not_untick_what_was_done() -> None:
    case = next(each for each in CASES if each.slug == "corner-right-edge-back-front-up")
    start = case.position()
    before = ticked([start], KEPT)
    assert before == {Step.RAISE, Step.PART}
    assert ticked(passed(start, parse_turns("F'")), KEPT) == before
    assert ticked(passed(start, parse_turns("R")), KEPT) == before | {Step.JOIN}


def test_in_disorder_nothing_is_ticked_and_no_slot_is_lifted() -> None:
    positions = passed(SOLVED, parse_turns("R U R' B L"))
    assert ticked(positions, KEPT) == frozenset()
    assert lifted_slot(positions[-1], KEPT) is None


def test_a_free_slot_may_be_the_one_that_is_lifted() -> None:
    task = Task(Slot.FR, frozenset({Slot.FL, Slot.BL}))
    assert lifted_slot(SOLVED.after(parse_turns("R U R' B")), task) is Slot.BR
    assert lifted_slot(SOLVED.after(parse_turns("R U R' B")), KEPT) is None


def test_started_with_a_slot_lifted_a_step_is_done_that_lacks_nothing_else() -> None:
    # R U: the pair is joined on top of its lifted slot.
    assert ticked([SOLVED.after(parse_turns("R U"))], KEPT) == {Step.RAISE, Step.PART, Step.JOIN}


def test_a_lift_off_the_route_that_takes_the_pair_down_unticks_all() -> None:
    # The joined pair is on top at the front: F' takes both pieces down into the front-left slot's place.
    positions = passed(SOLVED.after(parse_turns("R U R'")), parse_turns("F'"))
    assert not both_on_top(positions[-1], Slot.FR)
    assert ticked(positions[:1], KEPT) == {Step.RAISE, Step.PART, Step.JOIN}
    assert ticked(positions, KEPT) == frozenset()
