"""What is read on a sheet or done on another screen is no time of a run, a scene or a whole solve."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.session.pilot import Pilot
from tests.session.sitting import on_disk, run_of, sits_down
from tutor.lesson.resolve import Ask
from tutor.method.cases import CASES
from tutor.session.state import Phase
from tutor.solver.search import Solver

ELSEWHERE = 500.0


def reads_keys(pilot: Pilot) -> None:
    pilot.key("f1")
    pilot.wait(ELSEWHERE)
    pilot.key("escape")


def reads_words_and_then_settings(pilot: Pilot) -> None:
    back = pilot.session.screen.name
    pilot.press("act:WORDS")
    pilot.wait(ELSEWHERE / 2)
    pilot.press("open:SETTINGS")
    pilot.wait(ELSEWHERE / 2)
    pilot.press(f"open:{back}")


def is_told_of_a_failure(pilot: Pilot) -> None:
    pilot.application.failed(RuntimeError("the layer slipped"))
    pilot.wait(ELSEWHERE)
    pilot.key("escape")


AWAY = pytest.mark.parametrize("away", [reads_keys, reads_words_and_then_settings, is_told_of_a_failure])
Away = Callable[[Pilot], None]


@AWAY
def test_the_time_of_a_run_goes_on_where_it_was(solver: Solver, tmp_path: Path, away: Away) -> None:
    pilot = sits_down(solver, tmp_path)
    pilot.press(f"try:FR:0:WITH_HINTS:{CASES[0].slug}")
    pilot.settle()
    answer = pilot.session.answers.at(run_of(pilot).attempt.bearing())
    assert answer is not None
    turns = len(answer.lines[0])
    for turn in answer.lines[0]:
        away(pilot)
        pilot.wait(1.0)
        pilot.turn(turn.notation)
    assert run_of(pilot).phase is Phase.OVER
    assert len(run_of(pilot).made) == turns
    assert run_of(pilot).seconds == pytest.approx(turns * 1.0)
    assert [made.at for made in run_of(pilot).made] == pytest.approx([1.0 + made for made in range(turns)])
    assert on_disk(tmp_path)[-1].seconds == pytest.approx(turns * 1.0)


@AWAY
def test_the_time_of_a_scene_goes_on_where_it_was(pupil: Pilot, away: Away) -> None:
    pupil.scene(Ask)
    pupil.wait(1.0)
    away(pupil)
    pupil.wait(1.0)
    assert pupil.session.lesson is not None
    assert pupil.now - pupil.session.lesson.began == pytest.approx(2.0)


@AWAY
def test_the_times_of_a_whole_solve_go_on_where_they_were(pilot: Pilot, away: Away) -> None:
    pilot.press("open:SOLVE")
    pilot.press("act:SCRAMBLE")
    pilot.settle()
    for turn in ("R", "U"):
        pilot.wait(1.0)
        pilot.turn(turn)
        away(pilot)
    pilot.wait(1.0)
    pilot.turn("F")
    solve = pilot.session.solve
    assert solve is not None
    assert [time - solve.began for time in solve.times] == pytest.approx([1.0, 2.0, 3.0])


def test_a_run_that_begins_under_a_sheet_counts_from_when_it_is_seen(solver: Solver, tmp_path: Path) -> None:
    pilot = sits_down(solver, tmp_path)
    pilot.press(f"try:FR:0:WITH_HINTS:{CASES[0].slug}")
    # The answer that it waits for comes while the keys are being read.
    assert run_of(pilot).phase is Phase.WAITING
    reads_keys(pilot)
    answer = pilot.session.answers.at(run_of(pilot).attempt.bearing())
    assert answer is not None
    pilot.wait(1.0)
    for turn in answer.lines[0]:
        pilot.turn(turn.notation)
    assert run_of(pilot).seconds == pytest.approx(1.0)


def test_a_case_watched_takes_no_longer_for_a_sheet_over_it(solver: Solver, tmp_path: Path) -> None:
    pilot = sits_down(solver, tmp_path)
    pilot.press(f"try:FR:0:WATCH:{CASES[0].slug}")
    pilot.settle()
    assert run_of(pilot).phase is Phase.SHOWING
    reads_keys(pilot)
    pilot.wait(60.0)
    pilot.key("enter")
    assert run_of(pilot).phase is Phase.OVER
    assert run_of(pilot).seconds == pytest.approx(60.0)
