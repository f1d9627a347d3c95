"""Backups of the progress file, and what happens when the file is damaged: set aside, never thrown away."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable, Iterator
from contextlib import closing, contextmanager, suppress
from datetime import datetime
from functools import partial
from pathlib import Path
from tempfile import NamedTemporaryFile, gettempdir

from tutor.atomic_file import patiently, replacing, tidy_away
from tutor.progress.attempt import AttemptRecord
from tutor.progress.file_address import file_address
from tutor.progress.interchange import format_line
from tutor.progress.schema import has_its_tables, refuse_newer

FILE = "progress.sqlite"
BACKUPS = "backups"
_DAILY = "progress-"
DAILY_KEPT = 7
"""Of the daily backups the newest so many are kept."""
_BESIDE = ("-wal", "-shm")
"""Files that SQLite keeps beside its database (sqlite.org/wal.html)."""
_DAMAGED_CODES = (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB)


def text_as_it_is(content: bytes) -> str:
    """Text as the file has it; what is no UTF-8 any more ends no query, and is refused when it is parsed."""
    return content.decode("utf-8", "surrogateescape")


def is_damage(fault: sqlite3.Error) -> bool:
    """Whether the fault says that the file's content is broken, not that it cannot be reached or is full."""
    # The lowest byte is the primary result code (sqlite.org/rescode.html).
    return getattr(fault, "sqlite_errorcode", 0) & 0xFF in _DAMAGED_CODES


def is_sound(path: Path, *, thorough: bool = False) -> bool:
    """Whether the file is a database in order; ``thorough`` holds the indexes against the tables as well.

    Raises sqlite3.Error when it cannot be reached.
    """
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        return is_in_order(connection, thorough=thorough)


def is_in_order(connection: sqlite3.Connection, *, thorough: bool = False) -> bool:
    """As ``is_sound``, for a database that is open."""
    check = "integrity_check" if thorough else "quick_check"
    try:
        connection.text_factory = text_as_it_is
        told = [row[0] for row in connection.execute(f"PRAGMA {check}(1)")]
        return told == ["ok"] and has_its_tables(connection)
    except UnicodeDecodeError:
        # A message of SQLite's that quotes a broken table definition.
        return False
    except sqlite3.DatabaseError as fault:
        if is_damage(fault):
            return False
        raise


def daily_backups(folder: Path) -> tuple[Path, ...]:
    """The daily backups, newest first."""
    found = (folder / BACKUPS).glob(f"{_DAILY}*.sqlite")
    return tuple(sorted((path for path in found if path.is_file()), reverse=True))


def back_up_daily(connection: sqlite3.Connection, folder: Path, now: datetime, *, anew: bool = False) -> Path:
    """Make today's backup if there is none yet, or ``anew``, let the oldest go, and return today's.

    Raises OSError or sqlite3.Error when it cannot be written.
    """
    target = folder / BACKUPS / f"{_DAILY}{now:%Y-%m-%d}.sqlite"
    if anew or not target.exists():
        copy_to(connection, target)
        for old in daily_backups(folder)[DAILY_KEPT:]:
            tidy_away(old)
    return target


def copy_to(connection: sqlite3.Connection, target: Path) -> None:
    """Copy the whole database to a file: beside first, then renamed, so that no half copy is ever there."""
    target.parent.mkdir(parents=True, exist_ok=True)
    with replacing(target) as beside:
        beside.unlink(missing_ok=True)
        with closing(sqlite3.connect(beside, isolation_level=None)) as copy:
            connection.backup(copy)
            # A file on its own: a backup has no log beside it.
            copy.execute("PRAGMA journal_mode = DELETE")


def free_name(folder: Path, stem: str, now: datetime) -> Path:
    """A dated name in the folder that nothing has yet."""
    dated = f"{stem}-{now:%Y-%m-%d-%H%M%S}"
    names = (f"{dated}.sqlite", *(f"{dated}-{number}.sqlite" for number in range(2, 1000)))
    return next(folder / name for name in names if not (folder / name).exists())


def set_aside(folder: Path, now: datetime) -> Path:
    """Give the damaged file, and what lies beside it, a dated name, and return it."""
    aside = free_name(folder, "progress-damaged", now)
    patiently(lambda: (folder / FILE).rename(aside))
    for suffix in _BESIDE:
        beside = folder / f"{FILE}{suffix}"
        if beside.exists():
            patiently(partial(beside.rename, aside.with_name(f"{aside.name}{suffix}")))
    return aside


def restore(folder: Path) -> Path | None:
    """Put the newest backup that is in order in the file's place and return it; None when there is none."""
    for backup in daily_backups(folder):
        refuse_newer(backup)
        # A backup may have been made of a file whose damage was hidden.
        if not is_sound(backup, thorough=True):
            continue
        with closing(sqlite3.connect(f"{file_address(backup.absolute())}?mode=ro", uri=True)) as source:
            copy_to(source, folder / FILE)
        return backup
    return None


def readable_lines(path: Path, table: str = "attempts") -> Iterator[str]:
    """The JSON lines that can be read from a ``table`` of a damaged file, some of them twice.

    It is read from both ends, each time up to the first record that cannot be read.
    """
    for order in ("ASC", "DESC"):
        try:
            with closing(sqlite3.connect(f"{file_address(path.absolute())}?mode=ro", uri=True)) as connection:
                # Otherwise a file shorter than its header says is not read at all.
                connection.execute("PRAGMA writable_schema = ON")
                connection.text_factory = text_as_it_is
                by = "rowid" if table == "attempts" else "learner"
                for (line,) in connection.execute(f"SELECT line FROM {table} ORDER BY {by} {order}"):
                    if isinstance(line, str):
                        yield line
        except (sqlite3.Error, UnicodeDecodeError):
            continue


def rescue(attempts: Iterable[AttemptRecord]) -> Path | None:
    """Write attempts to a new file of JSON lines; None when nowhere can be written.

    It goes to the person's own folder, or else where temporary files go, which some systems clear.
    """
    content = "".join(f"{format_line(attempt)}\n" for attempt in attempts).encode()
    for folder in (Path.home, gettempdir):
        with suppress(OSError, RuntimeError):
            return _written_new(Path(folder()), content)
    return None


def _written_new(folder: Path, content: bytes) -> Path:
    """A new file with this content; when that fails, none is left."""
    with NamedTemporaryFile(dir=folder, prefix="pairwright-attempts-", suffix=".jsonl", delete=False) as file:
        written = Path(file.name)
    try:
        written.write_bytes(content)
    except OSError:
        tidy_away(written)
        raise
    return written


@contextmanager
def alone(folder: Path, lock: str = "progress.lock") -> Iterator[None]:
    """Only one process at a time is in this block: nobody opens a file while another sets it aside.

    ``lock`` is a file of the folder that only SQLite opens, whose locks hold on every system. Raises
    sqlite3.OperationalError when the folder cannot be written, or the wait is too long.
    """
    with closing(sqlite3.connect(folder / lock, timeout=20.0, isolation_level=None)) as held:
        held.execute("BEGIN EXCLUSIVE")
        yield
