"""All rows that a learner has in the progress file: given over to another name, deleted, or put back.

Every table with a column ``learner`` takes part, so that what is kept of learners one day follows too.
"""

from __future__ import annotations

import sqlite3
from pathlib import Path

import msgspec

from tutor.progress.attempt import GUEST
from tutor.progress.notes import NOTE_KINDS


def tables_of_learners(connection: sqlite3.Connection) -> tuple[str, ...]:
    """The tables whose rows belong to learners."""
    rows = connection.execute(
        "SELECT t.name FROM sqlite_schema AS t, pragma_table_info(t.name) AS c "
        "WHERE t.type = 'table' AND c.name = 'learner' ORDER BY t.name"
    )
    return tuple(row[0] for row in rows.fetchall())


def give_over(connection: sqlite3.Connection, old: str, new: str) -> None:
    """Write ``new`` as the learner of all that ``old`` has; the old name is gone, unless it is the guest's.

    Of two rows for one thing the new learner's stays, of notes the later. Call it in a transaction.
    """
    connection.create_function("under_name", 2, _under_name, deterministic=True)
    for kind in NOTE_KINDS:
        connection.execute(
            f"DELETE FROM {kind.table} WHERE learner = ?2 AND EXISTS (SELECT 1 FROM {kind.table} AS other "
            f"WHERE other.learner = ?1 AND other.{kind.about} = {kind.table}.{kind.about} "
            f"AND other.time > {kind.table}.time)",
            (old, new),
        )
    for table in tables_of_learners(connection):
        line = (
            ", line = CAST(under_name(CAST(line AS BLOB), ?2) AS TEXT)"
            if _has_line(connection, table)
            else ""
        )
        connection.execute(f"UPDATE OR IGNORE {table} SET learner = ?2{line} WHERE learner = ?1", (old, new))
    forget_rows(connection, old)
    connection.execute("INSERT OR IGNORE INTO learners VALUES (?)", (new,))


def forget_rows(connection: sqlite3.Connection, learner: str | None) -> None:
    """Delete all that a learner has, and the name; of all learners without one. The guest's name stays."""
    where, values = ("", ()) if learner is None else (" WHERE learner = ?", (learner,))
    for table in tables_of_learners(connection):
        connection.execute(f"DELETE FROM {table}{where}", values)
    named, names = ("", ()) if learner is None else (" AND name = ?", (learner,))
    connection.execute(f"DELETE FROM learners WHERE name <> ?{named}", (GUEST, *names))


def put_back(connection: sqlite3.Connection, backup: Path, learner: str) -> None:
    """Take all that a learner had from a backup of the present form; what is there already stays.

    Raises sqlite3.Error; then nothing has changed.
    """
    connection.execute("ATTACH DATABASE ? AS backup", (str(backup),))
    try:
        connection.execute("BEGIN IMMEDIATE")
        for table in tables_of_learners(connection):
            connection.execute(
                f"INSERT OR IGNORE INTO main.{table} SELECT * FROM backup.{table} WHERE learner = ?",
                (learner,),
            )
        connection.execute("INSERT OR IGNORE INTO main.learners VALUES (?)", (learner,))
        connection.execute("COMMIT")
    finally:
        if connection.in_transaction:
            connection.execute("ROLLBACK")
        connection.execute("DETACH DATABASE backup")


def _has_line(connection: sqlite3.Connection, table: str) -> bool:
    columns = connection.execute("SELECT name FROM pragma_table_info(?)", (table,)).fetchall()
    return ("line",) in columns


def _under_name(line: bytes, name: str) -> bytes:
    """A JSON line with another learner; one that cannot be read stays as it is."""
    try:
        read = msgspec.json.decode(line)
        return msgspec.json.encode({**read, "learner": name}) if "learner" in read else line
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError, TypeError):
        return line
