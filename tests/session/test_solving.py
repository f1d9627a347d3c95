"""Whole solves through the real application: beginning, cross, which pair first, and the end."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from random import Random
from statistics import mean, stdev

import pytest

from tests.session.pilot import Pilot, Reading, rail_of, stage_of
from tutor.coach.catalogue import ENGLISH
from tutor.cube.faces import Face, Turn
from tutor.cube.notation import format_moves, parse_moves, parse_turns
from tutor.cube.position import SLOTS, Position
from tutor.cube.random_position import random_position
from tutor.cube.sticker_text import format_stickers, parse_stickers
from tutor.method.advice import CrossQuestion, CrossReading, PairsQuestion, PlanQuestion, Proof, ProofQuestion
from tutor.method.continuations import Verdict
from tutor.session.commands import Drawn, Make
from tutor.session.inputs import Modifier
from tutor.session.solve.commands import Advised
from tutor.session.solve.solving import CrossDown, Stand, cross_down, stand
from tutor.session.solve.text import position_text, read_start
from tutor.session.state import SolvePlay
from tutor.session.view import Button, Entry, Mark, Screen
from tutor.session.views.viewing import view_of
from tutor.solver.cross import CrossSolver
from tutor.solver.search import Solver
from tutor.solver.task import Task


def solve_of(pilot: Pilot) -> SolvePlay:
    assert pilot.session.solve is not None
    return pilot.session.solve


def down_of(pilot: Pilot) -> CrossDown:
    return cross_down(solve_of(pilot))


def scrambled(pilot: Pilot) -> None:
    pilot.press("open:SOLVE")
    pilot.press("act:SCRAMBLE")
    pilot.settle()


def cross_made(pilot: Pilot) -> None:
    """Make the cross by the shortest line that the program offers."""
    question = CrossQuestion(down_of(pilot).position)
    reading = pilot.session.advices.cross(question)
    assert reading is not None
    pilot.turn(format_moves(down_of(pilot).as_held(reading.lines[0])))


def written(pilot: Pilot, text: str) -> None:
    pilot.press("open:SOLVE")
    pilot.press("act:WRITE")
    pilot.write(text)
    pilot.key("enter")
    pilot.settle()


# ------------------------------------------------------------------------------------------ beginning


def test_home_leads_to_whole_solves(pilot: Pilot) -> None:
    pilot.press(Reading(pilot.view).button("Whole solves").action)
    assert pilot.view.screen is Screen.SOLVE
    assert Reading(pilot.view).button("New scramble").primary


def test_a_scramble_is_held_with_the_cross_face_down_and_green_still_in_front(pilot: Pilot) -> None:
    scrambled(pilot)
    cube = solve_of(pilot).attempt.cube
    assert cube.face_of(Face.D) is Face.D
    # White on top and green in front (WCA 4d1), then turned over with green kept in front.
    assert cube.face_of(Face.F) is Face.F


def test_a_typed_scramble_is_made_with_white_on_top_and_green_in_front(pilot: Pilot) -> None:
    written(pilot, "F2")
    stickers = stage_of(pilot).colours
    # With white on top, F2 brings three white stickers of the front's top row to the bottom: now they are on
    # top, for the cube was turned over; the top's front row is sticker places 6 to 8.
    assert stickers[6:9] == (1, 1, 1)
    assert solve_of(pilot).scramble == "F2"


def test_a_mistake_in_a_scramble_is_told_and_nothing_is_lost(pilot: Pilot) -> None:
    written(pilot, "R U Q F")
    (entry,) = [block for block in Reading(pilot.view).blocks if isinstance(block, Entry)]
    assert entry.text == "R U Q F"
    assert entry.error_column == 4
    assert pilot.session.solve is None


def test_a_position_copied_as_text_comes_back_as_it_was(pilot: Pilot) -> None:
    copied: list[str] = []
    pilot.application.copy_text = copied.append
    scrambled(pilot)
    colours = stage_of(pilot).colours
    pilot.key("c", Modifier.CONTROL)
    assert parse_stickers(copied[0]) == colours
    # A field has one line: line ends arrive as spaces.
    written_text = copied[0].replace("\n", " ")
    pilot.press("act:NEW_SOLVE")
    written(pilot, written_text)
    assert stage_of(pilot).colours == colours


def test_a_scramble_can_be_copied(pilot: Pilot) -> None:
    copied: list[str] = []
    pilot.application.copy_text = copied.append
    written(pilot, "R U2 F' D B2")
    pilot.press(Reading(pilot.view).button("Copy scramble").action)
    assert copied == ["R U2 F' D B2"]


def test_positions_that_no_turns_can_make_are_refused_with_the_reason(pilot: Pilot) -> None:
    colours = list(read_start("R").cube.colours)
    colours[1], colours[2] = colours[2], colours[1]
    text = format_stickers(colours).replace("\n", " ")
    written(pilot, text)
    assert pilot.session.solve is None
    (entry,) = [block for block in Reading(pilot.view).blocks if isinstance(block, Entry)]
    assert "shows" in entry.error


def test_reading_and_writing_a_position_are_each_others_inverse() -> None:
    random = Random(3)
    for _ in range(20):
        cube = read_start("y x'").cube.after(parse_moves(""))
        cube = type(cube)(random_position(random), cube.viewpoint)
        assert read_start(position_text(cube)).cube == cube


# ----------------------------------------------------------------------------------------- the cross


def test_the_distance_of_the_cross_and_all_lines_are_exact(pilot: Pilot, solver: Solver) -> None:
    scrambled(pilot)
    position = down_of(pilot).position
    reading = pilot.session.advices.cross(CrossQuestion(position))
    assert reading is not None
    crosses = CrossSolver(solver.tables)
    assert reading.distance == crosses.distance(position)
    assert all(position.after(line).cross_home for line in reading.lines)
    pilot.press(Reading(pilot.view).button("Shortest lines").action)
    actions = [block.action for block in Reading(pilot.view).blocks if isinstance(block, Button)]
    shown = [action.removeprefix("turns:") for action in actions if action.startswith("turns:")]
    assert shown == [format_moves(line) for line in reading.lines]


def worst_turn(reading: CrossReading) -> Turn:
    """The turn that leads furthest away, of a layer that helps in no way: else it is in the making first."""
    layers = [[Turn.of(face, quarters) for quarters in (1, 2, 3)] for face in Face]
    useless = [layer for layer in layers if {reading.verdict(turn) for turn in layer} == {Verdict.DETOUR}]
    return max((turn for layer in useless for turn in layer), key=lambda turn: reading.after[turn])


def test_turns_for_the_cross_are_judged(pilot: Pilot) -> None:
    # From a cross four turns away, one turn of a shortest line and then one that leads away from it.
    written(pilot, "F R' D2 L B'")
    reading = pilot.session.advices.cross(CrossQuestion(down_of(pilot).position))
    assert reading is not None
    worst = worst_turn(reading)
    pilot.turn(reading.lines[0][0].notation)
    (note,) = Reading(pilot.view).verdicts
    assert note.mark is Mark.OPTIMAL
    pilot.key("backspace")
    pilot.settle()
    pilot.turn(worst.notation)
    (note,) = Reading(pilot.view).verdicts
    assert note.mark is Mark.DETOUR
    assert pilot.view.rail is None  # the cross is no task of a pair


def test_the_rail_is_there_while_a_pair_is_in_hand(pilot: Pilot) -> None:
    written(pilot, "F R' D2 L B'")
    reading = pilot.session.advices.cross(CrossQuestion(down_of(pilot).position))
    assert reading is not None
    pilot.turn(worst_turn(reading).notation)
    cross_made(pilot)
    assert stand(solve_of(pilot)) is Stand.CHOOSING
    assert pilot.view.rail is None
    pilot.key("space")
    pilot.settle()
    marks = [tile.mark for tile in rail_of(pilot).own]
    assert marks == [Mark.DETOUR, *[Mark.OPTIMAL] * (len(marks) - 1)]
    costs = pilot.session.advices.pairs(PairsQuestion(down_of(pilot).position))
    assert costs is not None
    pilot.turn(format_moves(costs.costs[0].line))
    assert stand(solve_of(pilot)) is Stand.CHOOSING
    assert pilot.view.rail is None


def test_a_half_turn_after_a_wrong_quarter_is_a_slip_not_a_way(pilot: Pilot) -> None:
    """Design, Continuations: cost 1 is no way when only a turn of the same face mends it."""
    written(pilot, "D")  # made with white on top: with the cross down this is U, and the cross is whole
    pilot.press("act:NEW_SOLVE")
    written(pilot, "U")  # the white layer is out by a quarter
    reading = pilot.session.advices.cross(CrossQuestion(down_of(pilot).position))
    assert reading is not None
    assert reading.distance == 1
    assert reading.verdict(Turn.D).value == "detour" or reading.after[Turn.D] == 0
    wrong = next(turn for turn in (Turn.D, Turn.D_PRIME) if reading.after[turn] == 1)
    assert reading.verdict(wrong).value == "detour"


def test_hints_for_the_cross_go_deeper_and_end_with_the_turn(pilot: Pilot) -> None:
    scrambled(pilot)
    texts = []
    for _ in range(3):
        pilot.key("h")
        pilot.settle()
        texts.append(Reading(pilot.view).texts)
    assert any(text.startswith("Look for these edges") for text in texts[0])
    assert any("begins with the" in text for text in texts[1])
    stage = stage_of(pilot)
    assert stage.arrow is not None
    assert stage.glowing
    reading = pilot.session.advices.cross(CrossQuestion(down_of(pilot).position))
    assert reading is not None
    assert reading.after[stage.arrow.turn] == reading.distance - 1


def test_the_best_cross_colour_is_told_and_can_be_chosen(pilot: Pilot, solver: Solver) -> None:
    scrambled(pilot)
    best = CrossSolver(solver.tables).best(down_of(pilot).position)
    colour = down_of(pilot).cube.colour_of(best.colour)
    pilot.press(f"cross:{colour.name}")
    pilot.settle()
    assert solve_of(pilot).cross is colour
    assert down_of(pilot).hold.faces == tuple(Face)
    reading = pilot.session.advices.cross(CrossQuestion(down_of(pilot).position))
    assert reading is not None
    assert reading.distance == best.distance


# ------------------------------------------------------------------------------------------- advice


def test_every_figure_of_the_advice_is_the_solvers(pilot: Pilot, solver: Solver) -> None:
    scrambled(pilot)
    cross_made(pilot)
    position = down_of(pilot).position
    shown = {
        block.action: block.label
        for block in Reading(pilot.view).blocks
        if isinstance(block, Button) and block.action.startswith("slot:")
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
    turns = parse_turns(button.action.removeprefix("turns:"))
    assert len(turns) == reading.plan.length
    pilot.press(button.action)
    pilot.wait(120.0)
    assert pilot.session.demonstration is not None
    end = pilot.session.demonstration.pose(pilot.now).cube
    assert end.position.cross_home
    assert len(end.position.home_pairs) == 4


def hands(position: Position) -> set[str]:
    """The faces that two hands work with: the top and those beside every slot that is not solved (design)."""
    return set("U" + "".join(slot.name for slot in SLOTS if not position.pair_home(slot)))


def faces(turns: Iterable[Turn]) -> set[str]:
    return {turn.face.name for turn in turns}


def test_nothing_that_is_offered_for_pairs_turns_a_far_layer(pilot: Pilot) -> None:
    """From the cross to two layers: lines of pairs, the plan's pairs, shortcuts, hints and what is shown."""
    scrambled(pilot)
    cross_made(pilot)
    while stand(solve_of(pilot)) is not Stand.DONE:
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
    told = ENGLISH.say("plan.fewest", fewest=ENGLISH.count("turns", fewer))
    # Only how a proof is told is asked here; whether it is true, in tests/method/test_advice.py.
    for line, shown in ((plan.plan.turns[:fewer], True), (None, False)):
        known = {**pilot.session.advices.known, ProofQuestion(position): Proof(fewer, line)}
        advices = replace(pilot.session.advices, known=known)
        view = view_of(replace(pilot.session, advices=advices), pilot.now)
        assert told in Reading(view).texts
        labels = [block.label for block in Reading(view).blocks if isinstance(block, Button)]
        assert ("Show the fewest" in labels) == shown


def test_a_chosen_pair_is_judged_and_hinted_like_in_free_play(pilot: Pilot) -> None:
    scrambled(pilot)
    cross_made(pilot)
    reading = pilot.session.advices.pairs(PairsQuestion(down_of(pilot).position))
    assert reading is not None
    pilot.key("space")
    pilot.settle()
    assert stand(solve_of(pilot)) is Stand.PAIR
    assert any(
        f"{ENGLISH.count('turns', reading.costs[0].cost)} to go at best" in text
        for text in Reading(pilot.view).texts
    )
    pilot.key("h")
    pilot.settle()
    assert "Hint 1 of 3" in Reading(pilot.view).texts
    pilot.key("a")
    assert pilot.session.demonstration is not None
    pilot.key("escape")
    line = down_of(pilot).as_held(reading.costs[0].line)
    for turn in line:
        pilot.turn(turn.notation)
        assert Reading(pilot.view).verdicts[0].mark is Mark.OPTIMAL
    assert stand(solve_of(pilot)) in (Stand.CHOOSING, Stand.DONE)


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
    assert stand(solve_of(pilot)) is Stand.CROSS


def test_stale_advice_is_dropped(pilot: Pilot) -> None:
    scrambled(pilot)
    cross_made(pilot)
    known = len(pilot.session.advices.known)
    pilot.application.give(Advised(1, "something from before"))
    assert len(pilot.session.advices.known) == known


def test_with_two_layers_home_it_stops_and_free_play_goes_on(pilot: Pilot) -> None:
    written(pilot, "R U R' U'")
    driven(pilot)
    assert ENGLISH.say("solve.home") in Reading(pilot.view).texts
    cube = solve_of(pilot).attempt.cube
    pilot.press(Reading(pilot.view).button("Free play from here").action)
    assert pilot.session.screen is Screen.FREE_PLAY
    assert pilot.session.free.cube == cube


def test_every_move_has_its_moment(pilot: Pilot) -> None:
    written(pilot, "R U R' U'")
    pilot.now = 200.0
    pilot.turn("F")
    pilot.now = 203.0
    pilot.turn("U")
    assert solve_of(pilot).times == (200.0, 203.0)
    pilot.key("backspace")
    pilot.now = 210.0
    pilot.turn("D")
    assert solve_of(pilot).times == (200.0, 210.0)


# ------------------------------------------------------------------------- whole solves by a driver


def driven(pilot: Pilot) -> int:
    """Follow the program's advice with its own commands to the end; the turns made."""
    if stand(solve_of(pilot)) is Stand.CROSS:
        cross_made(pilot)
    before = solve_of(pilot).attempt.history.turn_count
    for _ in range(8):
        if stand(solve_of(pilot)) is Stand.DONE:
            break
        plan = pilot.session.advices.plan(PlanQuestion(down_of(pilot).position))
        assert plan is not None
        stage = plan.plan.stages[0]
        pilot.press(f"slot:{stage.slot.name}")
        for turn in down_of(pilot).as_held(stage.turns):
            pilot.application.give(Make(turn))
        pilot.settle()
    assert stand(solve_of(pilot)) is Stand.DONE
    return solve_of(pilot).attempt.history.turn_count - before


def whole_solves(solver: Solver, count: int, seed: int) -> tuple[list[int], list[int]]:
    """Random positions solved by following the advice; turns of the pairs, and slot after slot instead."""
    pilot, random = Pilot(solver), Random(seed)
    taken, plain = [], []
    for _ in range(count):
        pilot.press("open:SOLVE")
        pilot.press("act:NEW_SOLVE")
        pilot.press("act:SCRAMBLE")
        # The driver's own positions, so that they do not hang on how the program draws.
        position = random_position(random)
        pilot.application.give(Drawn(pilot.session.draw_request, position))
        pilot.settle()
        cross_made(pilot)
        if stand(solve_of(pilot)) is Stand.CHOOSING:
            reading = pilot.session.advices.plan(PlanQuestion(down_of(pilot).position))
            assert reading is not None
            plain.append(reading.plain.length)
        else:
            plain.append(0)
        taken.append(driven(pilot))
        end = down_of(pilot).position
        assert end.cross_home
        assert end.home_pairs == set(SLOTS)
        # By the solver's own word: every pair is at distance none with all others kept.
        for slot in SLOTS:
            assert solver.distance(end, Task(slot, frozenset(SLOTS) - {slot})) == 0
    return taken, plain


def test_random_positions_solved_by_following_the_advice_end_with_two_layers_home(solver: Solver) -> None:
    taken, plain = whole_solves(solver, 20, seed=1)
    assert mean(taken) < mean(plain)


@pytest.mark.slow
def test_sixty_random_positions_solved_by_following_the_advice(
    solver: Solver, record_property: Callable[[str, object], None]
) -> None:
    # A thousand: python -m tests.bench.bench_whole_solves 1000
    taken, plain = whole_solves(solver, 60, seed=2)
    for name, lengths in (("by advice", taken), ("slot after slot", plain)):
        record_property(name, f"mean {mean(lengths):.2f}, spread {stdev(lengths):.2f}")
        print(f"{name}: mean {mean(lengths):.2f}, spread {stdev(lengths):.2f}")
    assert mean(taken) < mean(plain)
