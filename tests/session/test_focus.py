"""The keyboard's focus goes with what is on the screen, and never comes back by itself."""

from __future__ import annotations

from pathlib import Path

from tests.session.pilot import Pilot
from tutor.lesson.scenes import Ask, Show
from tutor.screens.lesson.state import LESSON
from tutor.screens.practice.state import RUN, RunPhase
from tutor.session.commands import Act
from tutor.solver.search import Solver
from tutor.workers.recorder import Recorder


def tab_to(pilot: Pilot, name: str) -> None:
    for _ in range(60):
        if pilot.focus == name:
            return
        pilot.key("tab")
    raise AssertionError(f"Tab never comes to {name}")


def test_enter_gives_no_second_run_up(pilot: Pilot) -> None:
    case = "corner-up-edge-left-front-up"
    pilot.press(f"try:FR:0:WITH_HINTS:{case}")
    pilot.settle()
    tab_to(pilot, "practice:GIVE_UP")
    pilot.key("enter")
    pilot.press(f"try:FR:0:WITH_HINTS:{case}")
    pilot.settle()
    assert pilot.focus == ""
    pilot.key("enter")
    run = RUN.of(pilot.session)
    assert run is not None
    assert run.phase is RunPhase.TURNING


def test_a_name_typed_is_submitted_whatever_had_the_focus(solver: Solver, tmp_path: Path) -> None:
    regular = Pilot(solver, keeper=Recorder(tmp_path / "data"))
    regular.press("open:LEARNERS")
    regular.settle()
    regular.key("tab")
    regular.press("act:WRITE")
    assert regular.focus == ""
    regular.write("Bo")
    regular.key("enter")
    regular.settle()
    assert regular.session.records.learner == "Bo"


def test_the_next_scene_begins_without_the_focus(pupil: Pilot) -> None:
    pupil.scene(Ask)
    tab_to(pupil, "page:SKIP")
    before = LESSON.of(pupil.session)
    pupil.key("enter")
    after = LESSON.of(pupil.session)
    assert before is not None
    assert after is not None
    assert after.scene == before.scene + 1
    assert pupil.focus == ""


def test_escape_stops_what_is_shown_before_it_lets_the_focus_go(pilot: Pilot) -> None:
    pilot.press("case:FR:0:corner-up-edge-left-front-up")
    pilot.settle()
    tab_to(pilot, "act:SHOW_AGAIN")
    pilot.key("enter")
    assert pilot.session.demonstration is not None
    pilot.key("escape")
    assert pilot.session.demonstration is None
    assert pilot.focus == "act:SHOW_AGAIN"
    pilot.key("escape")
    assert pilot.focus == ""
    assert pilot.session.screen == "case book"


def test_escape_in_a_scene_that_plays_lets_the_focus_go_first(pupil: Pilot) -> None:
    pupil.scene(Show)
    pupil.key("tab")
    pupil.key("escape")
    assert pupil.focus == ""
    assert pupil.session.screen == "lesson"


def test_what_comes_by_itself_takes_the_focus_away_with_its_screen(pupil: Pilot) -> None:
    pupil.press("open:FREE_PLAY")
    pupil.key("tab")
    assert pupil.focus
    pupil.application.give(Act.HOME)
    assert pupil.focus == ""
