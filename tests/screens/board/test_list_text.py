"""Lists for the board as people type them."""

from __future__ import annotations

import pytest

from tutor.screens.board.list_text import BoardListError, LessonScenes, SlippingCases, parse_list
from tutor.session.state import LessonTitle

LESSONS = (LessonTitle("made-pair", "A joined pair", ""), LessonTitle("7", "Seven", ""))


@pytest.mark.parametrize(
    ("text", "numbers"),
    [
        ("3, 14, 7-9", [3, 14, 7, 8, 9]),
        ("9–7; 1", [9, 8, 7, 1]),
        (" 41 ,", [41]),
        ("5,5", [5, 5]),
        ("1-41", list(range(1, 42))),
    ],
)
def test_cases_by_number(text: str, numbers: list[int]) -> None:
    cases = parse_list(text, ())
    assert isinstance(cases, tuple)
    assert [case.number for case in cases] == numbers


def test_a_lesson_by_its_name_or_title_and_the_cases_that_slip() -> None:
    assert (
        parse_list("Made-Pair", LESSONS) == parse_list(" a joined PAIR", LESSONS) == LessonScenes("made-pair")
    )
    assert parse_list("7", LESSONS) == LessonScenes("7")  # a name comes before a number
    assert parse_list("Slipping", LESSONS) == SlippingCases()


@pytest.mark.parametrize("text", ["0", "42", "3-99", "1 2", "3-", "-3", ",", "made", "3.5", "٣x", "9" * 5000])
def test_anything_else_says_what_would_be_right(text: str) -> None:
    with pytest.raises(BoardListError, match=r"41|Type"):
        parse_list(text, LESSONS)
