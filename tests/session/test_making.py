"""Turns of one layer made one after the other are one turn, judged as the turn that it has become."""

from __future__ import annotations

from collections.abc import Callable
from math import pi
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.screens.practice.sitting import begin, finish, on_disk, practised_before, run_of, sits_down
from tests.session.pilot import Pilot, Reading, rail_of
from tutor.coach.guidance import Help
from tutor.cube.faces import Face, Turn
from tutor.cube.held_cube import HeldCube
from tutor.cube.merging import merged
from tutor.cube.notation import format_moves, parse_turns
from tutor.cube.position import SOLVED, Slot
from tutor.lesson.scenes import Ask, Extent, Lesson
from tutor.method.answer import Answer, answer
from tutor.method.cases import CASES
from tutor.method.continuations import Verdict
from tutor.screens.free_play.state import FREE
from tutor.screens.lesson.update import settled
from tutor.screens.practice.commands import TryCase
from tutor.screens.practice.metronome import beaten, followed
from tutor.screens.practice.state import Metronome, Timing
from tutor.screens.solve.solving import SolveStand, stand
from tutor.screens.solve.state import SOLVE
from tutor.session.making import SoFar, so_far
from tutor.solver.search import Solver
from tutor.solver.task import Task
from tutor.ui.inputs import LayerDragged, LayerReleased, Modifier
from tutor.ui.view import BayState, Mark, VerdictNote

MADE = "R U R'"
"""Sets up a pair that three turns bring home: R U' R'."""
FAR = "B2 y y'"
"""After it the half turn of B is on a shortest way at all; the rotations make it a turn of its own."""
MARKS = {Verdict.OPTIMAL: Mark.OPTIMAL, Verdict.ACCEPTABLE: Mark.ACCEPTABLE, Verdict.DETOUR: Mark.DETOUR}


def notation(pilot: Pilot) -> str:
    """The turns after the set-up."""
    return FREE.of(pilot.session).history.notation.removeprefix(MADE).strip()


def notes(pilot: Pilot) -> list[VerdictNote]:
    pilot.settle()
    return Reading(pilot.view).verdicts


def note(pilot: Pilot) -> VerdictNote:
    (found,) = notes(pilot)
    return found


def marks(pilot: Pilot) -> list[Mark]:
    """The signs on the tiles after the set-up."""
    pilot.settle()
    return [tile.mark for tile in rail_of(pilot).own[3:]]


def known(pilot: Pilot) -> Answer:
    pilot.settle()
    found = pilot.session.answers.at(FREE.of(pilot.session).bearing())
    assert found is not None
    return found


def expected(before: Answer, turn: Turn, *, last: bool) -> Mark:
    """The sign by the definition: neutral for the last turn, while another of its layer is no Detour."""
    verdicts = [each.verdict for each in before.continuations if each.turn.face is turn.face]
    verdict = before.continuations[turn].verdict
    if last and verdict is Verdict.DETOUR and set(verdicts) != {Verdict.DETOUR}:
        return Mark.MAKING
    return MARKS[verdict]


# --------------------------------------------------------------------------------------- what is one turn


@pytest.mark.parametrize(
    ("keys", "made"), [("uu", "U2"), ("uuu", "U'"), ("UU", "U2"), ("dd2", "D2"), ("b2b", "B'")]
)
def test_quarters_of_one_layer_by_key_are_one_turn_that_is_judged_as_such(
    pilot: Pilot, keys: str, made: str
) -> None:
    pilot.free_play(MADE)
    before, (turn,) = known(pilot), parse_turns(made)
    pilot.give_keys(*keys)
    assert notation(pilot) == made
    assert marks(pilot) == [expected(before, turn, last=True)]
    assert note(pilot).title.startswith(f"{made}: ")
    assert FREE.of(pilot.session).turns_made == 1
    pilot.key("backspace")
    assert FREE.of(pilot.session).turns_made == 0
    assert known(pilot) == before
    pilot.key("y", Modifier.CONTROL)
    assert FREE.of(pilot.session).cube.position == before.position.turned(turn)


@pytest.mark.parametrize("keys", ["rR", "Rr", "lL", "uuuu", "b2bb", "ddDD"])
def test_a_turn_and_its_inverse_leave_nothing(pilot: Pilot, keys: str) -> None:
    pilot.free_play(MADE)
    before = FREE.of(pilot.session).history
    pilot.give_keys(*keys)
    assert FREE.of(pilot.session).history == before
    assert notes(pilot) == []
    assert marks(pilot) == []
    assert not any(tile.off_rail for tile in rail_of(pilot).own)


@settings(max_examples=20, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(keys=st.lists(st.sampled_from("rRuUfFlLbBdD2"), max_size=6))
def test_the_turns_of_any_keys_are_those_of_the_merged_sequence_each_judged_where_it_was_made(
    solver: Solver, keys: list[str]
) -> None:
    pilot = Pilot(solver)
    pilot.free_play(MADE)
    bearing = FREE.of(pilot.session).bearing()
    assert bearing is not None
    position, task = bearing.position, bearing.task
    turns: list[Turn] = []
    for key in keys:
        if task.done(position.after(turns)) or (key == "2" and not turns):
            # Once the pair is home something new begins, and the set-up is over.
            return
        pilot.give_keys(key)
        if key == "2":
            turns[-1] = Turn.of(turns[-1].face, 2)
        else:
            turns = list(merged([*turns, Turn.of(Face[key.upper()], 3 if key.isupper() else 1)]))
        assert notation(pilot) == format_moves(turns)
        assert FREE.of(pilot.session).cube.position == position.after(turns)
        befores = [answer(solver, position.after(turns[:index]), task) for index in range(len(turns))]
        assert marks(pilot) == [
            expected(before, turn, last=index == len(turns) - 1)
            for index, (before, turn) in enumerate(zip(befores, turns, strict=True))
        ]


def test_dragged_and_written_turns_go_the_same_way(pilot: Pilot) -> None:
    pilot.free_play(MADE)
    for _ in range(2):
        pilot.give(LayerDragged(Face.L, 1.0), LayerReleased(Face.L, pi / 2))
        pilot.wait(5.0)
    assert notation(pilot) == "L2"
    pilot.key("slash")
    pilot.write("L2 U D D Rw Rw F F'")
    pilot.key("enter")
    assert notation(pilot) == "U D2 Rw2"


def test_very_many_written_turns_of_one_layer_are_one(pilot: Pilot) -> None:
    # Forty-one quarters are made together, the rest one by one: 83 quarters are three.
    pilot.free_play(MADE)
    pilot.turn("U")
    pilot.key("slash")
    pilot.write("(U)82")
    pilot.key("enter")
    assert notation(pilot) == "U'"


def test_another_hold_parts_two_turns_and_so_does_a_layer_between(pilot: Pilot) -> None:
    pilot.free_play(MADE)
    pilot.turn("D y D y' L R L")
    assert notation(pilot) == "D y D y' L R L"


def test_where_an_aim_is_taken_or_a_pair_comes_home_the_next_turn_is_another(pilot: Pilot) -> None:
    pilot.free_play(MADE)
    # The set-up ended with R', and the aim was taken there.
    pilot.turn("R U' R'")
    assert notation(pilot) == "R U' R'"
    assert FREE.of(pilot.session).cube.position == SOLVED
    # The pair is home: R leads away from it.
    pilot.turn("R")
    assert notation(pilot) == "R U' R' R"
    pilot.turn("R")
    assert notation(pilot) == "R U' R' R2"


# ------------------------------------------------------------------------------------------ the neutral sign


def test_a_half_turn_in_two_strokes_is_never_called_a_detour(pilot: Pilot) -> None:
    pilot.free_play(MADE)
    pilot.turn(FAR)
    before = known(pilot)
    bearing = FREE.of(pilot.session).bearing()
    assert bearing is not None
    assert before.continuations[bearing.turn_as_judged(Turn.B2)].verdict is Verdict.OPTIMAL
    assert before.continuations[bearing.turn_as_judged(Turn.B)].verdict is Verdict.DETOUR
    off = [tile.off_rail for tile in rail_of(pilot).own]
    for stroke in ("2", "b"):
        pilot.give_keys("b")
        told = "You are turning a good layer. Turn it a quarter more."
        assert note(pilot) == VerdictNote(Mark.MAKING, "B: a quarter so far", told)
        assert marks(pilot)[-1] is Mark.MAKING
        assert [tile.off_rail for tile in rail_of(pilot).own][:-1] == off
        pilot.key("s")
        assert pilot.session.demonstration is None
        pilot.give_keys(stroke)
        assert note(pilot).mark is marks(pilot)[-1] is Mark.OPTIMAL
        pilot.key("backspace")


def test_a_layer_of_which_no_turn_is_optimal_is_not_called_a_good_one(pilot: Pilot) -> None:
    pilot.free_play(MADE)
    # U is Acceptable here, and R alone is Optimal.
    for turns in ("U'", "U'"):
        pilot.turn(turns)
        assert note(pilot).mark is Mark.MAKING
        assert "good layer" not in note(pilot).text
        assert note(pilot).text.endswith("works too, but another layer takes fewer turns.")
    assert note(pilot).text.startswith("A quarter turn")
    pilot.turn("U")
    assert note(pilot).text.startswith("The other way round")


def verdicts_of(*quarters: Verdict) -> Callable[[Turn], Verdict]:
    return lambda turn: quarters[turn.quarters - 1]


def test_a_turn_in_the_making_is_told_the_way_to_the_best_turn_of_its_layer() -> None:
    best, also, no = Verdict.OPTIMAL, Verdict.ACCEPTABLE, Verdict.DETOUR
    assert so_far(Turn.U_PRIME, verdicts_of(best, also, no)) is SoFar.OTHER_WAY
    assert so_far(Turn.U_PRIME, verdicts_of(also, best, no)) is SoFar.FURTHER
    assert so_far(Turn.U_PRIME, verdicts_of(no, also, no)) is SoFar.FURTHER_TOO
    assert so_far(Turn.U2, verdicts_of(also, no, best)) is SoFar.QUARTER
    assert so_far(Turn.U, verdicts_of(also, best, no)) is None
    assert so_far(Turn.U, verdicts_of(no, no, no)) is None


def test_once_another_layer_turns_what_the_turn_has_become_counts(pilot: Pilot) -> None:
    pilot.free_play(MADE)
    pilot.turn("R'")
    assert note(pilot).title == "R': a quarter so far"
    assert note(pilot).text == "You are turning a good layer, but turn it the other way."
    assert not rail_of(pilot).own[-1].off_rail
    pilot.turn("R'")
    assert note(pilot).title == "R2: half a turn so far"
    assert note(pilot).text == "You are turning a good layer, but a quarter turn is enough."
    pilot.turn("L")
    assert marks(pilot)[0] is Mark.DETOUR
    assert rail_of(pilot).own[3].off_rail
    pilot.key("backspace")
    assert marks(pilot)[0] is Mark.MAKING


def test_where_no_turn_of_the_layer_is_good_it_is_a_detour_at_once(pilot: Pilot) -> None:
    pilot.free_play(MADE)
    pilot.turn("L")
    assert note(pilot).mark is Mark.DETOUR
    assert marks(pilot) == [Mark.DETOUR]


def test_while_a_turn_is_in_the_making_the_step_is_the_one_it_belongs_to(pilot: Pilot) -> None:
    pilot.free_play(MADE)
    pilot.turn("R'")
    pilot.settle()
    current = [bay.title for bay in rail_of(pilot).bays if bay.state is BayState.CURRENT]
    assert current == ["Insert"]


def test_a_turn_for_the_cross_is_in_the_making_too(pilot: Pilot) -> None:
    pilot.press("open:SOLVE")
    pilot.key("slash")
    # One corner is out of its slot; with the cross down, D2 alone brings the cross home.
    pilot.write("R' D' R U2")
    pilot.key("enter")
    pilot.settle()
    pilot.give_keys("d")
    assert note(pilot).mark is Mark.MAKING
    assert note(pilot).title == "D: a quarter so far"
    pilot.give_keys("l")
    assert note(pilot).mark is Mark.DETOUR
    pilot.key("backspace")
    pilot.give_keys("d")
    solve = SOLVE.of(pilot.session)
    assert solve is not None
    assert solve.attempt.history.notation == "D2"
    # One pair is left, so it is in hand by itself.
    assert stand(solve) is SolveStand.PAIR


def test_without_verdicts_nothing_is_said_of_a_turn_in_the_making(pilot: Pilot) -> None:
    pilot.application.give(TryCase(CASES[0].slug, Slot.FR, 0, Help.ALONE))
    pilot.wait(60.0)
    pilot.give_keys("b")
    assert notes(pilot) == []
    assert [tile.mark for tile in rail_of(pilot).own] == [Mark.NONE]


# ------------------------------------------------------------------------------------------- what is counted


def test_an_attempt_holds_a_turn_once_with_the_time_of_its_last_quarter(
    solver: Solver, tmp_path: Path
) -> None:
    learner = sits_down(solver, tmp_path)
    learner.application.give(TryCase(CASES[0].slug, Slot.FR, 0, Help.WITH_HINTS))
    learner.settle()
    for key in ("d", "d", "backspace", "r", "R", "l", "f", "backspace", "l"):
        learner.wait(1.0)
        learner.give_keys(key)
    # R R' is nothing; L went on to L2 after F had been tried and taken back.
    made = [(each.turn.notation, each.at) for each in run_of(learner).made]
    assert made == [("D2", 2.0), ("F", 7.0), ("L2", 9.0)]
    assert run_of(learner).attempt.turns_made == 1
    learner.give_keys("backspace")
    finish(learner)
    (kept,) = on_disk(tmp_path)
    assert [turn.turn.notation for turn in kept.turns][:3] == ["D2", "F", "L2"]
    assert len(kept.turns) == 3 + kept.turns_used


def test_a_turn_taken_back_by_its_inverse_makes_no_run_longer(solver: Solver, tmp_path: Path) -> None:
    learner = sits_down(solver, tmp_path)
    learner.application.give(TryCase(CASES[0].slug, Slot.FR, 0, Help.WITH_HINTS))
    learner.wait(60.0)
    learner.give_keys("r", "R", "l", "L")
    assert run_of(learner).made == ()
    assert finish(learner).finished
    (kept,) = on_disk(tmp_path)
    assert len(kept.turns) == kept.turns_used == kept.by_hand


def test_more_of_a_layer_leaves_its_turn_on_the_beat_and_takes_a_later_beat_too() -> None:
    beat = followed(Metronome(60), 1.0, 1)
    assert followed(beat, 1.6, 0) == beat
    later = followed(beat, 2.1, 0)
    assert later.timings == (Timing.ON_BEAT,)
    assert beaten(later, 3.0).timings == (Timing.ON_BEAT, Timing.ON_BEAT)
    back = followed(later, 3.0, -1)
    assert back.timings == ()
    assert beaten(back, 7.0).timings == (Timing.ON_BEAT,)


def test_a_scene_that_asks_for_a_half_turn_takes_two_quarters(solver: Solver, made_pair: Lesson) -> None:
    asked = next(scene for scene in made_pair.scenes if isinstance(scene, Ask))
    task = Task(Slot.FR, frozenset({Slot.FL, Slot.BL, Slot.BR}))
    cube = HeldCube(SOLVED.after(parse_turns(f"{MADE} B2")))
    scene = replace(asked, cube=cube, task=task, extent=Extent.TURN)
    lesson = replace(made_pair, scenes=(scene,))
    assert answer(solver, cube.position, task).continuations[Turn.B2].verdict is Verdict.OPTIMAL
    pilot = Pilot(solver, {lesson.name: lesson})
    pilot.press(f"lesson:0:0:{lesson.name}")
    pilot.give_keys("b")
    assert note(pilot).mark is Mark.MAKING
    assert not settled(pilot.session)
    pilot.give_keys("b")
    assert note(pilot).mark is Mark.OPTIMAL
    assert settled(pilot.session)


def test_a_quarter_named_twice_at_a_glance_is_the_half_turn(solver: Solver, tmp_path: Path) -> None:
    practised_before(tmp_path)
    learner = sits_down(solver, tmp_path)
    begin(learner, "practise:GLANCE:")
    learner.give_keys("1", "u", "u")
    named = run_of(learner).glance
    assert named is not None
    assert named.turn is Turn.U2
    learner.give_keys("U")
    named = run_of(learner).glance
    assert named is not None
    assert named.turn is Turn.U_PRIME


PRACTISED = "corner-right-edge-back-front-up"


def at_practice(solver: Solver, folder: Path) -> Pilot:
    """A learner who tries a case with hints, of which the shortest way begins with R."""
    learner = sits_down(solver, folder)
    learner.application.give(TryCase(PRACTISED, Slot.FR, 0, Help.WITH_HINTS))
    learner.settle()
    return learner


@pytest.mark.parametrize("back", ["R", "backspace"])
def test_a_turn_in_the_making_is_nothing_whichever_way_it_is_undone(
    solver: Solver, tmp_path: Path, back: str
) -> None:
    """While it could still become a good turn it costs nothing (a definition of the method)."""
    learner = at_practice(solver, tmp_path)
    learner.wait(60.0)
    # R' could still go on to R, by which the shortest way begins.
    learner.turn("R'")
    assert [each.title for each in notes(learner)] == ["R': a quarter so far"]
    if back == "backspace":
        learner.key(back)
    else:
        learner.turn(back)
    assert finish(learner).finished
    (kept,) = on_disk(tmp_path)
    assert [turn.verdict for turn in kept.turns] == [Verdict.OPTIMAL] * 3
    assert dict(learner.session.guidance)[PRACTISED].known
    assert not any("You undid" in text for text in Reading(learner.view).texts)


def test_a_turn_in_the_making_is_nothing_when_the_turn_before_it_is_undone_too(
    solver: Solver, tmp_path: Path
) -> None:
    learner = at_practice(solver, tmp_path)
    learner.wait(2.0)
    learner.turn("R")
    learner.wait(60.0)
    learner.turn("U'")
    assert [each.title for each in notes(learner)] == ["U': a quarter so far"]
    learner.give_keys("backspace", "backspace")
    assert finish(learner).finished
    (kept,) = on_disk(tmp_path)
    assert [turn.verdict for turn in kept.turns] == [Verdict.OPTIMAL] * 4
    # The first turn was made, though it was undone.
    assert kept.first_turn == pytest.approx(2.0, abs=1.0)
    guidance = dict(learner.session.guidance)[PRACTISED]
    assert (guidance.help, guidance.failures) == (Help.ALONE, 0)


def test_a_turn_in_the_making_gives_the_time_to_the_first_turn(solver: Solver, tmp_path: Path) -> None:
    learner = at_practice(solver, tmp_path)
    learner.wait(2.0)
    learner.turn("R'")
    learner.key("backspace")
    learner.wait(60.0)
    finish(learner)
    (kept,) = on_disk(tmp_path)
    assert kept.first_turn == pytest.approx(2.0, abs=1.0)


def test_once_another_layer_is_turned_it_counts_though_both_are_undone(
    solver: Solver, tmp_path: Path
) -> None:
    learner = at_practice(solver, tmp_path)
    learner.wait(60.0)
    learner.turn("R' U")
    learner.give_keys("backspace", "backspace")
    assert finish(learner).finished
    (kept,) = on_disk(tmp_path)
    assert [turn.turn for turn in kept.turns][:2] == [Turn.R_PRIME, Turn.U]
    assert kept.turns[0].verdict is Verdict.DETOUR
