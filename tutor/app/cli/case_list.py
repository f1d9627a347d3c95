"""A list of cases as a person writes it: ``1-12,14``."""

from __future__ import annotations

import re

from tutor.app.cli.task_request import RequestError
from tutor.app.cli.words import sheet as words
from tutor.method.cases import CASES, Case
from tutor.quoting import quotable

_PART = re.compile(r"(\d{1,3})(?:\s*-\s*(\d{1,3}))?", re.ASCII)


def parse_case_list(text: str) -> tuple[Case, ...]:
    """The cases of numbers and ranges with commas between. Raises RequestError."""
    return tuple(case for part in text.split(",") for case in _range(part.strip()))


def _range(part: str) -> tuple[Case, ...]:
    read = _PART.fullmatch(part)
    first, last = (int(read[1]), int(read[2] or read[1])) if read else (0, 0)
    if not 1 <= first <= last <= len(CASES):
        raise RequestError(words.no_case_range(quotable(part), len(CASES)))
    return CASES[first - 1 : last]
