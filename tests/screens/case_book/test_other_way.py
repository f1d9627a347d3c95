"""“I know another way” in the case book, through the real application."""

from __future__ import annotations

import pytest

from tests.coach import sticker_replay as stickers
from tests.session.held import held
from tests.session.pilot import Pilot, Reading
from tutor.cube.position import SLOTS, Slot
from tutor.method.cases import CASES
from tutor.screens.case_book.commands import BookAct, OpenCase
from tutor.screens.case_book.state import PAGE
from tutor.ui.view import Entry


def entries(pilot: Pilot) -> list[Entry]:
    return [block for block in Reading(pilot.view).blocks if isinstance(block, Entry)]


def write(pilot: Pilot, text: str) -> None:
    pilot.press(Reading(pilot.view).button("I know another way").action)
    (entry,) = entries(pilot)
    assert entry.label == "Write your turns for this case, then press Enter"
    pilot.write(text)
    pilot.key("enter")
    pilot.settle()


@pytest.mark.parametrize("slot", SLOTS)
def test_what_is_typed_is_explained_on_the_page_of_any_slot(pilot: Pilot, slot: Slot) -> None:
    case = CASES[14]
    pilot.press(OpenCase(case.slug, slot, 1))
    pilot.settle()
    turns = [turn.notation for turn in case.route(slot, 1).turns]
    write(pilot, " ".join(turns))
    texts = Reading(pilot.view).texts
    assert entries(pilot) == []
    assert f"Your turns: {' '.join(turns)}" in texts
    assert "These are the turns of the route." in " ".join(texts)
    assert not any(text.startswith("By hand, this cube takes") for text in texts)
    pilot.key("e")
    name = {"FR": "front-right", "FL": "front-left", "BL": "back-left", "BR": "back-right"}
    mirror, other = " ".join(stickers.mirrored(turns)), name[stickers.mirrored_slot(slot.name)]
    assert f"Swap left and right, and it becomes {mirror}, for the {other} slot." in Reading(pilot.view).texts


def test_a_way_that_does_not_fit_the_case_says_where_it_went_wrong_and_the_route_comes_back(
    pilot: Pilot,
) -> None:
    pilot.press(OpenCase(CASES[0].slug))
    pilot.settle()
    write(pilot, "D R")
    assert "Its first turn, D, is a Detour." in " ".join(Reading(pilot.view).texts)
    pilot.press(Reading(pilot.view).button("Back to the route").action)
    assert any(text.startswith("By hand, this cube takes") for text in Reading(pilot.view).texts)


@pytest.mark.parametrize(
    ("text", "fault", "column"),
    [
        ("R U Q", "column 5, “Q”: start a move with U D L R F B", 4),
        ("R R'", "These turns come to nothing.", None),
        ("", "These turns come to nothing.", None),
        ("(R U)21", "Write at most 40 turns.", None),
    ],
)
def test_what_cannot_be_explained_says_why_beside_the_field(
    pilot: Pilot, text: str, fault: str, column: int | None
) -> None:
    pilot.press(OpenCase(CASES[0].slug))
    pilot.settle()
    write(pilot, text)
    (entry,) = entries(pilot)
    assert entry.error.startswith(fault)
    assert entry.error_column == column
    assert entry.text == text


def test_the_key_opens_the_field_and_escape_closes_it(pilot: Pilot) -> None:
    pilot.press(OpenCase(CASES[0].slug))
    pilot.settle()
    pilot.key("i")
    assert len(entries(pilot)) == 1
    pilot.key("escape")
    assert entries(pilot) == []
    assert PAGE.of(pilot.session) is not None


def test_another_page_has_no_field_and_no_explanation(pilot: Pilot) -> None:
    pilot.press(OpenCase(CASES[0].slug))
    pilot.settle()
    write(pilot, "D R")
    pilot.press(OpenCase(CASES[1].slug))
    assert held(PAGE.of(pilot.session)).other_way is None
    pilot.key("i")
    pilot.press(BookAct.ALL_CASES)
    assert not pilot.session.writing.open


def test_with_no_page_open_nothing_can_be_written(pilot: Pilot) -> None:
    pilot.press("open:CASE_BOOK")
    pilot.key("slash")
    pilot.key("i")
    assert not pilot.session.writing.open
