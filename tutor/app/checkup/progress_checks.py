"""The progress file looked at without opening it for writing, so that a damaged one stays as it is."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

from tutor.app.checkup.check_result import CheckResult, fine, note, wrong
from tutor.progress.attempt import now_utc
from tutor.progress.backup import FILE, daily_backups, is_in_order
from tutor.progress.results import microseconds
from tutor.progress.schema import MIGRATIONS, NewerStoreError, refuse_newer, version_of

ABOUT = "Progress"
_ADVICE = "the program sets it aside when it next opens it, and goes on from the latest backup"


def of_progress(folder: Path) -> Iterator[CheckResult]:
    """Whether the file is sound, what is in it, and whether there are backups."""
    file = folder / FILE
    backups = daily_backups(folder)
    if not file.exists():
        yield (
            wrong(ABOUT, f"{file} is gone; the program goes on from the backup {backups[0].name}")
            if backups
            else fine(ABOUT, "nothing practised yet")
        )
        return
    try:
        refuse_newer(file)
        with closing(sqlite3.connect(_address(file), uri=True)) as connection:
            yield from _of_file(file, connection)
    except (NewerStoreError, sqlite3.Error, OSError) as fault:
        yield wrong(ABOUT, f"{file}: {fault}")
    if backups:
        yield fine("Backups", f"{len(backups)}, the newest {backups[0]}")


def _address(file: Path) -> str:
    """Opens the file for reading only; with no log beside it, without making one (sqlite.org/uri.html)."""
    beside = file.with_name(f"{file.name}-wal").exists()
    return f"{file.absolute().as_uri()}?mode=ro{'' if beside else '&immutable=1'}"


def _of_file(file: Path, connection: sqlite3.Connection) -> Iterator[CheckResult]:
    if not is_in_order(connection, thorough=True):
        yield wrong(ABOUT, f"{file} is damaged; {_ADVICE}")
        return
    if version_of(connection) < len(MIGRATIONS):
        yield note(ABOUT, f"{file} is of an older form, which the program renews when it next opens it")
        return
    attempts, newest = connection.execute("SELECT count(*), max(time) FROM attempts").fetchone()
    (learners,) = connection.execute("SELECT count(*) FROM learners").fetchone()
    yield fine(ABOUT, f"{file}: in order; {attempts} attempts of {learners} learners")
    if newest is not None and newest > microseconds(now_utc()):
        yield wrong("Clock", "the newest attempt lies in the future: this machine's clock is, or was, wrong")
