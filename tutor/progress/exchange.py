"""Keeping a progress file and a shared folder alike: what either lacks it gets, and nothing comes in twice.

Attempts are known by their numbers and notes by their subjects, so what is given and taken follows from what
lies in both; nothing is remembered from one evening to the next. A learner who has done nothing yet goes
along as one who has written nothing. What the guest does stays here: the guest of another machine is somebody
else.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from itertools import islice
from typing import TypeVar
from uuid import UUID

import msgspec
from msgspec import Struct

from tutor.progress import words
from tutor.progress.assignment import Assignment
from tutor.progress.attempt import GUEST, AttemptError, AttemptRecord
from tutor.progress.connection import reason_of
from tutor.progress.interchange import format_line, parse_record
from tutor.progress.names import folded, same_learner
from tutor.progress.notes import Note, format_note, subject
from tutor.progress.own_words import OwnWords, nothing_written
from tutor.progress.results import microseconds
from tutor.progress.shared_folder import SharedFolder
from tutor.progress.store import AttemptStore, StoreError

_AT_ONCE = 500
"""Lines taken in or given out in one go, so that others can write in between."""
_UNDONE_MARK = b'{"undone":'


class _Undone(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """A line of a shared folder alone: this attempt was undone."""

    undone: UUID


_DECODER, _ENCODER = msgspec.json.Decoder(_Undone), msgspec.json.Encoder()
_Kind = TypeVar("_Kind")
_Shared = AttemptRecord | OwnWords | Assignment | _Undone


class Received(Struct, frozen=True):
    """What an exchange brought: the learners of whom there is news, and lines that could not be read."""

    learners: frozenset[str] = frozenset()
    refused: int = 0


class Exchange:
    """One progress file and one shared folder. Use it from one thread at a time."""

    def __init__(self, store: AttemptStore, folder: SharedFolder) -> None:
        self._store = store
        self._folder = folder
        self._attempts: set[str] = set()
        self._undone: set[str] = set()
        self._notes: dict[tuple[str, str, str], int] = {}
        self._named: set[str] = set()
        """The learners of whom there is anything in the folder."""
        self._refused = 0
        self._mark: tuple[object, ...] | None = None

    def carry_out(self) -> Received:
        """Take in what others wrote, and write what the folder lacks.

        Raises OSError when the folder is away and StoreError when the progress file cannot be read or
        written. Then the next exchange begins with everything.
        """
        try:
            if not self._folder.is_as_left():
                self._begin_anew()
            learners = self._take_in()
            self._give_out()
        except sqlite3.Error as fault:
            self._begin_anew()
            raise StoreError(words.cannot_read(reason_of(fault))) from fault
        except BaseException:
            self._begin_anew()
            raise
        return Received(frozenset(learners), self._refused + self._folder.unreadable)

    def _begin_anew(self) -> None:
        self._folder.begin_anew()
        self._attempts.clear()
        self._undone.clear()
        self._notes.clear()
        self._named.clear()
        self._refused, self._mark = 0, None

    def _take_in(self) -> set[str]:
        learners: set[str] = set()
        for lines in _in_parts(self._read()):
            undone = [each.undone.hex for each in lines if isinstance(each, _Undone)]
            attempts = [each for each in lines if isinstance(each, AttemptRecord)]
            notes = [each for each in lines if isinstance(each, OwnWords | Assignment)]
            self._note_there(attempts, notes, undone)
            # Also where the store stays as it is: what was undone here is news to whoever wrote it.
            self._mark = None
            if undone:
                learners |= self._store.undo_all(undone)
            merged = self._store.merge(attempts, notes)
            learners |= {each.learner for each in attempts if each.uuid in merged.new}
            learners |= {each.learner for each in merged.notes}
        return learners

    def _read(self) -> Iterator[_Shared]:
        for line in self._folder.news():
            try:
                read = _DECODER.decode(line) if line.startswith(_UNDONE_MARK) else parse_record(line)
            except (AttemptError, msgspec.DecodeError, ValueError):
                self._refused += 1
                continue
            if isinstance(read, _Undone) or not same_learner(read.learner, GUEST):
                yield read

    def _give_out(self) -> None:
        """Write what the folder lacks, unless nothing has been written here since it was looked at."""
        mark = self._store.mark()
        if mark == self._mark:
            return
        for attempts in _in_parts(self._store.shareable(self._attempts)):
            self._folder.append([format_line(each) for each in attempts])
            self._note_there(attempts, (), ())
        undone = sorted((self._store.undone() & self._attempts) - self._undone)
        notes = [each for each in self._store.notes() if self._is_later(each)]
        notes += map(nothing_written, self._unnamed(notes))
        lines = [_ENCODER.encode(_Undone(UUID(hex=number))).decode() for number in undone]
        lines += map(format_note, notes)
        if lines:
            self._folder.append(lines)
            self._note_there((), notes, undone)
        self._mark = mark

    def _unnamed(self, notes: Iterable[Note]) -> list[str]:
        """The learners whom the folder does not know, and of whom these notes say nothing either."""
        known = {folded(GUEST), *self._named, *(folded(each.learner) for each in notes)}
        return [name for name in self._store.learners() if folded(name) not in known]

    def _is_later(self, note: Note) -> bool:
        there = self._notes.get(_subject(note))
        return not same_learner(note.learner, GUEST) and (there is None or microseconds(note.time) > there)

    def _note_there(
        self, attempts: Iterable[AttemptRecord], notes: Iterable[Note], undone: Iterable[str]
    ) -> None:
        """Note that these lines are in the folder."""
        self._named.update(folded(each.learner) for each in (*attempts, *notes))
        self._attempts.update(each.uuid.hex for each in attempts)
        self._undone.update(undone)
        for note in notes:
            about = _subject(note)
            self._notes[about] = max(microseconds(note.time), self._notes.get(about, 0))


def _subject(note: Note) -> tuple[str, str, str]:
    """What a note is about, however the learner's name is written."""
    learner, kind, about = subject(note)
    return folded(learner), kind, about


def _in_parts(items: Iterator[_Kind]) -> Iterator[Sequence[_Kind]]:
    while part := tuple(islice(items, _AT_ONCE)):
        yield part
