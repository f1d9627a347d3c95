"""The tables of the progress file, their version, and the steps from an older version to this one."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path

from tutor.plain_file import read_plain
from tutor.progress import words
from tutor.progress.attempt import GUEST
from tutor.quoting import ToldError

_VERSION_OFFSET = 60
"""Where an SQLite file's header holds the user version: 4 bytes, highest first (sqlite.org/fileformat2)."""


class NewerStoreError(ToldError):
    """The file was written by a newer version of the program; it has not been touched."""

    def __init__(self, path: Path, version: int) -> None:
        super().__init__(words.newer_form(path, version, len(MIGRATIONS)))


def _first_tables(connection: sqlite3.Connection) -> None:
    """Learners, attempts, and what was undone: that is kept from coming in again with a merge."""
    for statement in (
        "CREATE TABLE learners (name TEXT PRIMARY KEY) WITHOUT ROWID",
        "CREATE TABLE attempts (uuid TEXT PRIMARY KEY, learner TEXT NOT NULL, time INTEGER NOT NULL, "
        "line TEXT NOT NULL)",
        "CREATE INDEX attempts_by_time ON attempts (learner, time, uuid)",
        "CREATE TABLE undone (uuid TEXT PRIMARY KEY) WITHOUT ROWID",
    ):
        connection.execute(statement)
    connection.execute("INSERT INTO learners VALUES (?)", (GUEST,))


def _figures_by_hand(_connection: sqlite3.Connection) -> None:
    """Lines may tell the fewest turns by hand; those that are there stay as they are.

    Only the version goes up: a program that does not know these lines could not read them, and would leave
    them out.
    """


def _attempts_alone(connection: sqlite3.Connection) -> None:
    """What files up to version 2 keep beside the attempts, and what follows from the attempts, goes.

    A program of before counts only attempts that it finds there. So the version goes up, and such a program
    refuses the file; to go back to it, export the attempts and import them into a new folder.
    """
    connection.execute("DROP TABLE IF EXISTS results")
    connection.execute("DROP TABLE IF EXISTS checkpoints")


def _names_of_now(_connection: sqlite3.Connection) -> None:
    """Lines may carry the case's number and the modes' and outcomes' names of now; those there stay.

    Only the version goes up, since a program that does not know these lines could not read them.
    """


def _own_words(connection: sqlite3.Connection) -> None:
    """A line of a learner's own for each case; the latest stays, and an empty one stays as removed."""
    connection.execute(
        "CREATE TABLE own_words (learner TEXT NOT NULL, slug TEXT NOT NULL, time INTEGER NOT NULL, "
        "line TEXT NOT NULL, PRIMARY KEY (learner, slug)) WITHOUT ROWID"
    )


def _assignments(connection: sqlite3.Connection) -> None:
    """What each learner has to do; the latest record stays, also that something was withdrawn."""
    connection.execute(
        "CREATE TABLE assignments (learner TEXT NOT NULL, task TEXT NOT NULL, time INTEGER NOT NULL, "
        "line TEXT NOT NULL, PRIMARY KEY (learner, task)) WITHOUT ROWID"
    )


MIGRATIONS: tuple[Callable[[sqlite3.Connection], None], ...] = (
    _first_tables,
    _figures_by_hand,
    _attempts_alone,
    _names_of_now,
    _own_words,
    _assignments,
)
"""Step n leads from version n to version n + 1; an empty file has version 0."""


def refuse_newer(path: Path) -> None:
    """Raise NewerStoreError if the file at ``path`` has a newer form; only its header is read.

    A file that is not there, is too short, or cannot be read is none of this function's business.
    """
    try:
        header = read_plain(path, _VERSION_OFFSET + 4)
    except OSError:
        return
    version = int.from_bytes(header[_VERSION_OFFSET:], "big", signed=True)
    if header.startswith(b"SQLite format 3\0") and version > len(MIGRATIONS):
        raise NewerStoreError(path, version)


def version_of(connection: sqlite3.Connection) -> int:
    """The version of the tables."""
    return int(connection.execute("PRAGMA user_version").fetchone()[0])


def has_its_tables(connection: sqlite3.Connection) -> bool:
    """Whether the tables are those that the version says; of an older version only that there are some.

    Raises sqlite3.Error when they cannot be read at all.
    """
    version = version_of(connection)
    if version != len(MIGRATIONS):
        found = connection.execute("SELECT 1 FROM sqlite_schema LIMIT 1").fetchone() is not None
        return found == (version > 0)
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as model:
        migrate(model, Path())
        return _columns(connection) == _columns(model)


def _columns(connection: sqlite3.Connection) -> list[tuple[str, str]]:
    return connection.execute(
        "SELECT t.name, c.name FROM sqlite_schema AS t, pragma_table_info(t.name) AS c ORDER BY t.name, c.cid"
    ).fetchall()


def migrate(connection: sqlite3.Connection, path: Path) -> None:
    """Bring the tables to this version, all steps or none. Raises NewerStoreError."""
    if version_of(connection) == len(MIGRATIONS):
        return
    with transaction(connection):
        # Asked again: another process may have done it while this one waited to begin.
        version = version_of(connection)
        if version > len(MIGRATIONS):
            raise NewerStoreError(path, version)
        for step in MIGRATIONS[version:]:
            step(connection)
        connection.execute(f"PRAGMA user_version = {len(MIGRATIONS)}")


@contextmanager
def transaction(connection: sqlite3.Connection) -> Iterator[None]:
    """All that the block writes, or nothing. Raises sqlite3.Error, the first fault there was."""
    connection.execute("BEGIN IMMEDIATE")
    try:
        yield
        connection.execute("COMMIT")
    except BaseException:
        # A full disk may have ended the transaction already (sqlite.org/lang_transaction.html), and a disk
        # that is gone refuses this as well; neither may hide what went wrong first.
        if connection.in_transaction:
            with suppress(sqlite3.Error):
                connection.execute("ROLLBACK")
        raise
