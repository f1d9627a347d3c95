"""Which pair first: costs, plan and proof on the card, and the pair taken on, in the real application."""

from __future__ import annotations

from dataclasses import replace

from tests.screens.solve.test_solving import (
    cross_made,
    down_of,
    faces,
    hands,
    scrambled,
    solve_of,
    written,
)
from tests.session.names import action_name
from tests.session.pilot import Pilot, Reading, stage_of
from tutor.coach.catalogue import ENGLISH
from tutor.counting import counted
from tutor.cube.notation import format_moves, parse_turns
from tutor.cube.position import SLOTS
from tutor.method.advice import PairsQuestion, PlanQuestion, Proof, ProofQuestion
from tutor.screens.solve.solving import SolveStand, stand
from tutor.screens.viewing import view_of
from tutor.session.commands import Advised
from tutor.solver.search import Solver
from tutor.solver.task import Task
from tutor.ui.view import Button, Mark


def test_every_figure_of_the_advice_is_the_solvers(pilot: Pilot, solver: Solver) -> None:
    scrambled(pilot)
    cross_made(pilot)
    position = down_of(pilot).position
    shown = {
        action_name(block.action): block.label
        for block in Reading(pilot.view).blocks
        if isinstance(block, Button) and action_name(block.action).startswith("slot:")
    }
    assert len(shown) == 4 - len(position.home_pairs)
    numbers = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven")
    for slot in SLOTS:
        if not position.pair_home(slot):
            cost = solver.hand_distance(position, Task.at(position, slot))
            assert cost is not None
            plural = "turn" if cost == 1 else "turns"
            assert shown[f"slot:{slot.name}"].endswith(f": {numbers[cost]} {plural}")


def test_a_plan_is_shown_and_called_found_unless_it_is_proven(pilot: Pilot) -> None:
    scrambled(pilot)
    cross_made(pilot)
    reading = pilot.session.advices.plan(PlanQuestion(down_of(pilot).position))
    assert reading is not None
    texts = " ".join(Reading(pilot.view).texts)
    proof = pilot.session.advices.proof(ProofQuestion(down_of(pilot).position))
    assert (ENGLISH.say("plan.found") in texts) == (proof is None)
    button = Reading(pilot.view).button("Show the plan")
    turns = parse_turns(action_name(button.action).removeprefix("turns:"))
    assert len(turns) == reading.plan.length
    pilot.press(button.action)
    pilot.wait(120.0)
    assert pilot.session.demonstration is not None
    end = pilot.session.demonstration.pose(pilot.now).cube
    assert end.position.cross_home
    assert len(end.position.home_pairs) == 4


def test_nothing_that_is_offered_for_pairs_turns_a_far_layer(pilot: Pilot) -> None:
    """From the cross to two layers: lines of pairs, the plan's pairs, shortcuts, hints and what is shown."""
    scrambled(pilot)
    cross_made(pilot)
    while stand(solve_of(pilot)) is not SolveStand.DONE:
        position = down_of(pilot).position
        reading = pilot.session.advices.pairs(PairsQuestion(position))
        plan = pilot.session.advices.plan(PlanQuestion(position))
        assert reading is not None
        assert plan is not None
        for line in [*(each.line for each in reading.costs), *(each.turns for each in reading.savings)]:
            assert faces(line) <= hands(position)
        reached = position
        for stage in plan.plan.stages:
            assert faces(stage.turns) <= hands(reached)
            reached = reached.after(stage.turns)
        pilot.give_keys("space", "h", "h", "h")
        pilot.wait(60.0)  # until the turns made have been seen
        arrow = stage_of(pilot).arrow
        assert arrow is not None
        pilot.key("a")
        assert pilot.session.demonstration is not None
        assert faces((arrow.turn, *pilot.session.demonstration.turns)) <= hands(position)
        pilot.key("escape")
        pilot.turn(format_moves(down_of(pilot).as_held(reading.costs[0].line)))


def test_a_proof_is_told_as_a_figure_and_shown_where_hands_can_do_it(pilot: Pilot) -> None:
    scrambled(pilot)
    cross_made(pilot)
    position = down_of(pilot).position
    plan = pilot.session.advices.plan(PlanQuestion(position))
    assert plan is not None
    fewer = plan.plan.length - 1
    told = ENGLISH.say("plan.fewest", fewest=counted(fewer, "turn"))
    # Only how a proof is told is asked here; whether it is true, in tests/method/test_advice.py.
    for line, shown in ((plan.plan.turns[:fewer], True), (None, False)):
        known = {**pilot.session.advices.known, ProofQuestion(position): Proof(fewer, line)}
        advices = replace(pilot.session.advices, known=known)
        view = view_of(replace(pilot.session, advices=advices), pilot.now)
        assert told in Reading(view).texts
        labels = [block.label for block in Reading(view).blocks if isinstance(block, Button)]
        assert ("Show the fewest turns" in labels) == shown


def test_a_chosen_pair_is_judged_and_hinted_like_in_free_play(pilot: Pilot) -> None:
    scrambled(pilot)
    cross_made(pilot)
    reading = pilot.session.advices.pairs(PairsQuestion(down_of(pilot).position))
    assert reading is not None
    pilot.key("space")
    pilot.settle()
    assert stand(solve_of(pilot)) is SolveStand.PAIR
    assert any(
        f"{counted(reading.costs[0].cost, 'turn')} to go at best" in text
        for text in Reading(pilot.view).texts
    )
    pilot.key("h")
    pilot.settle()
    assert "Hint 1 of 3. Press H for more" in Reading(pilot.view).texts
    pilot.key("a")
    assert pilot.session.demonstration is not None
    pilot.key("escape")
    line = down_of(pilot).as_held(reading.costs[0].line)
    for turn in line:
        pilot.turn(turn.notation)
        assert Reading(pilot.view).verdicts[0].mark is Mark.OPTIMAL
    assert stand(solve_of(pilot)) in (SolveStand.CHOOSING, SolveStand.DONE)


def test_taking_back_to_before_a_pair_was_chosen_lets_it_go(pilot: Pilot) -> None:
    scrambled(pilot)
    cross_made(pilot)
    pilot.key("space")
    pilot.turn("U")
    pilot.key("backspace")
    assert solve_of(pilot).attempt.aim is not None
    pilot.key("backspace")
    pilot.settle()
    assert solve_of(pilot).attempt.aim is None
    assert stand(solve_of(pilot)) is SolveStand.CROSS


def test_the_way_is_offered_at_first_and_again_once_it_was_shown(pilot: Pilot) -> None:
    scrambled(pilot)
    cross_made(pilot)
    pilot.key("space")
    pilot.settle()
    assert Reading(pilot.view).button("Show me the way").key == "A"
    pilot.press(Reading(pilot.view).button("Show me the way").action)
    pilot.key("escape")
    assert Reading(pilot.view).button("Show again").key == "A"
    pilot.turn("U")
    assert Reading(pilot.view).button("Show again")
    # Another pair has not been shown.
    pilot.key("bracket right")
    pilot.settle()
    assert Reading(pilot.view).button("Show me the way")


def test_a_pair_cannot_be_chosen_before_the_cross_and_that_is_said_with_how_far_it_is(pilot: Pilot) -> None:
    written(pilot, "F2")  # made with white on top: one edge of the cross is out of place
    pilot.key("bracket right")
    assert pilot.view.notice == (
        "You can choose a pair once the cross is solved. So far three of its four edges are in place."
    )


def test_stale_advice_is_dropped(pilot: Pilot) -> None:
    scrambled(pilot)
    cross_made(pilot)
    known = len(pilot.session.advices.known)
    pilot.application.give(Advised(1, "something from before"))
    assert len(pilot.session.advices.known) == known
