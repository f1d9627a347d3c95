"""A run, a scene and a whole solve take the time a learner could use: no sheet, no other screen, no wait."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from msgspec.structs import replace

from tests.screens.practice.sitting import begin, on_disk, practised_before, run_of, sits_down
from tests.session.held import held
from tests.session.pilot import Pilot
from tutor.cube.faces import Turn
from tutor.lesson.scenes import Alone, Ask, Lesson
from tutor.method.answer import answer
from tutor.method.cases import CASES
from tutor.screens.lesson.state import LESSON
from tutor.screens.practice.clock import tick_due
from tutor.screens.practice.state import PRACTICE, RUN, RunPhase
from tutor.screens.solve.state import SOLVE
from tutor.session.commands import Act, Make
from tutor.solver.search import Solver
from tutor.workers.recorder import Recorder

ELSEWHERE = 500.0


def reads_keys(pilot: Pilot) -> None:
    pilot.key("f1")
    pilot.wait(ELSEWHERE)
    pilot.key("escape")


def reads_words_and_then_settings(pilot: Pilot) -> None:
    back = pilot.session.screen.upper().replace(" ", "_")
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
    assert run_of(pilot).phase is RunPhase.OVER
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
    assert LESSON.of(pupil.session) is not None
    assert pupil.now - held(LESSON.of(pupil.session)).began == pytest.approx(2.0)


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
    solve = SOLVE.of(pilot.session)
    assert solve is not None
    assert [time - solve.began for time in solve.times] == pytest.approx([1.0, 2.0, 3.0])


def test_a_run_that_begins_under_a_sheet_counts_from_when_it_is_seen(solver: Solver, tmp_path: Path) -> None:
    pilot = sits_down(solver, tmp_path)
    pilot.press(f"try:FR:0:WITH_HINTS:{CASES[0].slug}")
    # The answer that it waits for comes while the keys are being read.
    assert run_of(pilot).phase is RunPhase.WAITING
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
    assert run_of(pilot).phase is RunPhase.SHOWING
    reads_keys(pilot)
    pilot.wait(60.0)
    pilot.key("enter")
    assert run_of(pilot).phase is RunPhase.OVER
    assert run_of(pilot).seconds == pytest.approx(60.0)


# ------------------------------------------------------------------------------- waiting for the solver


def goes_home_before_it_is_judged(pilot: Pilot) -> None:
    """A shortest line in one go, faster than the solver judges it."""
    known = pilot.session.answers.at(run_of(pilot).attempt.bearing())
    assert known is not None
    for turn in known.lines[0]:
        pilot.application.give(Make(turn))
    assert run_of(pilot).phase is RunPhase.TURNING


def begins(solver: Solver, folder: Path, help: str = "WITH_HINTS") -> Pilot:
    pilot = sits_down(solver, folder)
    pilot.press(f"try:FR:0:{help}:{CASES[0].slug}")
    pilot.wait(30.0)
    return pilot


def test_a_run_ends_with_its_last_turn_however_late_that_is_judged(solver: Solver, tmp_path: Path) -> None:
    pilot = begins(solver, tmp_path)
    pilot.wait(5.0)
    goes_home_before_it_is_judged(pilot)
    pilot.wait(30.0)
    assert run_of(pilot).finished
    assert run_of(pilot).seconds == pytest.approx(5.0)
    assert on_disk(tmp_path)[-1].seconds == pytest.approx(5.0)


def test_a_last_turn_taken_back_and_made_again_ends_the_run_when_it_is_made_again(
    solver: Solver, tmp_path: Path
) -> None:
    pilot = begins(solver, tmp_path)
    goes_home_before_it_is_judged(pilot)
    pilot.now += 2.0
    pilot.application.give(Act.UNDO)
    pilot.now += 2.0
    pilot.application.give(Act.REDO)
    pilot.wait(30.0)
    assert run_of(pilot).seconds == pytest.approx(4.0)


def test_a_turn_made_after_the_last_one_counts_as_long_as_nothing_is_judged(
    solver: Solver, tmp_path: Path
) -> None:
    pilot = begins(solver, tmp_path)
    goes_home_before_it_is_judged(pilot)
    pilot.now += 3.0
    pilot.application.give(Make(Turn.U))
    pilot.wait(30.0)
    assert run_of(pilot).finished
    assert run_of(pilot).seconds == run_of(pilot).made[-1].at == pytest.approx(3.0)


def test_a_case_watched_begins_when_it_is_shown(solver: Solver, tmp_path: Path) -> None:
    pilot = begins(solver, tmp_path, "WATCH")
    assert run_of(pilot).phase is RunPhase.SHOWING
    pilot.wait(200.0)
    pilot.key("enter")
    assert run_of(pilot).seconds == pytest.approx(200.0)


def test_the_sitting_leaves_out_what_the_learner_waited_for(solver: Solver, tmp_path: Path) -> None:
    pilot = begins(solver, tmp_path)
    pilot.wait(5.0)
    goes_home_before_it_is_judged(pilot)
    pilot.wait(30.0)
    sitting = PRACTICE.of(pilot.session).sitting
    assert sitting is not None
    assert sitting.spent == pytest.approx(5.0)
    assert sitting.last == pilot.now


def test_the_metronome_is_silent_once_the_pair_is_home(solver: Solver, tmp_path: Path) -> None:
    practised_before(tmp_path)
    pilot = sits_down(solver, tmp_path)
    begin(pilot, "practise:STEADY:")
    goes_home_before_it_is_judged(pilot)
    assert RUN.of(pilot.session) is not None
    assert not tick_due(pilot.session, pilot.now + 60.0)
    turning = replace(held(RUN.of(pilot.session)), solved=None)
    assert tick_due(RUN.put(pilot.session, turning), pilot.now + 60.0)


def test_a_case_done_alone_in_a_lesson_ends_with_its_last_turn(
    solver: Solver, made_pair: Lesson, tmp_path: Path
) -> None:
    pupil = Pilot(solver, {made_pair.name: made_pair}, keeper=Recorder(tmp_path))
    index = next(at for at, scene in enumerate(made_pair.scenes) if isinstance(scene, Alone))
    pupil.press(f"lesson:{index}:0:{made_pair.name}")
    assert LESSON.of(pupil.session) is not None
    bearing = held(LESSON.of(pupil.session)).attempt.bearing()
    assert bearing is not None
    pupil.now += 5.0
    for turn in answer(solver, bearing.position, bearing.task).lines[0]:
        pupil.application.give(Make(turn))
    assert held(LESSON.of(pupil.session)).solved
    # Only now does the first answer come, without which nothing can be kept.
    assert on_disk(tmp_path) == ()
    pupil.wait(30.0)
    (kept,) = on_disk(tmp_path)
    assert kept.seconds == pytest.approx(5.0)
