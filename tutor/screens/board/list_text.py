"""A list for the board as a person types it: ``3, 14, 7-9``, the name of a lesson, or the cases that slip."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from msgspec import Struct

from tutor.method.cases import CASES, Case
from tutor.quoting import ToldError, quotable
from tutor.screens.board import words
from tutor.session.state import LessonTitle

SLIPPING = "slipping"
"""What stands for the cases that slip most from all learners."""
EVERY_CASE = f"1-{len(CASES)}"
_NUMBERS = re.compile(r"[0-9]{1,4}(\s*[-–]\s*[0-9]{1,4})?")
_BY_NUMBER = {case.number: case for case in CASES}


class BoardListError(ToldError):
    """A text that names nothing to show; the message quotes it and says what would be right."""


class SlippingCases(Struct, frozen=True):
    """The cases that slip most, which the store knows."""


class LessonScenes(Struct, frozen=True):
    """The scenes of a lesson, by its name."""

    name: str


ListWanted = tuple[Case, ...] | LessonScenes | SlippingCases


def parse_list(text: str, lessons: Sequence[LessonTitle]) -> ListWanted:
    """What a text asks for; ``lessons`` are those that there are. Raises BoardListError."""
    wanted = text.strip()
    if not wanted:
        raise BoardListError(words.TYPE_A_LIST)
    if wanted.casefold() == SLIPPING:
        return SlippingCases()
    for lesson in lessons:
        if wanted.casefold() in (lesson.name.casefold(), lesson.title.casefold()):
            return LessonScenes(lesson.name)
    parts = [part.strip() for part in re.split(r"[,;]", wanted) if part.strip()]
    if not parts or not all(_NUMBERS.fullmatch(part) for part in parts):
        raise BoardListError(words.unknown_list(quotable(wanted)))
    return tuple(case for part in parts for case in _cases(part))


def _cases(part: str) -> Iterator[Case]:
    """The cases of a number, or from one number to another, backwards too."""
    first, *more = (int(number) for number in re.findall("[0-9]+", part))
    last = more[0] if more else first
    for number in (first, last):
        if number not in _BY_NUMBER:
            raise BoardListError(words.no_such_case(str(number)))
    step = 1 if last >= first else -1
    return (_BY_NUMBER[number] for number in range(first, last + step, step))
