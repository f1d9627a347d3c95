"""What rail, card and arrow say of turns: one thing at a time, and true of the cube on the screen."""

from __future__ import annotations

from tests.session.held import held
from tests.session.pilot import Pilot, Reading, rail_of, stage_of
from tutor.cube.notation import format_moves
from tutor.method.cases import CASES, Case
from tutor.method.steps import DONE_WHEN, TURNING_STEPS, Step
from tutor.screens.free_play.state import FREE
from tutor.session.demonstration import Demonstration
from tutor.solver.search import Solver
from tutor.ui.view import Arrow, BayState, Rail

ONE_LIFT = next(case for case in CASES if case.slug == "corner-right-edge-back-front-up")
THREE_STEPS = next(case for case in CASES if case.slug == "corner-up-edge-front-right-up")


def begin(pilot: Pilot, case: Case = THREE_STEPS) -> Demonstration:
    """The case's route shown, stopped before its first turn."""
    pilot.free_play(format_moves(case.setup()))
    pilot.key("a")
    pilot.key("space")
    demonstration = pilot.session.demonstration
    assert demonstration is not None
    return demonstration


def beat_on(pilot: Pilot) -> None:
    """One beat on, and time for it."""
    pilot.key("right")
    pilot.wait(10.0)


def turn_on(pilot: Pilot) -> None:
    """From a turn that is coming to the next one: it is made, then what it changed is told."""
    beat_on(pilot)
    beat_on(pilot)


def done_bays(rail: Rail) -> set[str]:
    return {bay.title for bay in rail.bays if bay.state is BayState.DONE}


def test_the_coming_turn_has_its_arrow_while_stopped_and_none_while_moving(pilot: Pilot) -> None:
    demonstration = begin(pilot)
    assert stage_of(pilot).arrow == Arrow(demonstration.turns[0])
    turn_on(pilot)
    assert stage_of(pilot).arrow == Arrow(demonstration.turns[1])
    pilot.key("space")
    pilot.wait(0.2)
    assert stage_of(pilot).turning is not None
    assert stage_of(pilot).arrow is None


def test_before_it_plays_the_first_turn_has_its_arrow(pilot: Pilot) -> None:
    pilot.free_play(format_moves(THREE_STEPS.setup()))
    pilot.key("a")
    demonstration = pilot.session.demonstration
    assert demonstration is not None
    assert stage_of(pilot).arrow == Arrow(demonstration.turns[0])


def test_at_the_end_nothing_comes_any_more(pilot: Pilot) -> None:
    begin(pilot)
    pilot.key("space")
    pilot.wait(300.0)
    assert stage_of(pilot).arrow is None


def test_no_step_of_what_is_shown_is_ticked_before_it_is_done(pilot: Pilot) -> None:
    demonstration = begin(pilot)
    for made in range(len(demonstration.turns) + 1):
        rail = rail_of(pilot)
        bearing = FREE.of(pilot.session).aim
        assert bearing is not None
        now = bearing.bearing(demonstration.start.after(demonstration.turns[:made]))
        ticks = done_bays(rail) - {"Find"}
        for step in TURNING_STEPS:
            # Once it is done a step stays so while the slot is lifted; nothing else ticks it.
            if now.task.settled(now.position) and not now.task.done(now.position):
                assert (step.value.capitalize() in ticks) is DONE_WHEN[step](now.position, now.task)
        turn_on(pilot)
    assert done_bays(rail_of(pilot)) == {"Find", "Raise", "Part", "Join", "Insert"}


def test_a_lifted_slot_is_said_and_neither_ticks_nor_unticks(pilot: Pilot) -> None:
    pilot.free_play(format_moves(ONE_LIFT.setup()))
    before = done_bays(rail_of(pilot))
    assert before == {"Find", "Raise", "Part"}
    assert rail_of(pilot).unsettled == ""
    pilot.turn("F'")
    assert rail_of(pilot).unsettled == "The front-right slot is lifted."
    assert done_bays(rail_of(pilot)) == before
    pilot.key("backspace")
    assert rail_of(pilot).unsettled == ""


def test_pieces_lifted_out_of_their_slot_are_not_ticked_as_raised(pilot: Pilot) -> None:
    case = next(each for each in CASES if each.slug == "corner-in-down-edge-in-turned")
    pilot.free_play(format_moves(case.setup()))
    assert done_bays(rail_of(pilot)) == {"Find"}
    pilot.turn("R")
    assert done_bays(rail_of(pilot)) == {"Find"}


def test_after_turns_that_break_the_cross_nothing_is_ticked_but_find(pilot: Pilot) -> None:
    pilot.free_play(format_moves(ONE_LIFT.setup()))
    pilot.turn("L B")
    assert done_bays(rail_of(pilot)) == {"Find"}
    assert rail_of(pilot).unsettled == "The cross is not solved now."
    pilot.give_keys("backspace", "backspace")
    pilot.turn("L U L'")
    assert done_bays(rail_of(pilot)) == {"Find"}
    assert rail_of(pilot).unsettled == "A pair that was solved is out of its slot."


def test_without_a_task_there_is_no_rail(pilot: Pilot) -> None:
    pilot.press("open:FREE_PLAY")
    assert pilot.view.rail is None
    pilot.turn("R D")
    assert pilot.view.rail is None


def test_a_slip_shown_again_is_labelled_by_the_steps_of_the_turns_that_mend_it(pilot: Pilot) -> None:
    pilot.free_play("R U R'")
    pilot.turn("U L")
    pilot.key("a")
    shown = pilot.session.demonstration
    assert shown is not None
    assert all(isinstance(step, Step) for step in shown.steps)


def test_the_turns_of_a_route_lie_in_the_bays_of_its_steps(solver: Solver) -> None:
    """A step is kept while its route is followed, also where both pieces are on top before it is done."""
    for case in CASES[::2]:
        pilot = Pilot(solver)
        pilot.free_play(format_moves(case.setup()))
        attempt = held(pilot.session.attempt)
        route = held(pilot.session.answers.at(attempt.bearing())).routes[0]
        pilot.turn(format_moves(route.turns[:-1]))
        bays = [tile.bay for tile in rail_of(pilot).own[1 - len(route.turns) :]]
        assert bays == [list(Step).index(step) for step in route.steps[:-1]], case.name


def current_bays(rail: Rail) -> list[str]:
    return [bay.title for bay in rail.bays if bay.state is BayState.CURRENT]


def test_after_a_detour_no_step_is_under_way_before_the_steps_ahead_of_it_are_done(pilot: Pilot) -> None:
    """R2 carries a cross edge and a solved pair away (WCA 12a1): the way home puts them back first."""
    case = next(each for each in CASES if each.slug == "corner-right-edge-front-right-up")
    pilot.free_play(format_moves(case.setup()))
    assert current_bays(rail_of(pilot)) == ["Insert"]
    assert "Insert · four turns to go at best" in Reading(pilot.view).texts
    pilot.turn("R2")
    assert current_bays(rail_of(pilot)) == []
    assert done_bays(rail_of(pilot)) == {"Find"}
    assert rail_of(pilot).unsettled == "The cross is not solved now."
    assert "Five turns to go at best" in Reading(pilot.view).texts
    pilot.key("backspace")
    assert current_bays(rail_of(pilot)) == ["Insert"]


def test_after_the_wrong_layer_lifts_the_slot_no_step_is_named_that_is_ticked(pilot: Pilot) -> None:
    case = next(each for each in CASES if each.slug == "corner-up-edge-left-right-up")
    pilot.free_play(format_moves(case.setup()))
    assert current_bays(rail_of(pilot)) == ["Join"]
    pilot.turn("R")
    assert done_bays(rail_of(pilot)) == {"Find", "Raise", "Part"}
    assert current_bays(rail_of(pilot)) == []
    reading = Reading(pilot.view)
    assert "Eight turns to go at best" in reading.texts
    assert reading.button("Go on from here").detail == "Eight turns to go"


def test_what_was_undone_of_a_detour_stands_off_the_rail_beside_it(pilot: Pilot) -> None:
    case = next(each for each in CASES if each.slug == "corner-right-edge-front-right-up")
    pilot.free_play(format_moves(case.setup()))
    pilot.turn("R2 L")
    pilot.key("backspace")
    assert [(tile.label, tile.off_rail) for tile in rail_of(pilot).own[-2:]] == [("R2", True), ("L", True)]
