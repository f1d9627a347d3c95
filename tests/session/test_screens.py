"""Going away in the middle of something and coming back."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from tests.session.held import held
from tests.session.pilot import Pilot, rail_of
from tutor.lesson.scenes import Ask, Show
from tutor.method.cases import CASES
from tutor.screens.lesson.state import LESSON
from tutor.screens.practice.state import RUN, CaseRun, RunPhase
from tutor.ui.inputs import Scrubbed

CASE = CASES[0].slug


def run_of(pilot: Pilot) -> CaseRun:
    assert RUN.of(pilot.session) is not None
    return held(RUN.of(pilot.session))


def test_a_show_scene_plays_again_when_one_comes_back_to_it(pupil: Pilot) -> None:
    scene = pupil.scene(Show)
    pupil.wait(60.0)
    pupil.press("open:SETTINGS")
    pupil.press("open:LESSON")
    assert pupil.moving
    assert pupil.session.demonstration is not None
    assert isinstance(scene, Show)
    assert pupil.session.demonstration.turns == scene.turns


@pytest.mark.parametrize(
    ("help", "phase"),
    [("WATCH", RunPhase.OVER), ("LAST_TURN", RunPhase.TURNING), ("LAST_STEP", RunPhase.TURNING)],
)
def test_a_run_left_while_it_is_shown_is_shown_again_and_then_goes_on(
    pilot: Pilot, help: str, phase: RunPhase
) -> None:
    pilot.press(f"try:FR:0:{help}:{CASE}")
    pilot.settle()
    pilot.press("open:SETTINGS")
    pilot.press("open:PRACTICE")
    assert run_of(pilot).phase is RunPhase.SHOWING
    assert pilot.moving
    pilot.key("enter")
    assert run_of(pilot).phase is phase


def test_turns_elsewhere_are_no_turns_of_a_run_that_waits(pilot: Pilot) -> None:
    pilot.press(f"try:FR:0:WITH_HINTS:{CASE}")
    pilot.settle()
    pilot.press("open:FREE_PLAY")
    pilot.turn("R U R'")
    assert run_of(pilot).made == ()


def test_what_is_shown_elsewhere_does_not_go_on_with_a_run_that_waits(pilot: Pilot) -> None:
    pilot.press(f"try:FR:0:LAST_TURN:{CASE}")
    pilot.settle()
    waiting = run_of(pilot)
    pilot.free_play("R U R'")
    pilot.key("a")
    pilot.wait(60.0)
    pilot.turn("R")
    assert run_of(pilot) == waiting


def test_the_case_book_leaves_the_cube_of_a_lesson_alone(pupil: Pilot) -> None:
    pupil.scene(Ask)
    assert LESSON.of(pupil.session) is not None
    before = LESSON.of(pupil.session)
    pupil.press(f"case:FR:0:{CASE}")
    pupil.settle()
    pupil.give(Scrubbed(0.0))
    assert replace(held(LESSON.of(pupil.session)), left=None) == before


def test_a_run_that_is_over_is_not_changed_by_the_rail(pilot: Pilot) -> None:
    pilot.press(f"try:FR:0:WITH_HINTS:{CASE}")
    pilot.settle()
    while run_of(pilot).phase is RunPhase.TURNING:
        bearing = run_of(pilot).attempt.bearing()
        assert bearing is not None
        known = pilot.session.answers.get(bearing.position, bearing.task)
        assert known is not None
        pilot.turn(known.lines[0][0].notation)
    before = rail_of(pilot)
    pilot.give(Scrubbed(0.0))
    assert rail_of(pilot) == before


def test_the_field_for_moves_is_closed_when_the_turns_are_over(pilot: Pilot) -> None:
    pilot.press(f"try:FR:0:WITH_HINTS:{CASE}")
    pilot.settle()
    pilot.key("slash")
    pilot.write("R")
    pilot.press("practice:GIVE_UP")
    assert not pilot.session.writing.open


def test_the_field_for_moves_is_closed_when_the_page_is_turned(pupil: Pilot) -> None:
    pupil.scene(Ask)
    pupil.key("slash")
    pupil.key("page down")
    assert not pupil.session.writing.open
