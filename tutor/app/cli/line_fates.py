"""What became of each line of files that were taken in or put together: new, known, left out or refused."""

from __future__ import annotations

from collections.abc import Iterable
from uuid import UUID

from msgspec.structs import replace

from tutor.app.cli.attempt_files import ReadLine, Records
from tutor.app.cli.words import progress as words
from tutor.app.terminal import tell
from tutor.method.cases import parse_case
from tutor.progress.assignment import Assignment
from tutor.progress.attempt import AttemptError, AttemptRecord
from tutor.progress.names import folded, named_once
from tutor.progress.notes import Note
from tutor.progress.own_words import OwnWords


def right_of(lines: Iterable[ReadLine]) -> list[ReadLine]:
    """The lines with which nothing is wrong."""
    return [line for line in lines if not isinstance(line.says, AttemptError)]


def under_one_name(records: Records) -> Records:
    """Records with each learner's name as the first of them writes it."""
    attempts, notes = records
    names: dict[str, str] = {}
    return [named_once(each, names) for each in attempts], [named_once(each, names) for each in notes]


def print_fates(
    lines: Iterable[ReadLine],
    new: frozenset[UUID],
    notes: tuple[Note, ...],
    left_out: frozenset[UUID] = frozenset(),
) -> None:
    """Print a line for each: ``new`` are the attempts that were, ``notes`` the notes, ``left_out`` undone.

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
                fate = words.NEW if _among(says, notes) else words.KNOWN
                told = words.own_line(fate, says.learner, parse_case(says.case).number)
            case Assignment():
                fate = words.NEW if _among(says, notes) else words.KNOWN
                told = words.given_line(fate, says.learner)
            case _:
                told = words.refused(str(says))
        tell(words.line_fate(line.file, line.number, told))


def _among(note: Note, written: Iterable[Note]) -> bool:
    """Whether a note was written, under whatever form of the learner's name."""
    named = ((each, replace(each, learner=note.learner)) for each in written)
    return any(each == note and folded(own.learner) == folded(note.learner) for own, each in named)
