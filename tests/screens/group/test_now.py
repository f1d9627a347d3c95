"""Two windows on a shared folder, each the real application: one sees what the other is at."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import NoReturn

import pytest

from tests.progress.conftest import AttemptMaker
from tests.screens.practice.sitting import finish, run_of, sits_down
from tests.session.held import held
from tests.session.pilot import EPOCH, Pilot, Reading
from tutor.coach.guidance import Help
from tutor.method.cases import CASES
from tutor.method.terms import Step, Verdict
from tutor.progress.attempt import GUEST
from tutor.progress.presence import At, Engaged, Live, Need, Presence, live, missed_step
from tutor.progress.presence_files import ENDING, PresenceFiles
from tutor.progress.results import results_of
from tutor.progress.store import AttemptStore
from tutor.screens.group import words
from tutor.screens.group.now import now_at_work
from tutor.screens.group.state import REPORT
from tutor.screens.learners import words as learners_words
from tutor.screens.practice.commands import TryCase
from tutor.session.making import so_far
from tutor.session.record_commands import ChooseLearner
from tutor.solver.search import Solver
from tutor.ui.view import Table, Text, VerdictNote
from tutor.workers.recorder import Recorder
from tutor.workers.sharing import Sharing

CASE = CASES[13]


def window(solver: Solver, folder: Path, name: str) -> Pilot:
    """A window of a machine of its own, on the shared folder, at Home."""
    pilot = sits_down(solver, folder / name)

    def wall() -> float:
        return EPOCH + pilot.now

    recorder = pilot.application.services.keeper
    assert isinstance(recorder, Recorder)
    sharing = Sharing(folder / "shared", lambda: recorder.store, wall, lambda: pilot.now)
    pilot.rewire(sharing=sharing)
    return pilot


class Evening:
    """A teacher's window and Ode's, with one clock."""

    def __init__(self, solver: Solver, folder: Path) -> None:
        (folder / "shared").mkdir()
        with AttemptStore.open(folder / "hers") as store:
            store.add_learner("Ode")
        self.teacher, self.learner = window(solver, folder, "his"), window(solver, folder, "hers")
        self.learner.application.give(ChooseLearner("Ode"))
        self.learner.settle()

    def wait(self, seconds: float) -> None:
        self.teacher.now = max(self.teacher.now, self.learner.now) + seconds
        for each in (self.learner, self.teacher):
            each.now = self.teacher.now
            each.settle()

    @property
    def sees(self) -> list[tuple[str, str]]:
        """The live view of the teacher's window: who, with what is said of them, and what they are at."""
        blocks = now_at_work(self.teacher.session)
        notes = [(block.title, block.text) for block in blocks if isinstance(block, VerdictNote)]
        rows = [row for block in blocks if isinstance(block, Table) for row in block.rows]
        return [*notes, *((f"{who}: {how}", at) for who, at, how in rows)]

    def close(self) -> None:
        for each in (self.learner, self.teacher):
            assert each.application.services.sharing is not None
            each.application.services.sharing.close()
            each.application.close()


@pytest.fixture
def evening(solver: Solver, tmp_path: Path) -> Iterator[Evening]:
    found = Evening(solver, tmp_path)
    found.wait(3.0)
    yield found
    found.close()


def test_a_case_stuck_in_comes_first_and_a_case_solved_waits(evening: Evening) -> None:
    case = f"Case {CASE.number}: {CASE.short_name()}"
    assert evening.sees == [("Ode: Just begun", "At no task")]
    evening.learner.application.give(TryCase(CASE.slug, help=Help.ALONE))
    evening.wait(3.0)
    assert evening.sees == [("Ode: Just begun", case)]
    evening.wait(119.0)
    evening.wait(3.0)
    assert evening.sees == [("Ode has been stuck for two minutes", case)]
    evening.wait(60.0)
    assert evening.sees == [("Ode has been stuck for three minutes", case)]


def test_three_detours_in_one_step_are_told_with_the_step_though_each_was_undone(evening: Evening) -> None:
    learner = evening.learner
    learner.application.give(TryCase(CASE.slug, help=Help.WITH_HINTS))
    learner.settle()
    run = run_of(learner)
    answer = learner.session.answers.at(run.attempt.bearing())
    assert answer is not None
    verdicts = {each.turn: each.verdict for each in answer.continuations}
    # A detour at once: a turn that may still become a good one costs nothing while it is undone.
    astray = next(
        turn
        for turn in verdicts
        if verdicts[turn] is Verdict.DETOUR and so_far(turn, verdicts.__getitem__) is None
    )
    for times in (1, 2, 3):
        learner.turn(astray.notation)
        learner.key("backspace")
        evening.wait(3.0)
        step = answer.step.value.capitalize()
        assert evening.sees[0][0] == (
            "Ode: Just begun" if times < 3 else f"Ode lost turns in {step} three times"
        )


def test_a_solved_pair_reaches_the_other_machine_with_its_learner(evening: Evening) -> None:
    evening.teacher.press("open:GROUP")
    evening.teacher.settle()
    # The name alone is known there, from the machine at which it was added.
    assert [each.attempts for each in held(REPORT.of(evening.teacher.session)).members] == [0]
    evening.learner.application.give(TryCase(CASE.slug, help=Help.ALONE))
    finish(evening.learner)
    evening.wait(3.0)
    evening.wait(3.0)
    assert "Ode" in evening.teacher.session.records.learners
    assert [each.learner for each in held(REPORT.of(evening.teacher.session)).members] == ["Ode"]
    assert evening.sees[0][0] == "Ode: Done"
    evening.wait(60.0)
    assert evening.sees[0][0] == "Ode: Done, and waits"


def test_the_folder_gone_is_said_at_the_foot_and_that_it_is_back(evening: Evening, tmp_path: Path) -> None:
    shared, away = tmp_path / "shared", tmp_path / "away"
    shared.rename(away)
    evening.wait(3.0)
    notice = evening.teacher.session.notice
    assert notice.startswith(
        f"The program cannot use the shared folder {shared} (No such file or directory)."
    )
    assert evening.sees == []
    away.rename(shared)
    evening.wait(3.0)
    assert evening.teacher.session.notice == (
        f"The shared folder {shared} is back. Everything done meanwhile is there now."
    )
    assert len(evening.sees) == 1


def test_a_progress_file_that_cannot_be_read_is_told_and_hides_nobody(
    evening: Evening, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(_store: AttemptStore) -> NoReturn:
        raise sqlite3.OperationalError("disk I/O error")

    with monkeypatch.context() as patched:
        patched.setattr(AttemptStore, "mark", broken)
        evening.wait(3.0)
        assert (
            "(the program cannot read your progress: disk I/O error). It tries again."
            in evening.teacher.session.notice
        )
        assert len(evening.sees) == 1
        sharing = evening.learner.application.services.sharing
        assert sharing is not None
        # Ends without an exception, and leaves nobody behind.
        sharing.close()
    evening.teacher.wait(3.0)
    assert evening.sees == []
    assert "is back" not in evening.teacher.session.notice


def test_of_the_guest_nothing_is_told(evening: Evening, tmp_path: Path) -> None:
    def told() -> list[str]:
        files = (tmp_path / "shared").glob(f"*{ENDING}")
        return [json.loads(file.read_text())["learner"] for file in files]

    assert told() == ["Ode"]
    evening.learner.application.give(ChooseLearner(GUEST))
    evening.wait(3.0)
    assert told() == []


def test_a_lesson_with_any_title_that_can_be_shown_is_told(evening: Evening, tmp_path: Path) -> None:
    """French puts a no-break space before a question mark (common practice)."""
    engaged = Engaged(At.LESSON, 0, "Deux pièces\u00a0?", 1, 4)
    files = PresenceFiles(tmp_path / "shared")
    files.tell(Presence("Wen", engaged, datetime.fromtimestamp(EPOCH, UTC)), 0.0)
    evening.wait(3.0)
    assert ("Wen: Just begun", "Deux pièces\u00a0?: scene 1 of 4") in evening.sees


@pytest.mark.parametrize("content", [b"", b"null", b'{"learner":"a","engaged":{"x":' + b"[" * 4000, b"\xff"])
def test_an_odd_file_in_the_folder_hides_nobody(evening: Evening, tmp_path: Path, content: bytes) -> None:
    (tmp_path / "shared" / f"pairwright-odd{ENDING}").write_bytes(content)
    evening.wait(3.0)
    assert len(evening.sees) == 1


def test_a_case_begun_again_at_once_begins_its_time_anew(evening: Evening) -> None:
    evening.learner.application.give(TryCase(CASE.slug, help=Help.ALONE))
    evening.wait(100.0)
    finish(evening.learner)
    evening.learner.application.give(TryCase(CASE.slug, help=Help.ALONE))
    evening.wait(40.0)
    assert evening.sees[0][0] == "Ode: Just begun"


def test_a_clock_that_differs_counts_nobody_as_gone(evening: Evening, tmp_path: Path) -> None:
    """The other machine's clock is 45 minutes behind, and it comes when this window has looked already."""
    late = datetime.fromtimestamp(EPOCH + evening.teacher.now - 2700, UTC)
    PresenceFiles(tmp_path / "shared").tell(Presence("Wen", Engaged(At.FREE_PLAY), late), 0.0)
    evening.wait(3.0)
    assert ("Wen: Just begun", "Free play") in evening.sees


def test_who_types_a_name_reads_where_it_goes(evening: Evening) -> None:
    evening.teacher.press("open:LEARNERS")
    assert learners_words.FIRST_NAME_SHARED in Reading(evening.teacher.view).texts
    assert learners_words.FIRST_NAME not in Reading(evening.teacher.view).texts


def test_whoever_closes_the_window_is_no_longer_there(evening: Evening) -> None:
    sharing = evening.learner.application.services.sharing
    assert sharing is not None
    sharing.close()
    evening.teacher.wait(3.0)
    (text, _) = (block for block in now_at_work(evening.teacher.session)[1:] if isinstance(block, Text))
    assert text.text == words.NOBODY_ELSE


NOW = datetime(2026, 11, 29, 18, 0, tzinfo=UTC)


def told(learner: str, engaged: Engaged, **other: object) -> Presence:
    return Presence(learner, engaged, NOW, **other)  # type: ignore[arg-type]


def test_those_who_need_somebody_come_first_the_longest_first() -> None:
    case, lesson = Engaged(At.CASE, 14), Engaged(At.LESSON, 3, "Part the two", 4, 9)
    seen = live(
        (
            told("Bea", case, since=30.0),
            told("Sunna", Engaged(At.CASE, 8, over=True), idle=61.0),
            told("Ravi", lesson, since=119.9),
            told("Lian", lesson, since=121.0, idle=100.0),
            told("Wen", case, since=400.0),
            told("Mirek", case, since=10.0, missed=Step.PART, times=3),
            told("Ilva", Engaged(At.FREE_PLAY), since=900.0, idle=301.0),
            told("Piet", case, since=4000.0, idle=1801.0),
        )
    )
    assert [(each.learner, each.need, each.minutes) for each in seen] == [
        ("Mirek", Need.MISSED, 0),
        ("Wen", Need.STUCK, 6),
        ("Lian", Need.STUCK, 2),
        ("Sunna", Need.WAITING, 1),
        ("Ilva", Need.QUIET, 5),
        ("Ravi", Need.NONE, 1),
        ("Bea", Need.NONE, 0),
    ]
    assert seen[0] == Live("Mirek", case, Need.MISSED, 0, Step.PART, 3)


def test_of_a_learner_with_two_windows_the_one_used_last_counts() -> None:
    """The first was killed, and goes on telling what it told last."""
    killed = told("Ode", Engaged(At.CASE, 14), since=300.0, idle=290.0)
    again = told("ode", Engaged(At.CASE, 3), since=20.0, idle=1.0)
    assert [(each.learner, each.need) for each in live((again, killed))] == [("ode", Need.NONE)]


def test_a_step_missed_in_three_tries_or_three_times_now_is_counted() -> None:
    attempt = AttemptMaker()
    tries = [attempt.detour(time=NOW - timedelta(minutes=minutes)) for minutes in (3, 2, 1)]
    assert missed_step(results_of(tries), {}, NOW) == (Step.JOIN, 3)
    assert missed_step(results_of(tries[:2]), {Step.JOIN: 1, Step.PART: 1}, NOW) == (Step.JOIN, 3)
    assert missed_step(results_of(tries), {}, NOW + timedelta(hours=1)) == (None, 0)
    assert missed_step(results_of(()), {Step.PART: 4}, NOW) == (Step.PART, 4)


def test_tries_by_a_clock_that_ran_ahead_are_not_the_last_ones() -> None:
    attempt = AttemptMaker()
    ahead = [attempt.detour(time=NOW + timedelta(days=days)) for days in (700, 701, 702)]
    of_late = [attempt(time=NOW - timedelta(minutes=2)), attempt.detour(time=NOW)]
    assert missed_step(results_of(ahead), {}, NOW) == (None, 0)
    assert missed_step(results_of([*ahead, *of_late]), {}, NOW) == (Step.JOIN, 1)
