"""Attempts on their way to the store, through the real application and a real file."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from tests.session.held import held
from tests.session.pilot import EPOCH, Pilot, Reading
from tutor.app.services import Keeper
from tutor.coach.guidance import Help
from tutor.cube.notation import format_moves
from tutor.cube.position import SLOTS, Slot
from tutor.lesson.scenes import Alone, Lesson
from tutor.method.cases import CASES
from tutor.method.continuations import Verdict
from tutor.progress.attempt import GUEST, AttemptRecord, Mode, Outcome
from tutor.progress.store import AttemptStore
from tutor.progress.study import guidance_of, load_study
from tutor.screens.lesson.state import LESSON
from tutor.screens.practice.commands import PracticeAct, TryCase
from tutor.screens.practice.keeping import of_run
from tutor.screens.practice.state import RUN, CaseRun, RunPhase
from tutor.session.commands import Act
from tutor.session.record_commands import ChooseLearner, OpenRecords, Record, RecordsCommand, RecordsEffect
from tutor.solver.search import Solver
from tutor.workers.recorder import Recorder

CASE = CASES[0]


@pytest.fixture
def learner(solver: Solver, tmp_path: Path) -> Iterator[Pilot]:
    """A pilot whose attempts are kept in a folder of its own."""
    pilot = Pilot(solver, keeper=Recorder(tmp_path))
    assert pilot.view.stage is None  # the first frame; the records are read after it
    pilot.settle()
    yield pilot
    pilot.application.close()


def start(pilot: Pilot, help: Help = Help.WITH_HINTS, slot: Slot = Slot.FR) -> None:
    pilot.application.give(TryCase(CASE.slug, slot, 0, help))
    pilot.wait(60.0)


def run_of(pilot: Pilot) -> CaseRun:
    run = RUN.of(pilot.session)
    assert run is not None
    return run


def finish(pilot: Pilot) -> None:
    """Home along a shortest line, once what is shown first was seen."""
    if run_of(pilot).phase is RunPhase.SHOWING:
        pilot.key("enter")
        pilot.settle()
    bearing = run_of(pilot).attempt.bearing()
    known = pilot.session.answers.at(bearing)
    assert known is not None
    pilot.turn(format_moves(known.lines[0]))
    assert run_of(pilot).finished


def on_disk(folder: Path) -> tuple[AttemptRecord, ...]:
    with AttemptStore.open(folder) as store:
        return store.attempts()


def test_a_finished_run_is_on_the_disk_with_all_that_was_done(learner: Pilot, tmp_path: Path) -> None:
    start(learner, slot=Slot.BL)
    learner.wait(2.0)
    learner.key("h")
    learner.wait(1.0)
    learner.turn("D")
    learner.key("backspace")
    learner.wait(3.0)
    shortest = learner.session.answers.at(run_of(learner).attempt.bearing())
    assert shortest is not None
    finish(learner)
    (kept,) = on_disk(tmp_path)
    assert (kept.learner, kept.case, kept.slot, kept.mode) == (GUEST, CASE.slug, Slot.BL, Mode.SINGLE)
    assert (kept.outcome, kept.turns_used) == (Outcome.SOLVED, shortest.by_hand)
    assert (kept.by_hand, kept.at_all) == (shortest.by_hand, shortest.distance)
    assert kept.route == len(shortest.routes[0].turns)
    assert kept.keep == frozenset(SLOTS) - {Slot.BL}
    assert [hint.rung for hint in kept.hints] == [1]
    assert kept.hints[0].at == pytest.approx(2.0)
    assert kept.first_turn == pytest.approx(3.0)
    assert len(kept.turns) == 1 + shortest.to_go
    assert kept.turns[0].verdict is Verdict.DETOUR
    assert {turn.verdict for turn in kept.turns[1:]} == {Verdict.OPTIMAL}
    assert kept.time == datetime.fromtimestamp(EPOCH + learner.now, UTC)


def test_what_was_given_up_or_watched_is_kept_as_such(learner: Pilot, tmp_path: Path) -> None:
    start(learner)
    learner.turn("D")
    learner.application.give(PracticeAct.GIVE_UP)
    start(learner, Help.WATCH)
    learner.wait(120.0)
    learner.key("enter")
    learner.settle()
    assert [kept.outcome for kept in on_disk(tmp_path)] == [Outcome.GIVEN_UP, Outcome.WATCHED]


def test_a_case_that_is_not_watched_to_its_end_does_not_count(learner: Pilot, tmp_path: Path) -> None:
    start(learner, Help.WATCH)
    learner.wait(1.0)
    learner.key("enter")
    learner.settle()
    assert on_disk(tmp_path) == ()
    assert CASE.slug not in dict(learner.session.guidance)
    assert any("does not count as watched" in text for text in Reading(learner.view).texts)


def test_the_same_case_asked_for_at_once_after_a_try_is_taken_back_has_the_help_it_had(
    learner: Pilot,
) -> None:
    start(learner, Help.WATCH)
    learner.wait(60.0)
    learner.key("enter")
    learner.settle()
    guided = dict(learner.session.guidance)
    start(learner, Help.LAST_TURN)
    finish(learner)
    assert dict(learner.session.guidance) != guided
    learner.application.give(PracticeAct.UNCOUNT)
    learner.application.give(PracticeAct.SAME_CASE)
    learner.settle()
    assert dict(learner.session.guidance) == guided
    assert RUN.of(learner.session) is not None
    assert held(RUN.of(learner.session)).help is Help.WITH_HINTS


def test_a_run_that_is_left_is_no_attempt(learner: Pilot, tmp_path: Path) -> None:
    start(learner)
    learner.turn("D")
    learner.press("open:HOME")
    learner.settle()
    assert on_disk(tmp_path) == ()


def test_to_ask_for_verdicts_when_alone_counts_as_help(learner: Pilot, tmp_path: Path) -> None:
    start(learner, Help.ALONE)
    learner.application.give(Act.REVEAL)
    finish(learner)
    (kept,) = on_disk(tmp_path)
    assert kept.deepest_hint == 1
    assert not dict(learner.session.guidance)[CASE.slug].known


def test_an_attempt_taken_back_leaves_card_and_guidance_as_they_were(learner: Pilot, tmp_path: Path) -> None:
    start(learner)
    finish(learner)
    before = learner.session.records.study
    guided = dict(learner.session.guidance)
    assert before is not None
    start(learner)
    learner.turn("D")
    learner.application.give(PracticeAct.GIVE_UP)
    learner.settle()
    assert learner.session.records.study is not None
    assert learner.session.records.study.cards != before.cards
    learner.application.give(PracticeAct.UNCOUNT)
    learner.settle()
    after = learner.session.records.study
    assert after is not None
    assert after.cards == before.cards
    assert dict(learner.session.guidance) == guided
    assert len(on_disk(tmp_path)) == 1


def test_the_guidance_is_there_again_when_the_program_starts_anew(
    learner: Pilot, solver: Solver, tmp_path: Path
) -> None:
    start(learner, Help.WATCH)
    learner.wait(60.0)
    learner.key("enter")
    learner.settle()
    start(learner, Help.LAST_TURN)
    finish(learner)
    had = dict(learner.session.guidance)[CASE.slug]
    again = Pilot(solver, keeper=Recorder(tmp_path))
    assert again.view.stage is None
    again.settle()
    assert dict(again.session.guidance)[CASE.slug] == had
    assert had.help is Help.ALONE


def test_every_learner_has_a_standing_of_their_own(learner: Pilot, tmp_path: Path) -> None:
    start(learner)
    finish(learner)
    learner.application.give(ChooseLearner("Ilva"))
    learner.settle()
    records = learner.session.records
    assert (records.learner, records.study is None or len(records.study.results)) == ("Ilva", 0)
    assert learner.session.guidance == ()
    assert learner.session.settings.learner == "Ilva"
    start(learner)
    finish(learner)
    assert {kept.learner for kept in on_disk(tmp_path)} == {GUEST, "Ilva"}


def test_a_case_done_alone_in_a_lesson_is_kept(solver: Solver, made_pair: Lesson, tmp_path: Path) -> None:
    pupil = Pilot(solver, {made_pair.name: made_pair}, keeper=Recorder(tmp_path))
    scene = pupil.scene(Alone)
    assert isinstance(scene, Alone)
    pupil.wait(4.0)
    played = LESSON.of(pupil.session)
    assert played is not None
    known = pupil.session.answers.at(played.attempt.bearing())
    assert known is not None
    pupil.turn(format_moves(known.lines[0]))
    (kept,) = on_disk(tmp_path)
    assert (kept.mode, kept.outcome, kept.turns_used) == (Mode.LESSON, Outcome.SOLVED, known.distance)
    assert kept.first_turn == pytest.approx(4.0)


def test_a_half_turn_typed_as_a_quarter_and_2_is_kept_as_the_half_turn(
    solver: Solver, made_pair: Lesson, tmp_path: Path
) -> None:
    pupil = Pilot(solver, {made_pair.name: made_pair}, keeper=Recorder(tmp_path))
    index = next(
        index
        for index, scene in enumerate(made_pair.scenes)
        if isinstance(scene, Alone) and scene.task is not None and scene.task.slot is Slot.BL
    )
    pupil.press(f"lesson:{index}:0:made-pair")
    pupil.give_keys("l", "u", "2", "L")
    pupil.settle()
    (kept,) = on_disk(tmp_path)
    assert [turn.turn.notation for turn in kept.turns] == ["L", "U2", "L'"]
    assert {turn.verdict for turn in kept.turns} == {Verdict.OPTIMAL}


def test_a_half_turn_in_a_run_is_kept_once_even_after_turns_taken_back(
    learner: Pilot, tmp_path: Path
) -> None:
    start(learner)
    learner.give_keys("d", "2", "backspace", "d", "2", "2", "r", "backspace", "2", "backspace")
    finish(learner)
    (kept,) = on_disk(tmp_path)
    assert [turn.turn.notation for turn in kept.turns][:3] == ["D2", "D2", "R"]
    assert len(kept.turns) == 3 + kept.fewest


class Slow:
    """A keeper that answers only when it is let; its answers come one after the other."""

    def __init__(self, keeper: Keeper) -> None:
        self.keeper = keeper
        self.asked: list[RecordsEffect] = []

    def carry_out(self, effect: RecordsEffect) -> RecordsCommand:
        self.asked.append(effect)
        return self.keeper.carry_out(effect)

    def close(self) -> tuple[str, ...]:
        return self.keeper.close()


def test_each_attempt_is_handed_over_once_under_a_number_of_its_own(solver: Solver, tmp_path: Path) -> None:
    slow = Slow(Recorder(tmp_path))
    pilot = Pilot(solver, keeper=slow)
    for _ in range(3):
        start(pilot)
        finish(pilot)
        pilot.wait(5.0)
    handed = [effect.attempt.uuid for effect in slow.asked if isinstance(effect, Record)]
    assert len(handed) == len(set(handed)) == len(on_disk(tmp_path)) == 3


def test_a_store_that_cannot_be_written_is_told_and_the_session_goes_on(
    solver: Solver, tmp_path: Path
) -> None:
    (tmp_path / "file").write_text("no folder")
    pilot = Pilot(solver, keeper=Recorder(tmp_path / "file"))
    start(pilot)
    finish(pilot)
    assert run_of(pilot).filed in pilot.session.records.unsaved
    assert "not saved yet" in pilot.session.notice
    assert pilot.session.records.study is not None
    assert len(pilot.session.records.study.results) == 1


def test_a_file_from_a_newer_version_is_told_and_left_as_it_is(
    solver: Solver, tmp_path: Path, newer_file: Callable[[Path], bytes]
) -> None:
    content = newer_file(tmp_path)
    pilot = Pilot(solver, keeper=Recorder(tmp_path))
    start(pilot)
    finish(pilot)
    assert "newer version" in pilot.session.notice
    assert len(run_of(pilot).made) > 0
    pilot.application.close()
    assert next(tmp_path.glob("*.sqlite*")).read_bytes() == content


@pytest.fixture
def newer_file() -> Callable[[Path], bytes]:
    """Makes a store of a version that does not exist yet."""

    def make(folder: Path) -> bytes:
        import sqlite3

        AttemptStore.open(folder).close()
        path = next(folder.glob("*.sqlite*"))
        connection = sqlite3.connect(path)
        connection.execute("PRAGMA user_version = 999")
        connection.commit()
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        connection.close()
        return path.read_bytes()

    return make


def test_a_clock_set_back_while_the_program_runs_is_noticed(learner: Pilot) -> None:
    before = learner.session.records.epoch
    learner.rewire(wall=lambda: learner.now + EPOCH - 3600.0)
    learner.settle()
    assert learner.session.records.epoch == pytest.approx(before - 3600.0)


def test_the_guidance_made_again_is_that_of_the_session(learner: Pilot, tmp_path: Path) -> None:
    for help in (Help.WATCH, Help.LAST_TURN, Help.WITH_HINTS, Help.WITH_HINTS, Help.ALONE):
        start(learner, help)
        if help is Help.WATCH:
            learner.wait(60.0)
            learner.key("enter")
            learner.settle()
        else:
            finish(learner)
    with AttemptStore.open(tmp_path) as store:
        again = guidance_of(
            load_study(store, GUEST, datetime.fromtimestamp(EPOCH + learner.now, UTC)).results
        )
    assert again == dict(learner.session.guidance)


def test_opening_a_learner_who_is_not_there_yet_adds_no_one(tmp_path: Path) -> None:
    recorder = Recorder(tmp_path)
    recorder.carry_out(OpenRecords("Ravi"))
    recorder.close()
    with AttemptStore.open(tmp_path) as store:
        assert "Ravi" not in store.learners()


def test_an_attempt_is_kept_even_when_nothing_can_be_read(
    learner: Pilot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    start(learner)

    def fails(_store: AttemptStore, _learner: str) -> None:
        raise OSError("the disk does not answer")

    recorder = Recorder(tmp_path / "other")
    with monkeypatch.context() as broken:
        broken.setattr(AttemptStore, "attempts", fails)
        finish(learner)
        run = run_of(learner)
        known = learner.session.answers.at(run.attempt.bearing(0))
        assert known is not None
        attempt = of_run(learner.session, run, known, learner.now)
        with pytest.raises(OSError, match="does not answer"):
            recorder.carry_out(Record(attempt))
    recorder.close()
    assert [kept.uuid for kept in on_disk(tmp_path / "other")] == [attempt.uuid]


def test_records_of_one_who_has_left_seat_nobody(learner: Pilot) -> None:
    learner.application.give(ChooseLearner("Ilva"))
    learner.settle()
    start(learner)
    before = RUN.of(learner.session)
    answer = Recorder(learner.keeper._folder).carry_out(OpenRecords("Ravi"))  # type: ignore[union-attr]
    learner.application.give(answer)
    assert learner.session.records.learner == "Ilva"
    assert RUN.of(learner.session) is before
    assert "Ravi" in learner.session.records.learners


def test_time_spent_on_another_screen_is_no_time_of_the_run(learner: Pilot, tmp_path: Path) -> None:
    start(learner)
    learner.wait(2.0)
    learner.press("open:HOME")
    learner.wait(900.0)
    learner.press("open:PRACTICE")
    learner.wait(1.0)
    finish(learner)
    (kept,) = on_disk(tmp_path)
    assert kept.first_turn == pytest.approx(3.0)
    assert kept.seconds == pytest.approx(3.0)
