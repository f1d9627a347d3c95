"""What became of each line of files that were taken in or put together: new, known, left out or refused."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeVar
from uuid import UUID

import msgspec

from tutor.app.cli.attempt_files import ReadLine, Records
from tutor.app.cli.words import progress as words
from tutor.method.cases import parse_case
from tutor.progress.attempt import AttemptError, AttemptRecord
from tutor.progress.names import folded
from tutor.progress.own_words import OwnWords

Kept = TypeVar("Kept", AttemptRecord, OwnWords)


def right_of(lines: Iterable[ReadLine]) -> list[ReadLine]:
    """The lines with which nothing is wrong."""
    return [line for line in lines if not isinstance(line.says, AttemptError)]


def under_one_name(records: Records) -> Records:
    """Records with each learner's name as the first of them writes it."""
    attempts, own = records
    names: dict[str, str] = {}
    return [_named(each, names) for each in attempts], [_named(each, names) for each in own]


def _named(record: Kept, names: dict[str, str]) -> Kept:
    name = names.setdefault(folded(record.learner), record.learner)
    return record if name == record.learner else msgspec.structs.replace(record, learner=name)


def print_fates(
    lines: Iterable[ReadLine],
    new: frozenset[UUID],
    own: tuple[OwnWords, ...],
    left_out: frozenset[UUID] = frozenset(),
) -> None:
    """Print a line for each: ``new`` are the attempts that were, ``own`` the own words, ``left_out`` undone.

    An attempt that is new is so once, and known in the lines after.
    """
    seen: set[UUID] = set()
    for line in lines:
        says = line.says
        match says:
            case AttemptRecord():
                fresh = says.uuid in new and says.uuid not in seen
                fate = words.UNDONE if says.uuid in left_out else words.NEW if fresh else words.KNOWN
                seen.add(says.uuid)
                told = words.attempt_line(fate, says.learner, parse_case(says.case).number)
            case OwnWords():
                fate = words.NEW if any(_same_words(says, each) for each in own) else words.KNOWN
                told = words.own_line(fate, says.learner, parse_case(says.case).number)
            case _:
                told = words.refused(str(says))
        print(words.line_fate(line.file, line.number, told))


def _same_words(one: OwnWords, other: OwnWords) -> bool:
    same = (one.case, one.time, one.text) == (other.case, other.time, other.text)
    return same and folded(one.learner) == folded(other.learner)
