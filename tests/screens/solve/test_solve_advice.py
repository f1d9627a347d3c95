"""Which pair first: costs, plan and proof on the card, and the pair taken on, in the real application."""

from __future__ import annotations

import re
from collections.abc import Iterable

from msgspec.structs import replace

from tests.screens.solve.test_solving import (
    best_now,
    cross_made,
    down_of,
    faces,
    hands,
    scrambled,
    solve_of,
    written,
)
from tests.session.held import held
from tests.session.names import action_name
from tests.session.pilot import Pilot, Reading, all_blocks, rail_of, stage_of
from tutor.coach.catalogue import ENGLISH
from tutor.counting import counted
from tutor.cube.faces import Face, Turn
from tutor.cube.geometry import CORNER_CUBIES, CORNER_FACES, EDGE_CUBIES, EDGE_FACES
from tutor.cube.notation import format_moves, parse_turns
from tutor.cube.position import SLOTS, Position, Slot
from tutor.method.advice import PairsQuestion, PlanQuestion, Proof, ProofQuestion
from tutor.method.continuations import Verdict
from tutor.screens.solve.solving import SolveStand, stand
from tutor.screens.viewing import view_of
from tutor.session.commands import Advised
from tutor.session.target import aim_at
from tutor.solver.search import Solver
from tutor.solver.task import Task
from tutor.ui.view import Block, Button, Mark, Text, VerdictNote


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
    pilot.key("e")
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
        if stand(solve_of(pilot)) is SolveStand.CHOOSING:
            line = offered_before_a_choice(pilot, position)
            pilot.key("space")
        else:
            bearing = held(solve_of(pilot).attempt.bearing())
            line = held(pilot.session.answers.at(bearing)).lines[0]
            assert faces(line) <= hands(position)
        pilot.give_keys("h", "h", "h")
        pilot.wait(60.0)  # until the turns made have been seen
        arrow = stage_of(pilot).arrow
        assert arrow is not None
        pilot.key("a")
        assert pilot.session.demonstration is not None
        assert faces((arrow.turn, *pilot.session.demonstration.turns)) <= hands(position)
        pilot.key("escape")
        pilot.turn(format_moves(down_of(pilot).as_held(line)))


def offered_before_a_choice(pilot: Pilot, position: Position) -> tuple[Turn, ...]:
    """The line of the cheapest pair, once all lines of the advice have been looked through."""
    reading = held(pilot.session.advices.pairs(PairsQuestion(position)))
    plan = held(pilot.session.advices.plan(PlanQuestion(position)))
    for line in [*(each.line for each in reading.costs), *(each.turns for each in reading.savings)]:
        assert faces(line) <= hands(position)
    reached = position
    for stage in plan.plan.stages:
        assert faces(stage.turns) <= hands(reached)
        reached = reached.after(stage.turns)
    return reading.costs[0].line


def words_of(blocks: Iterable[Block]) -> int:
    """Words on a card: what is said and what stands on its buttons."""
    said = []
    for block in all_blocks(tuple(blocks)):
        match block:
            case Text(text):
                said.append(text)
            case VerdictNote(_, title, text) | Button(label=title, detail=text):
                said += [title, text]
    return len(" ".join(said).split())


def test_the_advice_is_sixty_words_at_most_with_one_reason_for_each_pair(solver: Solver) -> None:
    for seed in range(100, 106):
        pilot = Pilot(solver, seed=seed)
        scrambled(pilot)
        cross_made(pilot)
        while stand(solve_of(pilot)) is SolveStand.CHOOSING:
            position = down_of(pilot).position
            assert words_of(pilot.view.card) <= 60
            shown = [b for b in Reading(pilot.view).buttons if action_name(b.action).startswith("slot:")]
            # The shortest first, each with a key of its own; the first is what Enter does.
            costs = [
                held(solver.hand_distance(position, Task.at(position, Slot[action_name(b.action)[5:]])))
                for b in shown
            ]
            assert costs == sorted(costs)
            assert [b.key for b in shown] == ["1", "2", "3", "4"][: len(shown)]
            assert [b.primary for b in shown] == [True, *[False] * (len(shown) - 1)]
            for button in shown:
                check_reason(position, Slot[action_name(button.action)[5:]], button.detail)
            pilot.turn(format_moves(best_now(pilot)))


def check_reason(position: Position, slot: Slot, said: str) -> None:
    """The reason, read off where the two pieces are."""
    corner, edge = position.corners[slot.corner] // 3, position.edges[slot.edge] // 2
    low_corner = next((each.name for each in SLOTS if each.corner == corner), "")
    low_edge = next((each.name for each in SLOTS if each.edge == edge), "")
    names = {"FR": "front-right", "FL": "front-left", "BL": "back-left", "BR": "back-right"}
    places = {low_corner, low_edge}
    match = re.fullmatch(r"(Both|The corner|The edge) (?:are|is) in the (\S+) slot\.", said)
    if match is not None:
        expected = {"Both": places, "The corner": {low_corner}, "The edge": {low_edge}}[match[1]]
        assert {names[place] for place in expected} == {match[2]}
        assert places - {""} == expected
    elif said == "Both are in their slot, but wrong.":
        assert (low_corner, low_edge) == (slot.name, slot.name)
    elif said in ("The corner is in its slot.", "The edge is in its slot."):
        assert (low_corner, low_edge) == ((slot.name, "") if "corner" in said else ("", slot.name))
    elif said == "The two are in different slots.":
        assert len(places - {""}) == 2
    else:
        assert places == {""}
        touching = set(EDGE_FACES[edge]) <= set(CORNER_FACES[corner])
        assert touching == (said in ("The two are joined already.", "The two touch without matching."))
        assert touching or said == "Both are on top and apart."


def test_the_last_pair_is_in_hand_without_a_choice(pilot: Pilot) -> None:
    scrambled(pilot)
    cross_made(pilot)
    while stand(solve_of(pilot)) is SolveStand.CHOOSING:
        pilot.turn(format_moves(best_now(pilot)))
    assert len(down_of(pilot).position.home_pairs) == 3
    assert stand(solve_of(pilot)) is SolveStand.PAIR
    named = {button.label for button in Reading(pilot.view).buttons}
    assert not named & {"Compare pairs", "Show the plan", "Tell me more"}
    assert "The last pair" in Reading(pilot.view).texts
    # What solved the pair before keeps its verdict.
    assert Reading(pilot.view).verdicts[0].mark is Mark.OPTIMAL


def test_the_cheapest_pair_is_marked_on_the_cube_and_digits_choose(pilot: Pilot) -> None:
    scrambled(pilot)
    cross_made(pilot)
    down = down_of(pilot)
    costs = held(pilot.session.advices.pairs(PairsQuestion(down.position))).costs
    pilot.wait(60.0)
    slot = costs[0].slot
    assert stage_of(pilot).framed == {CORNER_CUBIES[slot.corner], EDGE_CUBIES[slot.edge]}
    assert not stage_of(pilot).filled
    assert not stage_of(pilot).dimmed
    corner, edge = down.position.corners[slot.corner] // 3, down.position.edges[slot.edge] // 2
    assert stage_of(pilot).outlined == {CORNER_CUBIES[corner], EDGE_CUBIES[edge]}
    pilot.key("2")
    aim = held(solve_of(pilot).attempt.aim)
    assert aim == aim_at(down.cube, solve_of(pilot).cross, costs[1].slot)


def test_turns_judged_for_one_pair_keep_their_verdict_when_another_is_chosen(pilot: Pilot) -> None:
    scrambled(pilot)
    cross_made(pilot)
    first = len(solve_of(pilot).attempt.history.entries)
    costs = held(pilot.session.advices.pairs(PairsQuestion(down_of(pilot).position))).costs
    pilot.press(f"slot:{costs[0].slot.name}")
    pilot.settle()
    bearing = held(solve_of(pilot).attempt.bearing())
    answer = held(pilot.session.answers.at(bearing))
    # One turn of a shortest line, then one of another layer that is a Detour.
    right = answer.lines[0][0]
    pilot.turn(bearing.turn_as_held(right).notation)
    after = held(pilot.session.answers.at(held(solve_of(pilot).attempt.bearing())))
    layers = [[Turn.of(face, quarters) for quarters in (1, 2, 3)] for face in Face if face is not right.face]
    detours = set(after.turns(Verdict.DETOUR))
    wrong = next(layer[0] for layer in layers if set(layer) <= detours)
    pilot.turn(bearing.turn_as_held(wrong).notation)
    marks = [tile.mark for tile in rail_of(pilot).own[first:]]
    assert marks == [Mark.OPTIMAL, Mark.DETOUR]
    off = [tile.off_rail for tile in rail_of(pilot).own]
    pilot.key("bracket right")
    pilot.settle()
    if solve_of(pilot).attempt.aim is not None and stand(solve_of(pilot)) is SolveStand.PAIR:
        assert [tile.mark for tile in rail_of(pilot).own[first:]] == marks
        assert [tile.off_rail for tile in rail_of(pilot).own] == off


def test_a_proof_is_told_as_a_figure_and_shown_where_hands_can_do_it(pilot: Pilot) -> None:
    scrambled(pilot)
    cross_made(pilot)
    position = down_of(pilot).position
    plan = pilot.session.advices.plan(PlanQuestion(position))
    assert plan is not None
    fewer = plan.plan.length - 1
    pilot.key("e")
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


def test_the_pair_whose_button_has_the_focus_is_marked_on_the_cube(pilot: Pilot) -> None:
    scrambled(pilot)
    cross_made(pilot)
    framed = []
    for _ in range(3):
        framed.append(stage_of(pilot).framed)
        pilot.key("tab")
    # Without a focus the cheapest is marked; it is the first that Tab comes to.
    assert framed[0] == framed[1] != framed[2]
    assert stage_of(pilot).dimmed == frozenset()
