"""What practice leaves in the store, and what is said of it."""

from __future__ import annotations

from pathlib import Path

import pytest
from msgspec.structs import replace

from tests.screens.practice.sitting import (
    DAY,
    begin,
    finish,
    go_on,
    on_disk,
    practised_before,
    run_of,
    sits_down,
    texts,
)
from tests.session.held import held
from tests.session.pilot import Pilot, Reading, rail_of
from tutor.app.services import Keeper
from tutor.cube.notation import parse_moves
from tutor.progress.attempt import MOST_TURNS, Outcome
from tutor.progress.store import AttemptStore
from tutor.screens.practice.commands import PracticeAct
from tutor.screens.practice.state import PRACTICE, RUN, RunPhase
from tutor.session.record_commands import Propose, Proposed, Record, Recorded, RecordsCommand, RecordsEffect
from tutor.solver.search import Solver
from tutor.workers.recorder import Recorder


@pytest.fixture
def regular(solver: Solver, tmp_path: Path) -> Pilot:
    """Somebody who has practised six cases for ten days; all of them are back by the time of the pilot."""
    practised_before(tmp_path)
    return sits_down(solver, tmp_path)


class Slow:
    """A recorder that answers for what is to be kept only when it is told to."""

    def __init__(self, recorder: Recorder) -> None:
        self.recorder = recorder
        self.held: list[Record] = []

    def carry_out(self, effect: RecordsEffect) -> RecordsCommand:
        if isinstance(effect, Record):
            self.held.append(effect)
            return Proposed(-1, None)
        return self.recorder.carry_out(effect)

    def close(self) -> tuple[str, ...]:
        return self.recorder.close()


def test_saved_is_said_only_once_it_is_on_the_disk(solver: Solver, tmp_path: Path) -> None:
    made: list[Slow] = []

    def slow(recorder: Recorder) -> Keeper:
        made.append(Slow(recorder))
        return made[0]

    pilot = sits_down(solver, tmp_path, slow)
    begin(pilot)
    finish(pilot)
    assert "Saving …" in Reading(pilot.view).texts
    assert "Saved." not in Reading(pilot.view).texts
    kept = made[0].recorder.carry_out(made[0].held[0])
    assert isinstance(kept, Recorded)
    pilot.application.give(kept)
    assert "Saved." in Reading(pilot.view).texts
    assert len(on_disk(tmp_path)) == 1


def test_where_nothing_can_be_written_practice_goes_on_and_says_so(solver: Solver, tmp_path: Path) -> None:
    # A file stands where the folder should be, so that no disk can take the store.
    blocked = tmp_path / "in-the-way"
    blocked.write_text("not a folder")
    pilot = sits_down(solver, blocked)
    begin(pilot)
    seen = []
    for _ in range(3):
        seen.append(finish(pilot).counts_for.slug)
        assert "Saved." not in Reading(pilot.view).texts
        assert "Not saved yet." in texts(pilot)
        assert "not saved yet" in pilot.view.notice
        go_on(pilot)
    assert len(set(seen)) == 3


def test_a_try_that_is_not_to_count_leaves_card_guidance_and_sitting_as_they_were(
    regular: Pilot, tmp_path: Path
) -> None:
    regular.wait(60 * DAY)
    begin(regular)
    study = regular.session.records.study
    assert study is not None
    before, guidance = dict(study.cards), dict(regular.session.guidance)
    regular.settle()
    regular.turn("D")
    regular.press("practice:GIVE_UP")
    regular.settle()
    assert regular.session.records.study is not None
    assert dict(regular.session.records.study.cards) != before
    kept = len(on_disk(tmp_path))
    regular.press("act:TELL_MORE")
    regular.press(Reading(regular.view).button("Do not count this").action)
    regular.settle()
    assert "This try does not count. Nothing changes for this case." in texts(regular)
    assert dict(regular.session.records.study.cards) == before
    assert dict(regular.session.guidance) == guidance
    assert len(on_disk(tmp_path)) == kept - 1
    sitting = PRACTICE.of(regular.session).sitting
    assert sitting is not None
    assert sitting.attempts == 0


def test_two_windows_lose_nothing_and_each_sees_what_the_other_kept(solver: Solver, tmp_path: Path) -> None:
    one, other = sits_down(solver, tmp_path), sits_down(solver, tmp_path)
    for pilot in (one, other):
        begin(pilot)
    first, second = finish(one), finish(other)
    assert first.counts_for is second.counts_for
    assert len(on_disk(tmp_path)) == 2
    one.press("practice:END")
    begin(one)
    study = one.session.records.study
    assert study is not None
    assert len(study.results) == 2


def test_tiles_of_a_run_that_is_over_are_nothing_to_press(regular: Pilot) -> None:
    begin(regular, "practise:SLIPPING:")
    finish(regular)
    if not rail_of(regular).own:
        go_on(regular)
        finish(regular)
    assert rail_of(regular).own
    assert {tile.action for tile in rail_of(regular).own} == {None}


def test_leaving_while_the_next_case_is_being_chosen_leads_nowhere_else(
    solver: Solver, tmp_path: Path
) -> None:
    held: list[RecordsEffect] = []

    class Late:
        def __init__(self, recorder: Recorder) -> None:
            self.recorder = recorder

        def carry_out(self, effect: RecordsEffect) -> RecordsCommand:
            if isinstance(effect, Propose):
                held.append(effect)
                return Proposed(-1, None)
            return self.recorder.carry_out(effect)

        def close(self) -> tuple[str, ...]:
            return self.recorder.close()

    pilot = sits_down(solver, tmp_path, Late)
    begin(pilot)
    assert "Choosing a case …" in texts(pilot)
    pilot.press("open:HOME")
    recorder = Recorder(tmp_path)
    pilot.application.give(recorder.carry_out(held[0]))
    assert pilot.view.screen == "home"
    assert RUN.of(pilot.session) is None
    recorder.close()


def test_an_attempt_of_a_flash_or_a_lesson_moves_no_card(regular: Pilot, tmp_path: Path) -> None:
    begin(regular, "practise:GLANCE:")
    study = regular.session.records.study
    assert study is not None
    cards = dict(study.cards)
    regular.press("practice:GIVE_UP")
    regular.settle()
    assert regular.session.records.study is not None
    assert dict(regular.session.records.study.cards) == cards
    assert on_disk(tmp_path)[-1].outcome is Outcome.MISNAMED


def test_practice_commands_do_nothing_elsewhere(regular: Pilot) -> None:
    before = PRACTICE.of(regular.session)
    for act in PracticeAct:
        regular.application.give(act)
    assert PRACTICE.of(regular.session) is before
    assert regular.view.screen == "home"


def test_the_store_holds_every_try_of_a_sitting(regular: Pilot, tmp_path: Path) -> None:
    before = len(on_disk(tmp_path))
    begin(regular, "practise:SLIPPING:")
    for _ in range(5):
        finish(regular)
        go_on(regular)
    with AttemptStore.open(tmp_path) as store:
        assert len(store.attempts()) == before + 5


def test_a_try_longer_than_can_be_kept_ends_without_a_record_and_leaves_all_as_it_was(
    regular: Pilot, tmp_path: Path
) -> None:
    regular.wait(60 * DAY)
    begin(regular)
    finish(regular)
    go_on(regular)
    counted, guidance = PRACTICE.of(regular.session).sitting, dict(regular.session.guidance)
    kept, run = len(on_disk(tmp_path)), run_of(regular)
    history = run.attempt.history.extended(parse_moves("U D") * (MOST_TURNS // 2 + 1))
    long = replace(run, attempt=replace(run.attempt, history=history))
    regular.application.session = RUN.put(regular.session, long)
    regular.press("practice:GIVE_UP")
    regular.settle()
    assert run_of(regular).over
    told = "A try with more than 5,000 turns or hints is not kept, so this one does not count."
    assert regular.view.notice == told
    assert "This try does not count. Nothing changes for this case." in texts(regular)
    assert len(on_disk(tmp_path)) == kept
    assert dict(regular.session.guidance) == guidance
    assert held(PRACTICE.of(regular.session).sitting).attempts == held(counted).attempts == 1
    go_on(regular)
    assert run_of(regular).phase is not RunPhase.OVER
