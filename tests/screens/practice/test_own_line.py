"""In their own words: a line for a case, written at the end of a run, is the first hint from then on."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.screens.practice.sitting import finish, run_of, sits_down, texts
from tests.session.pilot import Pilot, Reading, stage_of
from tutor.coach.guidance import Help
from tutor.cube.position import Slot
from tutor.method.cases import CASES
from tutor.progress.attempt import GUEST
from tutor.progress.store import AttemptStore
from tutor.screens.practice.commands import TryCase
from tutor.session.record_commands import ChooseLearner
from tutor.solver.search import Solver
from tutor.ui.view import Entry

LINE = "lift, let it pass, bring it back"


@pytest.fixture
def beginner(solver: Solver, tmp_path: Path) -> Pilot:
    return sits_down(solver, tmp_path)


def tries(pilot: Pilot, case: int = 20, slot: Slot = Slot.FR) -> None:
    pilot.application.give(TryCase(CASES[case].slug, slot, 0, Help.WITH_HINTS))
    pilot.settle()


def writes(pilot: Pilot, text: str) -> None:
    """At the end of a run: the field opened, its text replaced, and Enter."""
    pilot.press("practice:OWN_WORDS")
    for _ in range(len(pilot.session.writing.text)):
        pilot.key("backspace")
    pilot.write(text)
    pilot.key("enter")
    pilot.settle()


def test_a_line_is_kept_and_is_the_first_hint_in_any_slot(beginner: Pilot, tmp_path: Path) -> None:
    tries(beginner)
    finish(beginner)
    beginner.key("e")
    assert Reading(beginner.view).button("Put it in my own words")
    writes(beginner, LINE)
    assert f"In your own words: {LINE}" in texts(beginner)
    with AttemptStore.open(tmp_path) as store:
        assert [(each.learner, each.case, each.text) for each in store.own_words()] == [
            (GUEST, CASES[20].slug, LINE)
        ]
    for slot in (Slot.FR, Slot.BL):
        tries(beginner, slot=slot)
        beginner.key("h")
        assert f"In your own words: {LINE}" in texts(beginner)
        assert stage_of(beginner).glowing
        beginner.key("h")
        assert LINE not in texts(beginner)
        assert "Hint 2 of 3" in texts(beginner)
    tries(beginner, 21)
    beginner.key("h")
    assert "In your own words" not in texts(beginner)


def test_a_line_is_there_the_next_time_and_can_be_changed_and_removed(
    solver: Solver, beginner: Pilot, tmp_path: Path
) -> None:
    tries(beginner)
    finish(beginner)
    writes(beginner, LINE)
    pilot = sits_down(solver, tmp_path)
    tries(pilot)
    pilot.key("h")
    assert f"In your own words: {LINE}" in texts(pilot)
    finish(pilot)
    pilot.key("e")
    pilot.press(Reading(pilot.view).button("Change my own words").action)
    assert next(block for block in pilot.view.card if isinstance(block, Entry)).text == LINE
    writes(pilot, "corner waits on top")
    assert "In your own words: corner waits on top" in texts(pilot)
    writes(pilot, "")
    assert "In your own words" not in texts(pilot)
    tries(pilot)
    pilot.key("h")
    assert "In your own words" not in texts(pilot)


def test_a_line_that_is_too_long_stays_in_the_field_and_says_why(beginner: Pilot) -> None:
    tries(beginner)
    finish(beginner)
    beginner.press("practice:OWN_WORDS")
    beginner.write("x" * 81)
    beginner.key("enter")
    field = next(block for block in beginner.view.card if isinstance(block, Entry))
    assert field.text == "x" * 81
    assert field.error == "a line of your own has at most 80 characters, this one has 81"
    beginner.key("backspace")
    beginner.key("enter")
    beginner.settle()
    assert beginner.session.records.own_words == {run_of(beginner).case.slug: "x" * 80}


def test_each_learner_has_their_own(beginner: Pilot) -> None:
    tries(beginner)
    finish(beginner)
    writes(beginner, LINE)
    beginner.press("open:LEARNERS")
    beginner.write("=Tova")
    beginner.key("enter")
    beginner.settle()
    beginner.application.give(ChooseLearner("Tova"))
    beginner.settle()
    assert beginner.session.records.own_words == {}
    beginner.application.give(ChooseLearner(GUEST))
    beginner.settle()
    assert beginner.session.records.own_words == {CASES[20].slug: LINE}
