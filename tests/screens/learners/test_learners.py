"""Who learns is chosen at Home, and each has a standing of their own."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.screens.practice.sitting import begin, finish, on_disk, practised_before, sits_down, texts
from tests.session.pilot import Pilot, Reading
from tutor.progress.attempt import GUEST
from tutor.screens.practice.state import PRACTICE, RUN
from tutor.session.commands import Open
from tutor.session.record_commands import LearnerRefused, OpenRecords, RecordsCommand, RecordsEffect
from tutor.solver.search import Solver
from tutor.ui.view import Entry
from tutor.workers.recorder import Recorder


@pytest.fixture
def pilot(solver: Solver, tmp_path: Path) -> Pilot:
    return sits_down(solver, tmp_path)


def field(pilot: Pilot) -> Entry:
    return next(block for column in pilot.view.page for block in column if isinstance(block, Entry))


def add(pilot: Pilot, name: str) -> None:
    pilot.press("open:LEARNERS")
    pilot.write(name)
    pilot.key("enter")
    pilot.settle()


def test_one_learner_is_told_in_a_line_and_several_are_asked_for(pilot: Pilot) -> None:
    assert f"Learner: {GUEST}" in texts(pilot)
    pilot.press(Reading(pilot.view).button("Choose another learner").action)
    pilot.write("Tova")
    pilot.key("enter")
    pilot.settle()
    assert pilot.session.records.learner == "Tova"
    pilot.press("open:HOME")
    assert "Who is learning?" in texts(pilot)
    assert Reading(pilot.view).button("Tova").selected
    ways = [Reading(pilot.view).button("Choose another learner").action]
    pilot.press("open:PRACTICE")
    ways.append(Reading(pilot.view).button("Choose another learner").action)
    assert ways == [Open("learners")] * 2
    pilot.press("open:HOME")
    pilot.press(Reading(pilot.view).button(GUEST).action)
    pilot.settle()
    assert pilot.session.records.learner == GUEST
    assert pilot.session.settings.learner == GUEST


def test_several_names_are_typed_one_after_the_other(pilot: Pilot) -> None:
    pilot.press("open:LEARNERS")
    for name in ("Tova", "Imre", "Sanna"):
        pilot.write(name)
        pilot.key("enter")
        pilot.settle()
        assert (pilot.view.screen, pilot.session.records.learner) == ("learners", name)
        assert (field(pilot).text, field(pilot).focused) == ("", True)
        assert Reading(pilot.view).button(name).selected
    assert pilot.session.records.learners == (GUEST, "Imre", "Sanna", "Tova")
    pilot.press(next(button.action for button in pilot.view.bar if button.label == "Home"))
    assert (pilot.view.screen, pilot.session.notice) == ("home", "")


@pytest.mark.parametrize("name", ["=Tova", "", "   ", "x" * 41])
def test_a_name_that_is_none_is_told_at_the_field_and_can_be_mended(pilot: Pilot, name: str) -> None:
    add(pilot, name)
    assert pilot.view.screen == "learners"
    assert field(pilot).error
    for _ in range(len(name)):
        pilot.key("backspace")
    pilot.write("Imre")
    pilot.key("enter")
    pilot.settle()
    assert pilot.session.records.learner == "Imre"


def test_a_name_that_is_known_already_is_told_and_that_learner_sits_here(pilot: Pilot) -> None:
    add(pilot, "Tova")
    assert pilot.session.notice == "Tova is learning now. Type another name, or go to Home."
    add(pilot, "tova")
    assert (pilot.view.screen, pilot.session.records.learner) == ("learners", "Tova")
    assert pilot.session.notice == "Tova is already learning here."
    add(pilot, GUEST)
    assert pilot.session.records.learner == GUEST
    assert pilot.session.notice == f"{GUEST} was here before. Now {GUEST} is learning."
    assert sorted(pilot.session.records.learners) == sorted({GUEST, "Tova"})


def test_a_name_is_typed_with_letters_that_turn_nothing_elsewhere(pilot: Pilot) -> None:
    pilot.press("open:LEARNERS")
    for key in ("r", "u", "2", "space"):
        pilot.key(key)
    pilot.write("Ru 2")
    assert field(pilot).text == "Ru 2"
    pilot.press("open:FREE_PLAY")
    pilot.key("slash")
    assert pilot.session.writing.text == ""


def test_where_a_learner_cannot_be_written_it_is_told_at_the_field(solver: Solver, tmp_path: Path) -> None:
    class Full:
        """A recorder whose disk has no room for another name."""

        def __init__(self, recorder: Recorder) -> None:
            self.recorder = recorder

        def carry_out(self, effect: RecordsEffect) -> RecordsCommand:
            if isinstance(effect, OpenRecords) and effect.new:
                return LearnerRefused(f"{effect.learner} could not be added: the disk is full.")
            return self.recorder.carry_out(effect)

        def close(self) -> tuple[str, ...]:
            return self.recorder.close()

    pilot = sits_down(solver, tmp_path, Full)
    add(pilot, "Tova")
    assert pilot.view.screen == "learners"
    assert "could not be added" in field(pilot).error
    assert pilot.session.records.learner == GUEST


def test_what_one_has_practised_is_not_the_others(solver: Solver, tmp_path: Path) -> None:
    practised_before(tmp_path)
    pilot = sits_down(solver, tmp_path)
    begin(pilot, "practise:SLIPPING:")
    finish(pilot)
    add(pilot, "Sanna")
    assert RUN.of(pilot.session) is None
    assert PRACTICE.of(pilot.session).sitting is None
    pilot.press("open:PRACTICE")
    assert "You start with the first case of the lessons." in texts(pilot)
    begin(pilot)
    finish(pilot)
    assert {attempt.learner for attempt in on_disk(tmp_path)} == {GUEST, "Sanna"}


def test_enter_on_another_button_presses_that_and_adds_nobody(pilot: Pilot) -> None:
    add(pilot, "Tova")
    pilot.press("open:LEARNERS")
    pilot.write("Imre")
    pilot.key("tab")
    assert pilot.focus == f"learner:{GUEST}"
    pilot.key("enter")
    pilot.settle()
    assert pilot.session.records.learner == GUEST
    assert "Imre" not in pilot.session.records.learners
