"""Notes: what the store keeps beside attempts, of which the latest for each learner and subject counts.

They are learners' own words and assignments. A note is a line in its kind's table, as in an export.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterable
from contextlib import suppress
from pathlib import Path
from typing import Generic, TypeVar

from msgspec import Struct

from tutor.progress.assignment import Assignment, format_assigned, parse_assigned
from tutor.progress.attempt import AttemptError
from tutor.progress.backup import readable_lines
from tutor.progress.names import known_names, named_once
from tutor.progress.own_words import OwnWords, format_own, parse_own
from tutor.progress.results import microseconds
from tutor.progress.schema import transaction

Note = OwnWords | Assignment
N = TypeVar("N", OwnWords, Assignment)


class NoteKind(Struct, Generic[N], frozen=True):
    """A table of notes, the column that says what a note is about, and how its lines are read."""

    table: str
    about: str
    parse: Callable[[str | bytes], N]

    def of(self, lines: Iterable[str | bytes]) -> tuple[N, ...]:
        """The notes that lines hold; what cannot be read is left out."""
        found: list[N] = []
        for line in lines:
            with suppress(AttemptError):
                found.append(self.parse(line))
        return tuple(found)


OWN_WORDS: NoteKind[OwnWords] = NoteKind("own_words", "slug", parse_own)
ASSIGNMENTS: NoteKind[Assignment] = NoteKind("assignments", "task", parse_assigned)
NOTE_KINDS = (OWN_WORDS, ASSIGNMENTS)
NOTE_TABLES = (OWN_WORDS.table, ASSIGNMENTS.table)


def subject(note: Note) -> tuple[str, str, str]:
    """Whose note it is, of which kind, and what it is about: of two with one subject the later counts."""
    kind, about = (
        (OWN_WORDS.table, note.case) if isinstance(note, OwnWords) else (ASSIGNMENTS.table, note.task)
    )
    return note.learner, kind, about


def format_note(note: Note) -> str:
    """The note as a JSON object on one line, without the line's end."""
    return format_own(note) if isinstance(note, OwnWords) else format_assigned(note)


def latest(notes: Iterable[Note]) -> tuple[Note, ...]:
    """Of all notes those that count, in the order of their subjects."""
    found = {subject(each): each for each in sorted(notes, key=lambda each: each.time)}
    return tuple(found[key] for key in sorted(found))


def add_notes(connection: sqlite3.Connection, notes: Iterable[Note]) -> tuple[Note, ...]:
    """Write notes that are later, in one transaction; those that were. Raises sqlite3.Error."""
    new: list[Note] = []
    with transaction(connection):
        names = known_names(connection)
        for given in notes:
            each = named_once(given, names)
            learner, table, about = subject(each)
            kind = OWN_WORDS if table == OWN_WORDS.table else ASSIGNMENTS
            written = connection.execute(
                f"INSERT INTO {table} VALUES (?, ?, ?, ?) ON CONFLICT (learner, {kind.about}) DO UPDATE "
                f"SET time = excluded.time, line = excluded.line WHERE excluded.time > {table}.time",
                (learner, about, microseconds(each.time), format_note(each)),
            )
            if written.rowcount > 0:
                new.append(given)
            connection.execute("INSERT OR IGNORE INTO learners VALUES (?)", (learner,))
    return tuple(new)


def notes_through(connection: sqlite3.Connection) -> tuple[Note, ...]:
    """The notes that can be read through a connection whose file is no longer in its place."""
    found: list[Note] = []
    for kind in NOTE_KINDS:
        with suppress(sqlite3.Error):
            rows = connection.execute(f"SELECT line FROM {kind.table}").fetchall()
            found += kind.of(row[0] for row in rows)
    return tuple(found)


def notes_in(damaged: Path) -> tuple[Note, ...]:
    """The notes that can be read from a damaged file."""
    found: list[Note] = []
    for kind in NOTE_KINDS:
        found += kind.of(readable_lines(damaged, kind.table))
    return tuple(found)
