"""Whole solves through the real application: beginning, cross, which pair first, and the end."""

from __future__ import annotations

from collections.abc import Iterable
from random import Random
from statistics import mean

from tests.session.held import held
from tests.session.names import action_name
from tests.session.pilot import Pilot, Reading, rail_of, stage_of, turn_count
from tutor.coach.catalogue import ENGLISH
from tutor.cube.faces import Face, Turn
from tutor.cube.notation import format_moves, parse_moves
from tutor.cube.position import SLOTS, Position
from tutor.cube.random_position import random_position
from tutor.cube.sticker_text import format_stickers, parse_stickers
from tutor.method.advice import CrossQuestion, CrossReading, PairsQuestion, PlanQuestion
from tutor.method.continuations import Verdict
from tutor.screens.free_play.state import FREE
from tutor.screens.solve.solving import CrossDown, SolveStand, cross_down, stand
from tutor.screens.solve.state import SOLVE, SolvePlay
from tutor.session.commands import Drawn, Make
from tutor.session.cube_text import position_text, read_start
from tutor.solver.cross import CrossSolver
from tutor.solver.search import Solver
from tutor.solver.task import Task
from tutor.ui.inputs import Modifier
from tutor.ui.view import Button, Entry, Mark


def solve_of(pilot: Pilot) -> SolvePlay:
    assert SOLVE.of(pilot.session) is not None
    return held(SOLVE.of(pilot.session))


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


def hands(position: Position) -> set[str]:
    """The faces that two hands work with: the top and those beside every slot that is not solved (design)."""
    return set("U" + "".join(slot.name for slot in SLOTS if not position.pair_home(slot)))


def faces(turns: Iterable[Turn]) -> set[str]:
    return {turn.face.name for turn in turns}


def written(pilot: Pilot, text: str) -> None:
    pilot.press("open:SOLVE")
    pilot.press("act:WRITE")
    pilot.write(text)
    pilot.key("enter")
    pilot.settle()


# ------------------------------------------------------------------------------------------ beginning


def test_home_leads_to_whole_solves(pilot: Pilot) -> None:
    pilot.press(Reading(pilot.view).button("Whole solves").action)
    assert pilot.view.screen == "solve"
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
    assert SOLVE.of(pilot.session) is None


def test_a_position_copied_as_text_comes_back_as_it_was(pilot: Pilot) -> None:
    copied: list[str] = []
    pilot.application.copy_text = copied.append
    scrambled(pilot)
    colours = stage_of(pilot).colours
    pilot.key("c", Modifier.CONTROL)
    assert parse_stickers(copied[0]) == colours
    # A field has one line: line ends arrive as spaces.
    written_text = copied[0].replace("\n", " ")
    pilot.press("solve:NEW_SOLVE")
    written(pilot, written_text)
    assert stage_of(pilot).colours == colours


def test_a_scramble_can_be_copied(pilot: Pilot) -> None:
    copied: list[str] = []
    pilot.application.copy_text = copied.append
    written(pilot, "R U2 F' D B2")
    pilot.press(Reading(pilot.view).button("More choices").action)
    pilot.press(Reading(pilot.view).button("Copy scramble").action)
    assert copied == ["R U2 F' D B2"]


def test_positions_that_no_turns_can_make_are_refused_with_the_reason(pilot: Pilot) -> None:
    colours = list(read_start("R").cube.colours)
    colours[1], colours[2] = colours[2], colours[1]
    text = format_stickers(colours).replace("\n", " ")
    written(pilot, text)
    assert SOLVE.of(pilot.session) is None
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
    pilot.press(Reading(pilot.view).button("Show the shortest lines").action)
    actions = [action_name(block.action) for block in Reading(pilot.view).blocks if isinstance(block, Button)]
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
    assert stand(solve_of(pilot)) is SolveStand.CHOOSING
    assert pilot.view.rail is None
    pilot.key("space")
    pilot.settle()
    marks = [tile.mark for tile in rail_of(pilot).own]
    assert marks == [Mark.DETOUR, *[Mark.OPTIMAL] * (len(marks) - 1)]
    costs = pilot.session.advices.pairs(PairsQuestion(down_of(pilot).position))
    assert costs is not None
    pilot.turn(format_moves(costs.costs[0].line))
    assert stand(solve_of(pilot)) is SolveStand.CHOOSING
    assert pilot.view.rail is None


def test_a_half_turn_after_a_wrong_quarter_is_a_slip_not_a_way(pilot: Pilot) -> None:
    """Design, Continuations: cost 1 is no way when only a turn of the same face mends it."""
    written(pilot, "D")  # made with white on top: with the cross down this is U, and the cross is whole
    pilot.press("solve:NEW_SOLVE")
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


def test_cross_colours_and_rare_choices_are_on_the_card_when_the_learner_asks_for_them(pilot: Pilot) -> None:
    written(pilot, "R U2 F' D B2")
    rare = {"Write moves", "Keep this solve", "Copy position", "Copy scramble", "Look ahead"}
    rare |= {"Start another cube"}

    def named() -> set[str]:
        return {button.label for button in Reading(pilot.view).buttons}

    def crosses() -> int:
        return sum(action_name(button.action).startswith("cross:") for button in Reading(pilot.view).buttons)

    assert not rare & named()
    assert crosses() == 0
    pilot.press(Reading(pilot.view).button("More choices").action)
    assert rare <= named()
    assert crosses() == 6
    pilot.press(Reading(pilot.view).button("Fewer choices").action)
    assert not rare & named()


# --------------------------------------------------------------------------------------------- the end


def test_with_two_layers_home_it_stops_and_free_play_goes_on(pilot: Pilot) -> None:
    written(pilot, "R U R' U'")
    driven(pilot)
    assert ENGLISH.say("solve.home") in Reading(pilot.view).texts
    cube = solve_of(pilot).attempt.cube
    pilot.press(Reading(pilot.view).button("Finish in Free play").action)
    assert pilot.session.screen == "free play"
    assert FREE.of(pilot.session).cube == cube


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


def best_now(pilot: Pilot) -> tuple[Turn, ...]:
    """The turns of the plan's next pair, which is chosen; of the last pair, which nobody has to choose."""
    if stand(solve_of(pilot)) is SolveStand.PAIR:
        bearing = held(solve_of(pilot).attempt.bearing())
        answer = held(pilot.session.answers.at(bearing))
        return tuple(bearing.turn_as_held(turn) for turn in answer.lines[0])
    stage = held(pilot.session.advices.plan(PlanQuestion(down_of(pilot).position))).plan.stages[0]
    pilot.press(f"slot:{stage.slot.name}")
    return down_of(pilot).as_held(stage.turns)


def driven(pilot: Pilot) -> int:
    """Follow the program's advice with its own commands to the end; the turns made."""
    if stand(solve_of(pilot)) is SolveStand.CROSS:
        cross_made(pilot)
    before = turn_count(solve_of(pilot).attempt.history)
    for _ in range(8):
        if stand(solve_of(pilot)) is SolveStand.DONE:
            break
        for turn in best_now(pilot):
            pilot.application.give(Make(turn))
        pilot.settle()
    assert stand(solve_of(pilot)) is SolveStand.DONE
    return turn_count(solve_of(pilot).attempt.history) - before


def whole_solves(solver: Solver, count: int, seed: int) -> tuple[list[int], list[int]]:
    """Random positions solved by following the advice; turns of the pairs, and slot after slot instead."""
    pilot, random = Pilot(solver), Random(seed)
    taken, plain = [], []
    for _ in range(count):
        pilot.press("open:SOLVE")
        pilot.press("solve:NEW_SOLVE")
        pilot.press("act:SCRAMBLE")
        # The driver's own positions, so that they do not hang on how the program draws.
        position = random_position(random)
        pilot.application.give(Drawn(pilot.session.draw_request, position))
        pilot.settle()
        cross_made(pilot)
        if stand(solve_of(pilot)) is SolveStand.CHOOSING:
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
    # A thousand, with mean and spread: python -m tests.bench.bench_whole_solves 1000
    taken, plain = whole_solves(solver, 12, seed=1)
    assert mean(taken) < mean(plain)
