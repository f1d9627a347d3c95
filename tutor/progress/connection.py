"""Opening the progress file: damage set aside, backups made, memory instead where nothing can be written."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from contextlib import closing
from datetime import datetime
from pathlib import Path
from uuid import UUID

from msgspec import Struct

from tutor.plain_file import is_plain, refuse_odd
from tutor.progress import words
from tutor.progress.attempt import GUEST, AttemptError, AttemptRecord
from tutor.progress.backup import (
    BACKUPS,
    FILE,
    alone,
    back_up_daily,
    copy_to,
    daily_backups,
    free_name,
    is_in_order,
    is_sound,
    readable_lines,
    restore,
    set_aside,
    text_as_it_is,
)
from tutor.progress.file_address import file_address, is_elsewhere
from tutor.progress.interchange import format_line, parse_line
from tutor.progress.learner_rows import give_over
from tutor.progress.names import folded, known_names, named_once
from tutor.progress.notes import NOTE_TABLES, Note, add_notes, notes_in
from tutor.progress.results import microseconds
from tutor.progress.schema import (
    MIGRATIONS,
    NewerStoreError,
    migrate,
    refuse_newer,
    transaction,
    version_of,
)

BUSY_SECONDS = 5.0
"""How long to wait for another process that is writing."""


class Opened(Struct, frozen=True):
    """A connection to the progress file, or, with ``reason``, to a copy in memory since the file cannot be
    written; and what there is to say to the learner.

    ``identity`` is that of the file the connection leads to, see ``identity_of``; None in memory.
    """

    connection: sqlite3.Connection
    notices: tuple[str, ...] = ()
    reason: str = ""
    identity: tuple[int, int] | None = None


def reason_of(fault: Exception) -> str:
    """Why something could not be written, in words: without the number that a system's fault carries."""
    if isinstance(fault, NewerStoreError):
        return words.NEWER_VERSION_THERE
    return fault.strerror or str(fault) if isinstance(fault, OSError) else str(fault)


def open_or_remember(folder: Path, now: datetime) -> Opened:
    """The progress file of a folder, made if there is none; a copy in memory where it cannot be written.

    Raises NewerStoreError.
    """
    refuse_newer(folder / FILE)
    try:
        return open_file(folder, now)
    except (OSError, sqlite3.Error) as fault:
        return remembered(folder, fault)


def remembered(folder: Path, fault: Exception) -> Opened:
    """A copy in memory of what can be read, since the file cannot be written for this reason."""
    reason = reason_of(fault)
    return Opened(_in_memory(folder), (words.in_memory_only(folder, reason),), reason)


def open_file(folder: Path, now: datetime, *, thorough: bool = False) -> Opened:
    """The progress file of a folder, made if there is none; ``thorough`` looks for damage that hides.

    Raises OSError or sqlite3.Error when it cannot be written, NewerStoreError when its form is newer.
    """
    refuse_newer(folder / FILE)
    refuse_odd(folder / FILE)
    folder.mkdir(parents=True, exist_ok=True)
    with alone(folder):
        notices, saved, notes = _made_sound(folder, now, thorough=thorough)
        connection = _connected(folder / FILE)
        try:
            if 0 < version_of(connection) < len(MIGRATIONS):
                copy_to(connection, free_name(folder / BACKUPS, "before-update", now))
            migrate(connection, folder / FILE)
            _each_name_once(connection, folder, now)
            if saved:
                add(connection, saved)
            if notes:
                add_notes(connection, notes)
            notices += _backed_up(connection, folder, now)
            # Asks for the right to write, so that a file that can only be read is noticed now.
            with transaction(connection):
                pass
        except BaseException:
            connection.close()
            raise
        identity = identity_of(folder)
    return Opened(connection, notices, identity=identity)


def identity_of(folder: Path) -> tuple[int, int] | None:
    """Which file is in its place now: device and number; None when there is none, or it cannot be seen."""
    try:
        status = (folder / FILE).stat()
    except OSError:
        return None
    return status.st_dev, status.st_ino


def attempts_through(connection: sqlite3.Connection) -> tuple[AttemptRecord, ...]:
    """The attempts that can be read through a connection whose file is no longer in its place."""
    try:
        return _parsed(row[0] for row in connection.execute("SELECT line FROM attempts").fetchall())
    except sqlite3.Error:
        return ()


def add(connection: sqlite3.Connection, attempts: tuple[AttemptRecord, ...]) -> frozenset[UUID]:
    """Write attempts in one transaction and return the numbers of those that were new.

    One that is there already, or was undone, is left out. Names are written as the file writes them already.
    Raises sqlite3.Error; then none is written.
    """
    new: set[UUID] = set()
    with transaction(connection):
        names = known_names(connection)
        for given in attempts:
            attempt = named_once(given, names)
            number, time = attempt.uuid.hex, microseconds(attempt.time)
            if connection.execute("SELECT 1 FROM undone WHERE uuid = ?", (number,)).fetchone():
                continue
            added = connection.execute(
                "INSERT OR IGNORE INTO attempts VALUES (?, ?, ?, ?)",
                (number, attempt.learner, time, format_line(attempt)),
            )
            if added.rowcount:
                new.add(attempt.uuid)
                connection.execute("INSERT OR IGNORE INTO learners VALUES (?)", (attempt.learner,))
    return frozenset(new)


def _each_name_once(connection: sqlite3.Connection, folder: Path, now: datetime) -> None:
    """Make one learner of those whose names differ only in how they are written, as older files may have."""
    names = [row[0] for row in connection.execute("SELECT name FROM learners ORDER BY name").fetchall()]
    kept = known_names(connection) | {folded(GUEST): GUEST}
    twice = [name for name in names if isinstance(name, str) and kept[folded(name)] != name]
    if not twice:
        return
    copy_to(connection, free_name(folder / BACKUPS, "before-join", now))
    for name in twice:
        with transaction(connection):
            give_over(connection, name, kept[folded(name)])


def _backed_up(connection: sqlite3.Connection, folder: Path, now: datetime) -> tuple[str, ...]:
    """Make today's backup unless nothing is there to lose; what to say if it cannot be made."""
    something = " UNION ALL ".join(f"SELECT 1 FROM {table}" for table in ("attempts", *NOTE_TABLES))
    if not connection.execute(f"{something} LIMIT 1").fetchone():
        return ()
    try:
        back_up_daily(connection, folder, now)
    except (OSError, sqlite3.Error) as fault:
        return (words.no_backup_today(fault),)
    return ()


def _made_sound(
    folder: Path, now: datetime, *, thorough: bool
) -> tuple[tuple[str, ...], tuple[AttemptRecord, ...], tuple[Note, ...]]:
    """See that the file is in order or not there; what to say, and what was saved from a damaged one."""
    path = folder / FILE
    there = path.exists() and path.stat().st_size > 0
    if (there and is_sound(path, thorough=thorough)) or (not there and not daily_backups(folder)):
        return (), (), ()
    aside = set_aside(folder, now) if path.exists() else None
    saved = _attempts_in(aside) if aside is not None else ()
    backup = restore(folder)
    told = words.went_on_from(
        None if aside is None else aside.name, None if backup is None else backup.name, len(saved)
    )
    return (told,), saved, () if aside is None else notes_in(aside)


def _attempts_in(damaged: Path) -> tuple[AttemptRecord, ...]:
    return _parsed(readable_lines(damaged))


def _parsed(lines: Iterable[str]) -> tuple[AttemptRecord, ...]:
    attempts: dict[UUID, AttemptRecord] = {}
    for line in lines:
        try:
            attempt = parse_line(line)
        except AttemptError:
            continue
        attempts[attempt.uuid] = attempt
    return tuple(attempts.values())


def _connected(path: Path) -> sqlite3.Connection:
    # Used from one thread at a time, which the store's lock sees to.
    connection = sqlite3.connect(path, BUSY_SECONDS, isolation_level=None, check_same_thread=False)
    connection.text_factory = text_as_it_is
    try:
        mode = "DELETE" if is_elsewhere(path.absolute()) else "WAL"
        connection.execute(f"PRAGMA journal_mode = {mode}")
        connection.execute("PRAGMA synchronous = FULL")
    except sqlite3.Error:
        connection.close()
        raise
    return connection


def _in_memory(folder: Path) -> sqlite3.Connection:
    """Tables in memory, with what the file holds if it can be read and is in order."""
    address = file_address((folder / FILE).absolute())
    # A database in write-ahead mode needs files beside it even for reading, unless it is said not to change.
    for mode in ("mode=ro", "mode=ro&immutable=1") if is_plain(folder / FILE) else ():
        connection = _empty()
        try:
            with closing(sqlite3.connect(f"{address}?{mode}", uri=True)) as file:
                file.backup(connection)
            if is_in_order(connection):
                migrate(connection, folder / FILE)
                return connection
        except (sqlite3.Error, NewerStoreError):
            pass
        connection.close()
    connection = _empty()
    migrate(connection, folder / FILE)
    return connection


def loaded(backup: Path) -> sqlite3.Connection:
    """Tables in memory with what a backup holds, in the present form.

    Raises OSError or sqlite3.Error when it cannot be read or is none, NewerStoreError.
    """
    if not backup.is_file():
        raise OSError(words.NO_FILE_THERE)
    refuse_newer(backup)
    connection = _empty()
    try:
        with closing(sqlite3.connect(f"{file_address(backup.absolute())}?mode=ro", uri=True)) as file:
            file.backup(connection)
        # Tables of the attempts make it a backup; an empty database is in order as well.
        if not is_in_order(connection, thorough=True) or not version_of(connection):
            raise sqlite3.DatabaseError(words.NO_BACKUP)
        migrate(connection, backup)
    except BaseException:
        connection.close()
        raise
    return connection


def _empty() -> sqlite3.Connection:
    connection = sqlite3.connect(":memory:", isolation_level=None, check_same_thread=False)
    connection.text_factory = text_as_it_is
    return connection
