"""Where turning is allowed, and what is said where it is not."""

from __future__ import annotations

from math import pi

from msgspec.structs import replace

from tests.session.held import held
from tests.session.pilot import Pilot, bearing_of, rail_of, stage_of
from tutor.coach.guidance import Help
from tutor.cube.faces import Face
from tutor.cube.position import Slot
from tutor.lesson.scenes import Ask, CameraSetting, Tell
from tutor.method.cases import CASES
from tutor.screens.case_book import words as book_words
from tutor.screens.free_play.state import FREE
from tutor.screens.lesson.state import LESSON
from tutor.screens.lesson.update import settled
from tutor.screens.lesson.words import NO_TURNS_HERE
from tutor.screens.practice.case_run import run_worth
from tutor.screens.practice.state import RUN, CaseRun, RunPhase
from tutor.screens.practice.words import ONLY_WATCH, OVER, WATCH_FIRST
from tutor.session.commands import TellAtFoot
from tutor.ui.inputs import LayerDragged, LayerReleased, Looked, LookReleased, Modifier

CASE = CASES[0].slug


def run_of(pilot: Pilot) -> CaseRun:
    assert RUN.of(pilot.session) is not None
    return held(RUN.of(pilot.session))


def begin(pilot: Pilot, help: Help) -> None:
    pilot.press(f"try:FR:0:{help.name}:{CASE}")
    pilot.settle()


def best_turn(pilot: Pilot) -> str:
    pilot.settle()
    bearing = run_of(pilot).attempt.bearing()
    assert bearing is not None
    known = pilot.session.answers.get(bearing.position, bearing.task)
    assert known is not None
    return known.lines[0][0].notation


def test_while_a_case_is_watched_nothing_is_promised_for_this_time(pupil: Pilot) -> None:
    begin(pupil, Help.WATCH)
    pupil.key("r")
    assert pupil.view.notice == ONLY_WATCH


def test_where_the_cube_is_not_ones_own_the_reason_is_said_and_goes_away(pupil: Pilot) -> None:
    pupil.scene(Tell)
    pupil.key("r")
    assert pupil.view.notice == NO_TURNS_HERE
    begin(pupil, Help.LAST_TURN)
    pupil.key("r")
    assert pupil.view.notice == WATCH_FIRST
    pupil.key("enter")
    assert pupil.view.notice == ""
    pupil.turn(best_turn(pupil))
    assert run_of(pupil).phase is RunPhase.OVER
    assert pupil.view.notice == ""
    pupil.key("r")
    assert pupil.view.notice == OVER
    pupil.press(f"case:FR:0:{CASE}")
    pupil.key("r")
    assert pupil.view.notice == book_words.only_looking("T")
    pupil.press("open:HOME")
    assert pupil.view.notice == ""


def test_a_layer_can_be_dragged_as_soon_as_what_is_shown_first_has_been_seen(pilot: Pilot) -> None:
    begin(pilot, Help.LAST_TURN)
    pilot.wait(90.0)
    pilot.give(LayerDragged(Face.R, 1.0), LayerReleased(Face.R, pi / 2))
    assert run_of(pilot).attempt.history.notation == "R"


def test_to_have_the_case_shown_in_the_middle_of_a_run_is_no_unaided_run(pilot: Pilot) -> None:
    begin(pilot, Help.WITH_HINTS)
    pilot.key("a")
    pilot.wait(90.0)
    while run_of(pilot).phase is RunPhase.TURNING:
        pilot.turn(best_turn(pilot))
    worth = run_worth(pilot.session, run_of(pilot), finished=True)
    assert worth.shown
    assert not dict(pilot.session.guidance)[CASE].known


def test_turns_tried_and_taken_back_are_no_optimal_run(pilot: Pilot) -> None:
    begin(pilot, Help.WITH_HINTS)
    pilot.turn("D")
    pilot.key("backspace")
    while run_of(pilot).phase is RunPhase.TURNING:
        pilot.turn(best_turn(pilot))
    worth = run_worth(pilot.session, run_of(pilot), finished=True)
    assert worth.extra == 1
    assert not worth.optimal_unaided
    assert not dict(pilot.session.guidance)[CASE].known


def test_tiles_can_be_pressed_only_while_the_cube_is_the_learners_to_turn(pilot: Pilot) -> None:
    begin(pilot, Help.WITH_HINTS)
    while run_of(pilot).phase is RunPhase.TURNING:
        assert all(tile.action for tile in rail_of(pilot).own)
        pilot.turn(best_turn(pilot))
    assert rail_of(pilot).own
    assert not any(tile.action for tile in rail_of(pilot).own)


def test_going_on_in_free_play_leaves_the_slot_until_its_pair_is_home(pilot: Pilot) -> None:
    pilot.free_play("R U R' L' U' L", slot="FL")
    assert bearing_of(pilot).task.slot is Slot.FL
    pilot.key("space")
    assert bearing_of(pilot).task.slot is Slot.FL
    pilot.turn("L' U L")
    pilot.key("space")
    assert bearing_of(pilot).task.slot is Slot.FR


def test_taking_back_with_nothing_to_take_back_changes_nothing(pilot: Pilot) -> None:
    begin(pilot, Help.WITH_HINTS)
    pilot.key("h")
    pilot.key("backspace")
    assert run_of(pilot).attempt.rung == 1


def test_show_again_shows_the_case_also_while_a_slip_is_shown(pilot: Pilot) -> None:
    pilot.free_play("R U R'")
    pilot.turn("L")
    pilot.key("s")
    slip = pilot.session.demonstration
    pilot.key("a")
    assert slip is not None
    assert pilot.session.demonstration is not None
    assert pilot.session.demonstration.start != slip.start or pilot.session.demonstration.turns != slip.turns


def test_looking_round_lets_go_back_to_where_the_scene_wants_it(pupil: Pilot) -> None:
    pupil.scene(Tell)
    played = LESSON.of(pupil.session)
    assert played is not None
    seen_from = replace(played.lesson.scenes[0], camera=CameraSetting(40.0, 30.0, 1.2))
    lesson = replace(played.lesson, scenes=(seen_from, *played.lesson.scenes[1:]))
    pupil.lessons = {lesson.name: lesson}
    pupil.press(f"lesson:0:0:{lesson.name}")
    before = stage_of(pupil).camera
    assert before.yaw == 40.0
    pupil.give(Looked(20.0, 5.0), LookReleased())
    assert stage_of(pupil).camera == before


def test_a_reset_taken_back_can_be_made_again_and_each_cube_has_its_own_slot(pilot: Pilot) -> None:
    pilot.free_play("R U R'")
    pilot.key("0")
    pilot.key("backspace")
    assert FREE.of(pilot.session).history.notation == "R U R'"
    assert bearing_of(pilot).task.slot is Slot.FR
    pilot.key("y", Modifier.CONTROL)
    assert FREE.of(pilot.session).history.entries == ()
    assert bearing_of(pilot).position.home_pairs == {0, 1, 2, 3}


def test_a_question_that_is_answered_gives_no_more_hints(pupil: Pilot) -> None:
    pupil.scene(Ask)
    while not settled(pupil.session):
        assert LESSON.of(pupil.session) is not None
        bearing = held(LESSON.of(pupil.session)).attempt.bearing()
        assert bearing is not None
        known = pupil.session.answers.get(bearing.position, bearing.task)
        assert known is not None
        pupil.turn(known.lines[0][0].notation)
    pupil.key("h")
    assert LESSON.of(pupil.session) is not None
    assert held(LESSON.of(pupil.session)).attempt.rung == 0


def test_what_else_is_told_stays_when_the_learner_takes_over(pupil: Pilot) -> None:
    begin(pupil, Help.LAST_TURN)
    pupil.application.give(TellAtFoot("Rest your hands a little."))
    pupil.key("enter")
    assert run_of(pupil).phase is RunPhase.TURNING
    assert pupil.view.notice == "Rest your hands a little."
