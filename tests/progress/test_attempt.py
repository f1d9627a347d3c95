"""What an attempt may say."""

from datetime import datetime, timedelta, timezone
from math import inf, nan
from typing import Any

import pytest

from tutor.cube.faces import Turn
from tutor.cube.position import SLOTS, Slot, every_other_slot
from tutor.method.cases import CASES, parse_case
from tutor.progress.attempt import AttemptError, HintTaken, TurnMade, check_learner


def test_an_attempt_at_the_mirror_image_counts_for_one_case_and_shows_another(attempt: Any) -> None:
    case = next(case for case in CASES if case.mirror != case)
    assert attempt(case.slug).seen == case
    assert attempt(case.slug, mirror=True).seen == case.mirror


def test_the_deepest_hint_is_found(attempt: Any) -> None:
    assert attempt().deepest_hint == 0
    assert attempt(hints=(HintTaken(1, 0.5), HintTaken(3, 2.0), HintTaken(2, 3.0))).deepest_hint == 3


def test_a_plain_attempt_keeps_every_other_slot() -> None:
    assert all(
        every_other_slot(slot) | {slot} == set(SLOTS) and len(every_other_slot(slot)) == 3 for slot in SLOTS
    )


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({"time": datetime(2026, 3, 3)}, "not in UTC"),
        ({"time": datetime(2026, 3, 3, tzinfo=timezone(timedelta(hours=1)))}, "not in UTC"),
        ({"case": "corner-nowhere"}, "there is no case"),
        ({"case": CASES[0].name}, CASES[0].slug),
        ({"alignment": 4}, "alignment is 0, 1, 2 or 3"),
        ({"keep": frozenset(SLOTS)}, "slot FR is the target"),
        ({"turns_used": -1}, "turns used: from 0"),
        ({"at_all": -1}, "at all: from 0 to 20"),
        ({"by_hand": 21}, "by hand: from 0 to 20"),
        ({"by_hand": 3, "at_all": 4}, "by hand: 3 turns, but with far layers too it takes 4"),
        ({"route": 21}, "route: from 0 to 20"),
        ({"shown": -2}, "turns shown"),
        ({"seconds": nan}, "the time of the attempt"),
        ({"seconds": -0.1}, "the time of the attempt"),
        ({"first_turn": inf}, "first turn"),
        ({"learner": " Ilva"}, "no space at either end"),
    ],
)
def test_what_cannot_be_is_refused_and_named(attempt: Any, changes: dict[str, Any], told: str) -> None:
    with pytest.raises(ValueError, match=told):
        attempt(**changes)


def test_a_turn_and_a_hint_are_checked_too() -> None:
    with pytest.raises(AttemptError, match="costs from 0 to 20 turns, not 21"):
        TurnMade(Turn.R, 1.0, cost=21)
    with pytest.raises(AttemptError, match="time of a turn"):
        TurnMade(Turn.R, -1.0)
    with pytest.raises(AttemptError, match="rung from 1 to 3, not 0"):
        HintTaken(0, 1.0)


@pytest.mark.parametrize("name", ["Ilva", "Ömer of the Tuesday table", "7th seat", "Nao 直"])
def test_people_are_called_what_they_like(name: str) -> None:
    assert check_learner(name) == name


# A cell that begins with one of = + - @ is run as a formula by spreadsheets (OWASP, CSV Injection).
@pytest.mark.parametrize(
    "name", ["", "=1+1", "+1", "-1", "@SUM(A1)", "two\nlines", "ends in space ", "a" * 41]
)
def test_a_name_that_would_break_a_table_is_refused(name: str) -> None:
    with pytest.raises(AttemptError, match="name"):
        check_learner(name)


def test_every_slot_can_be_the_target(attempt: Any) -> None:
    assert [attempt(slot=slot).slot for slot in Slot] == list(Slot)
    assert parse_case(attempt().case) == CASES[0]
