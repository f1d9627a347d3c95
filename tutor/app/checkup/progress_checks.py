"""Reads the progress file without opening it for writing, so that a damaged one stays as it is."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

from tutor.app.checkup import words
from tutor.app.checkup.check_result import CheckResult, fine, note, wrong
from tutor.plain_file import refuse_odd
from tutor.progress.attempt import now_utc
from tutor.progress.backup import FILE, daily_backups, is_in_order
from tutor.progress.connection import reason_of
from tutor.progress.file_address import file_address
from tutor.progress.results import microseconds
from tutor.progress.schema import MIGRATIONS, NewerStoreError, refuse_newer, version_of


def of_progress(folder: Path) -> Iterator[CheckResult]:
    """Whether the file is sound, what is in it, and whether there are backups."""
    file = folder / FILE
    backups: tuple[Path, ...] = ()
    try:
        backups = daily_backups(folder)
        refuse_odd(file)
        if not file.exists():
            yield (
                wrong(words.PROGRESS, words.progress_gone(file, backups[0].name))
                if backups
                else fine(words.PROGRESS, words.NOTHING_PRACTISED)
            )
            return
        refuse_newer(file)
        with closing(sqlite3.connect(_address(file), uri=True)) as connection:
            yield from _of_file(file, connection)
    except NewerStoreError as fault:
        yield wrong(words.PROGRESS, str(fault))
    except (sqlite3.Error, OSError) as fault:
        yield wrong(words.PROGRESS, words.unreadable(file, reason_of(fault)))
    if backups:
        yield fine(words.BACKUPS, words.backups(len(backups), backups[0]))


def _address(file: Path) -> str:
    """Opens the file for reading only; with no log beside it, without making one (sqlite.org/uri.html)."""
    beside = file.with_name(f"{file.name}-wal").exists()
    return f"{file_address(file.absolute())}?mode=ro{'' if beside else '&immutable=1'}"


def _of_file(file: Path, connection: sqlite3.Connection) -> Iterator[CheckResult]:
    if not is_in_order(connection, thorough=True):
        yield wrong(words.PROGRESS, words.progress_damaged(file))
        return
    if version_of(connection) < len(MIGRATIONS):
        yield note(words.PROGRESS, words.progress_older(file))
        return
    attempts, newest = connection.execute("SELECT count(*), max(time) FROM attempts").fetchone()
    (learners,) = connection.execute("SELECT count(*) FROM learners").fetchone()
    yield fine(words.PROGRESS, words.progress_sound(file, attempts, learners))
    if newest is not None and newest > microseconds(now_utc()):
        yield wrong(words.CLOCK, words.CLOCK_WRONG)
