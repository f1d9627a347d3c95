"""In their own words, in the case book: a line for the case of the page is shown, written and changed."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.screens.practice.sitting import sits_down, texts
from tests.session.held import held
from tests.session.names import action_name
from tests.session.pilot import Pilot, Reading
from tutor.method.cases import CASES
from tutor.progress.attempt import GUEST
from tutor.progress.store import AttemptStore
from tutor.progress.words import OWN_LINE_BROKEN
from tutor.screens.case_book.commands import OpenCase
from tutor.screens.case_book.state import PAGE
from tutor.solver.search import Solver
from tutor.ui.inputs import Modifier
from tutor.ui.view import Entry

LINE = "lift, let it pass, bring it back"


@pytest.fixture
def reader(solver: Solver, tmp_path: Path) -> Pilot:
    pilot = sits_down(solver, tmp_path)
    pilot.application.give(OpenCase(CASES[20].slug))
    pilot.settle()
    return pilot


def field(pilot: Pilot) -> Entry:
    return next(block for block in pilot.view.card if isinstance(block, Entry))


def test_a_line_is_written_on_the_page_and_stays_with_the_case(
    solver: Solver, reader: Pilot, tmp_path: Path
) -> None:
    assert "In your own words" not in texts(reader)
    reader.press(Reading(reader.view).button("Put it in my own words").action)
    assert field(reader).label == "Write one line, then press Enter. An empty line removes it."
    reader.write(LINE)
    reader.key("enter")
    reader.settle()
    assert f"In your own words: {LINE}" in texts(reader)
    with AttemptStore.open(tmp_path) as store:
        assert [(each.learner, each.case, each.text) for each in store.own_words()] == [
            (GUEST, CASES[20].slug, LINE)
        ]
    reader.application.give(OpenCase(CASES[21].slug))
    assert "In your own words" not in texts(reader)
    later = sits_down(solver, tmp_path)
    later.application.give(OpenCase(CASES[20].slug))
    assert f"In your own words: {LINE}" in texts(later)
    later.press(Reading(later.view).button("Change my own words").action)
    assert field(later).text == LINE
    later.key("a", Modifier.CONTROL)
    later.key("backspace")
    later.key("enter")
    later.settle()
    assert "In your own words" not in texts(later)


def test_a_line_that_cannot_be_kept_stays_in_the_field_and_says_why(reader: Pilot) -> None:
    reader.press("book:OWN_WORDS")
    reader.write("=1+1")
    reader.key("enter")
    assert field(reader).text == "=1+1"
    assert field(reader).error == OWN_LINE_BROKEN


def test_the_next_field_is_for_another_way_again(reader: Pilot) -> None:
    reader.press("book:OWN_WORDS")
    reader.write(LINE)
    reader.press("book:OTHER_WAY")
    assert (field(reader).text, field(reader).label) == (
        "",
        "Write your turns for this case, then press Enter",
    )
    reader.press("book:OWN_WORDS")
    reader.key("escape")
    reader.press("act:WRITE")
    reader.write("R U R'")
    reader.key("enter")
    reader.settle()
    assert held(PAGE.of(reader.session)).other_way is not None
    assert reader.session.records.own_words == {}


def test_words_begun_for_one_case_do_not_turn_up_as_turns_for_the_next(reader: Pilot) -> None:
    reader.press("book:OWN_WORDS")
    reader.write(LINE)
    reader.press(action_name(OpenCase(CASES[7].slug)))
    reader.press("act:WRITE")
    assert field(reader).text == ""
