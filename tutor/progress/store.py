"""The store: every finished attempt is on the disk before anybody says so.

An SQLite file in the folder given, with a write-ahead log that is flushed at every commit, so that a process
killed at any moment loses nothing it has recorded. Several processes may have it open at once. Where nothing
can be written, attempts are kept in memory and tried again with the next one.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Container, Iterable, Iterator, Sequence
from contextlib import closing, contextmanager
from datetime import datetime, timedelta
from pathlib import Path
from threading import RLock
from types import TracebackType
from typing import Any, Self
from uuid import UUID

import msgspec
from msgspec import Struct

from tutor.progress import words
from tutor.progress.assignment import Assignment
from tutor.progress.attempt import GUEST, AttemptError, AttemptRecord, check_learner, now_utc
from tutor.progress.backup import BACKUPS, back_up_daily, copy_to, free_name, rescue
from tutor.progress.connection import add, loaded, reason_of
from tutor.progress.interchange import parse_line
from tutor.progress.learner_rows import forget_rows, give_over, put_back, tables_of_learners
from tutor.progress.names import known_as, same_learner
from tutor.progress.notes import ASSIGNMENTS, OWN_WORDS, N, Note, NoteKind, add_notes
from tutor.progress.own_words import OwnWords
from tutor.progress.progress_file import UNREACHABLE, ProgressFile
from tutor.progress.results import microseconds
from tutor.progress.schema import transaction
from tutor.quoting import ToldError

_AT_ONCE = 500
"""Attempts read in one query by their numbers; SQLite takes at least 999 (sqlite.org/limits)."""


class StoreError(ToldError):
    """The store cannot do what was asked; the message says why, in one sentence."""


class Merged(Struct, frozen=True):
    """What a merge did: attempts that were new, known already, and left out because they had been undone."""

    new: frozenset[UUID]
    """The numbers of those that were new."""
    known: int
    left_out: frozenset[UUID]
    """The numbers of those that had been undone."""
    notes: tuple[Note, ...] = ()
    """The notes that were new."""

    @property
    def added(self) -> int:
        """How many were new."""
        return len(self.new)

    @property
    def undone(self) -> int:
        """How many had been undone."""
        return len(self.left_out)


class AttemptStore:
    """The attempts of all learners on this machine. Safe to use from several threads, one call at a time."""

    def __init__(self, folder: Path, file: ProgressFile, clock: Callable[[], datetime]) -> None:
        self._folder = folder
        self._clock = clock
        self._lock = RLock()
        self._waiting: dict[UUID, AttemptRecord] = {}
        self._file = file
        self._reason = file.out_of_reach
        self._unreadable = 0
        self._rescued: Path | None = None

    @classmethod
    def open(cls, folder: Path, clock: Callable[[], datetime] = now_utc) -> Self:
        """The store in ``folder``, made if there is none. A process has one of a folder at a time.

        A damaged file is set aside under a dated name and the latest backup taken instead; where nothing can
        be written the store lives in memory. Both are told in ``notices``. Raises NewerStoreError when the
        file is from a newer version of the program; it is left as it is.
        """
        return cls(folder, ProgressFile(folder, clock), clock)

    def close(self) -> None:
        """Try once more to write what waits, and let go of the file.

        What still cannot be written goes to a file of JSON lines elsewhere (``rescue``); ``notices`` tells
        where.
        """
        with self._lock:
            if not self.retry():
                self._rescued = rescue(self.waiting)
            self._file.close()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    @property
    def notices(self) -> tuple[str, ...]:
        """What the learner should be told: where attempts could not be written, or a file was damaged."""
        told = list(self._file.notices)
        if self._rescued is not None:
            told.append(words.rescued(self._rescued))
        elif waiting := len(self._waiting):
            told.append(words.still_waiting(waiting, self._reason))
        if count := self._unreadable:
            told.append(words.unreadable(count))
        return tuple(told)

    @property
    def waiting(self) -> tuple[AttemptRecord, ...]:
        """Attempts that could not be written yet."""
        return tuple(self._waiting.values())

    # ------------------------------------------------------------------------------------------- learners

    def learners(self) -> tuple[str, ...]:
        """The names of all learners, the guest first, then by name."""
        with self._lock:
            names = {row[0] for row in self._rows("SELECT name FROM learners") if _is_name(row[0])}
            for attempt in self._waiting.values():
                names.add(known_as(attempt.learner, names) or attempt.learner)
        return tuple(sorted(names, key=lambda name: (name != GUEST, name.casefold(), name)))

    def add_learner(self, name: str) -> str:
        """Add a learner and return the name as kept; one who is there already, however written, is that one.

        Raises AttemptError for what is no name, StoreError when it cannot be written.
        """
        name = check_learner(name.strip())
        with self._lock:
            known = known_as(name, self.learners())
            if known is not None:
                return known
            with self._changing() as file:
                file.execute("INSERT OR IGNORE INTO learners VALUES (?)", (name,))
        return name

    def rename(self, old: str, new: str) -> str:
        """Give a learner another name, with all that is theirs; the name as kept.

        Of the guest all that was practised goes to the new name, and the guest stays, with nothing.
        Raises AttemptError for what is no name, StoreError for another learner's and when it cannot be
        written.
        """
        new = check_learner(new.strip())
        with self._lock:
            old = self._there(old)
            other = known_as(new, self.learners())
            if other not in (None, old):
                raise StoreError(words.name_taken(other or new))
            if new == old or same_learner(new, GUEST):
                return old
            self._give_over(old, new)
        return new

    def join(self, old: str, into: str) -> Path:
        """Make one learner of two who are one person: all that ``old`` has is from now on of ``into``.

        Of notes about one subject the later stays. Returns the copy that was kept before. Raises StoreError
        when the copy or the change cannot be written; then nothing has changed.
        """
        with self._lock:
            old, into = self._there(old), self._there(into)
            if old == into:
                raise StoreError(words.JOINED_ALREADY)
            copy = self.back_up(self.free_copy("before-join"))
            self._give_over(old, into)
        return copy

    def put_back(self, name: str, copy: Path) -> None:
        """Take all that a removed learner had from the copy that was kept before. Raises StoreError."""
        with self._lock:
            self._require_file()
            try:
                put_back(self._connection, copy, name)
                known = known_as(name, (each for each in self.learners() if each != name))
                if known is not None:
                    self._give_over(name, known)
            except sqlite3.Error as fault:
                raise StoreError(words.change_failed(fault)) from fault

    def has_anything_of(self, name: str) -> bool:
        """Whether a learner is there; of the guest, who always is, whether anything was practised."""
        with self._lock:
            known = known_as(name, self.learners())
            if known is None:
                return False
            if known != GUEST or any(each.learner == GUEST for each in self.waiting):
                return True
            tables = tables_of_learners(self._connection)
            return any(self._rows(f"SELECT 1 FROM {table} WHERE learner = ?", (known,)) for table in tables)

    def _there(self, name: str) -> str:
        """The learner as kept, with the file there to write to. Raises StoreError."""
        self._require_file()
        known = known_as(name, self.learners())
        if known is None:
            raise StoreError(words.not_there(name))
        return known

    def _give_over(self, old: str, new: str) -> None:
        with self._changing() as file:
            give_over(file, old, new)

    # ------------------------------------------------------------------------------------------- attempts

    def record(self, attempt: AttemptRecord) -> bool:
        """Keep an attempt; it is on the disk when this returns True.

        When it returns False, the disk is full or the folder cannot be written: the attempt is kept in
        memory, seen by every reader of this store, and written with the next one; ``notices`` tells so.
        Recording the same attempt again changes nothing.
        """
        with self._lock:
            self._waiting[attempt.uuid] = attempt
            return self.retry()

    def retry(self) -> bool:
        """Write what waits; whether all is on the disk now."""
        with self._lock:
            if not self._waiting:
                return True
            try:
                self._file.reach()
                self._file.add(self.waiting)
            except (sqlite3.Error, OSError, ValueError) as fault:
                self._reason = reason_of(fault)
                return False
            self._waiting.clear()
            return True

    def attempts(
        self, learner: str | None = None, since: datetime | None = None, newest: int | None = None
    ) -> tuple[AttemptRecord, ...]:
        """The attempts of a learner, or of all, in the order of time (equal times: of their uuids).

        ``since`` leaves out what is older; ``newest`` gives only the last so many. A record that cannot be
        read is left out and told in ``notices``.
        """
        least = -(2**63) if since is None else microseconds(since)
        with self._lock:
            learner = self._as_known(learner)
            # Written out for the two questions, since the index serves only a plain comparison.
            whose, values = ("", ()) if learner is None else ("learner = ? AND ", (learner,))
            rows = self._rows(
                f"SELECT uuid, CAST(line AS BLOB) FROM attempts WHERE {whose}time >= ? "
                "ORDER BY time DESC, uuid DESC LIMIT ?",
                (*values, least, -1 if newest is None else newest),
            )
            found = self._parsed(reversed(rows))
            waiting = [
                attempt
                for attempt in self._waiting.values()
                if (learner is None or same_learner(learner, attempt.learner))
                and microseconds(attempt.time) >= least
            ]
        if waiting:
            found = sorted([*found, *waiting], key=lambda each: (each.time, each.uuid.int))
        return tuple(found if newest is None else found[max(0, len(found) - newest) :])

    def shareable(self, there: Container[str]) -> Iterator[AttemptRecord]:
        """The attempts on the disk of all who have a name, but for those whose numbers are in ``there``.

        Numbers are written as 32 hexadecimal digits.
        """
        with self._lock:
            rows = self._rows("SELECT uuid FROM attempts WHERE learner <> ?", (GUEST,))
        missing = [row[0] for row in rows if row[0] not in there]
        for start in range(0, len(missing), _AT_ONCE):
            numbers = missing[start : start + _AT_ONCE]
            marks = ", ".join("?" * len(numbers))
            columns = "SELECT uuid, CAST(line AS BLOB) FROM attempts"
            with self._lock:
                found = self._parsed(self._rows(f"{columns} WHERE uuid IN ({marks})", tuple(numbers)))
            yield from found

    def undone(self) -> frozenset[str]:
        """The numbers of attempts that were undone, here or elsewhere, as ``shareable`` has them."""
        with self._lock:
            return frozenset(row[0] for row in self._rows("SELECT uuid FROM undone"))

    def undo_all(self, numbers: Iterable[str]) -> frozenset[str]:
        """Undo what was undone elsewhere, and leave it out of later merges; the learners who had it here.

        Raises StoreError when it cannot be written.
        """
        learners: set[str] = set()
        with self._lock:
            self._require_file()
            with self._changing() as file:
                for number in numbers:
                    learners |= _undo(file, number)
        return frozenset(learners)

    def mark(self) -> tuple[object, ...]:
        """What changes whenever anybody has written to the file."""
        with self._lock:
            return self._file.mark()

    def numbers(self) -> dict[str, set[str]]:
        """The numbers of the attempts of each learner, as ``shareable`` has them."""
        with self._lock:
            found: dict[str, set[str]] = {learner: set() for learner in self.learners()}
            waiting = ((attempt.learner, attempt.uuid.hex) for attempt in self._waiting.values())
            for learner, number in (*self._rows("SELECT learner, uuid FROM attempts"), *waiting):
                found.setdefault(learner, set()).add(number)
        return found

    def own_words(self, learner: str | None = None) -> tuple[OwnWords, ...]:
        """What a learner, or all, say of cases in their own words, those removed included (empty)."""
        return self._notes(OWN_WORDS, learner)

    def assignments(self, learner: str | None = None) -> tuple[Assignment, ...]:
        """What a learner, or all, have to do, with what was done and withdrawn."""
        return self._notes(ASSIGNMENTS, learner)

    def notes(self, learner: str | None = None) -> tuple[Note, ...]:
        """All notes of a learner, or of all, as an export has them."""
        return (*self.own_words(learner), *self.assignments(learner))

    def write_own(self, own: OwnWords) -> None:
        """Keep a learner's own words for a case in place of those before. StoreError when they cannot be.

        They count as the latest, also when a clock was set back.
        """
        self._write_latest(own, [each for each in self.own_words(own.learner) if each.case == own.case])

    def assign(self, given: Assignment) -> None:
        """Keep an assignment in place of the one before. StoreError when it cannot be. As ``write_own``."""
        before = [each for each in self.assignments(given.learner) if each.task == given.task]
        self._write_latest(given, before)

    def _write_latest(self, note: Note, before: Sequence[Note]) -> None:
        with self._lock:
            times = [each.time + timedelta(microseconds=1) for each in before]
            self.merge((), (msgspec.structs.replace(note, time=max((note.time, *times))),))

    def _notes(self, kind: NoteKind[N], learner: str | None) -> tuple[N, ...]:
        with self._lock:
            learner = self._as_known(learner)
            whose, values = ("", ()) if learner is None else ("WHERE learner = ? ", (learner,))
            order = f"ORDER BY learner, {kind.about}"
            rows = self._rows(f"SELECT line FROM {kind.table} {whose}{order}", values)
        return kind.of(row[0] for row in rows)

    def undo(self, uuid: UUID) -> bool:
        """Take an attempt back, for good; whether it was there.

        Cards follow from the attempts, so they are as they were before. A merge does not bring it in again.
        Raises StoreError when it cannot be written.
        """
        with self._lock:
            was_waiting = self._waiting.pop(uuid, None) is not None
            try:
                there = self._rows("SELECT 1 FROM attempts WHERE uuid = ?", (uuid.hex,))
            except UNREACHABLE as fault:
                raise StoreError(words.cannot_read(reason_of(fault))) from fault
            if not there and not was_waiting and self._file.out_of_reach:
                # It may be in the file.
                raise StoreError(words.cannot_read(self._file.out_of_reach))
            if not there:
                return was_waiting
            self._require_file()
            with self._changing() as file:
                _undo(file, uuid.hex)
            return True

    def merge(self, attempts: Iterable[AttemptRecord], notes: Iterable[Note] = ()) -> Merged:
        """Take in attempts from elsewhere, all or none; what is known already is not doubled.

        Of notes about one subject the latest stays.

        Raises StoreError when they cannot be written.
        """
        given = {attempt.uuid: attempt for attempt in attempts}
        with self._lock:
            self._require_file()
            gone = {row[0] for row in self._rows("SELECT uuid FROM undone")}
            undone = frozenset(uuid for uuid in given if uuid.hex in gone)
            try:
                new = add(self._connection, tuple(given.values()))
                written = add_notes(self._connection, notes)
            except sqlite3.Error as fault:
                raise StoreError(words.not_merged(fault)) from fault
        known = len(given) - len(new) - len(undone)
        return Merged(new, known, undone, written)

    # --------------------------------------------------------------------------------------------- backup

    def back_up(self, target: Path | None = None) -> Path:
        """Copy everything to ``target``, by default to today's place among the backups; where it is now.

        Raises StoreError when it cannot be written.
        """
        with self._lock:
            try:
                if target is not None:
                    copy_to(self._connection, target)
                    return target
                return back_up_daily(self._connection, self._folder, self._clock(), anew=True)
            except (OSError, sqlite3.Error) as fault:
                raise StoreError(words.backup_failed(reason_of(fault))) from fault

    def free_copy(self, stem: str) -> Path:
        """A dated name among the backups that nothing has yet."""
        return free_name(self._folder / BACKUPS, stem, self._clock())

    def reset(self, learner: str | None = None, copy: Path | None = None) -> Path:
        """Forget what is kept of a learner, or of all and who they are; the copy that was kept before.

        Raises StoreError when the copy or the change cannot be written; then nothing is forgotten.
        """
        with self._lock:
            self._require_file()
            learner = self._as_known(learner)
            copy = self.back_up(copy or self.free_copy("before-reset"))
            with self._changing() as file:
                forget_rows(file, learner)
            # So that a restored backup does not bring back what was to be forgotten.
            self.back_up()
        return copy

    def restore(self, backup: Path) -> Path:
        """Take everything from a backup in place of what is here; the copy of that which was kept before.

        Every process that has the file open sees the change at once. Raises StoreError, which says what is
        wrong with the backup; then nothing has changed. Raises NewerStoreError.
        """
        with self._lock:
            self._require_file()
            with _restorable(backup) as content:
                copy = self.back_up(self.free_copy("before-restore"))
                content.backup(self._connection)
        return copy

    # --------------------------------------------------------------------------------------------- inside

    @property
    def _connection(self) -> sqlite3.Connection:
        return self._file.connection

    def _rows(self, statement: str, values: tuple[object, ...] = ()) -> list[tuple[Any, ...]]:
        return self._file.rows(statement, values)

    def _as_known(self, learner: str | None) -> str | None:
        """The learner as the file writes the name; as given where it knows none."""
        if learner is None:
            return None
        return known_as(learner, (row[0] for row in self._rows("SELECT name FROM learners"))) or learner

    def _require_file(self) -> None:
        """Write what waits, reach for the file if there is only memory; StoreError when that fails."""
        try:
            self._file.reach()
        except UNREACHABLE as fault:
            self._reason = reason_of(fault)
            raise self._unwritable() from fault
        if not self.retry():
            raise self._unwritable()

    def _unwritable(self) -> StoreError:
        return StoreError(words.folder_unwritable(self._folder, self._reason))

    @contextmanager
    def _changing(self) -> Iterator[sqlite3.Connection]:
        """The file, for what the block writes: all of it or nothing. Raises StoreError."""
        try:
            with transaction(self._connection):
                yield self._connection
        except sqlite3.Error as fault:
            raise StoreError(words.change_failed(fault)) from fault

    def _parsed(self, rows: Iterable[tuple[object, bytes]]) -> list[AttemptRecord]:
        found, unreadable = [], 0
        for number, line in rows:
            try:
                attempt = parse_line(line)
            except AttemptError:
                unreadable += 1
                continue
            if attempt.uuid.hex == number:
                found.append(attempt)
            else:
                unreadable += 1
        self._unreadable = unreadable
        return found


def check_backup(backup: Path) -> None:
    """Raise what ``AttemptStore.restore`` would raise for a backup that cannot be taken back."""
    with _restorable(backup):
        pass


@contextmanager
def _restorable(backup: Path) -> Iterator[sqlite3.Connection]:
    """What a backup holds. Raises StoreError where it cannot be taken back."""
    try:
        with closing(loaded(backup)) as content:
            yield content
    except (OSError, sqlite3.Error) as fault:
        raise StoreError(words.not_restored(backup, reason_of(fault))) from fault


def _undo(file: sqlite3.Connection, number: str) -> set[str]:
    """Take an attempt back and leave it out of later merges; whose it was, if it was there."""
    file.execute("INSERT OR IGNORE INTO undone VALUES (?)", (number,))
    gone = file.execute("DELETE FROM attempts WHERE uuid = ? RETURNING learner", (number,))
    return {row[0] for row in gone.fetchall()}


def _is_name(name: object) -> bool:
    """Whether a broken disk has left the name one that can be shown and asked for."""
    try:
        return isinstance(name, str) and check_learner(name) == name
    except AttemptError:
        return False
