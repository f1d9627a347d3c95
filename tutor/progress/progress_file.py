"""The open progress file: seen to be the one in its place, and reached for anew when it is not."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import suppress
from datetime import datetime
from pathlib import Path
from typing import Any

from tutor.progress.attempt import AttemptRecord
from tutor.progress.backup import is_damage
from tutor.progress.connection import (
    Opened,
    add,
    attempts_through,
    identity_of,
    open_file,
    open_or_remember,
    remembered,
)
from tutor.progress.notes import Note, add_notes, notes_through
from tutor.progress.schema import NewerStoreError

UNREACHABLE = (sqlite3.Error, OSError, NewerStoreError)
"""Why the file in its place cannot be used: a fault of the disk, or a newer version's file."""


class ProgressFile:
    """A connection that follows what becomes of the file: moved, replaced, damaged, out of reach.

    Where nothing can be written it leads to a copy in memory. One thread may use it at a time, and the
    ``connection`` itself only right after ``reach``.
    """

    def __init__(self, folder: Path, clock: Callable[[], datetime]) -> None:
        """Open the file of a folder, made if there is none. Raises NewerStoreError."""
        self._folder = folder
        self._clock = clock
        self._opened: Opened = open_or_remember(folder, clock())

    @property
    def connection(self) -> sqlite3.Connection:
        """What is open now."""
        return self._opened.connection

    @property
    def notices(self) -> tuple[str, ...]:
        """What opening it gave to say to the learner."""
        return self._opened.notices

    @property
    def out_of_reach(self) -> str:
        """Why there is only memory; empty while the file is open."""
        return self._opened.reason

    def mark(self) -> tuple[object, ...]:
        """What changes whenever anybody has written to the file."""
        by_others = self.rows("PRAGMA data_version")[0]
        return self._opened.identity, *by_others, self.connection.total_changes

    def reach(self) -> None:
        """See that what is open is the file in its place; what was written elsewhere is carried over.

        Raises what ``UNREACHABLE`` names.
        """
        if self._is_elsewhere:
            self._reopen(attempts_through(self.connection), notes_through(self.connection))
        elif self.out_of_reach:
            # What is only in memory waits to be written.
            self._reopen((), ())

    def rows(self, statement: str, values: tuple[object, ...] = ()) -> list[tuple[Any, ...]]:
        """The rows of a query; should the file turn out to be damaged, those of what is put in its place."""
        if self._is_elsewhere:
            # Where nothing can be put in its place, what is still open can be read.
            with suppress(*UNREACHABLE):
                self.reach()
        try:
            return self.connection.execute(statement, values).fetchall()
        except sqlite3.DatabaseError as fault:
            if not is_damage(fault):
                raise
            with suppress(*UNREACHABLE):
                self._replace_damaged()
            return self.connection.execute(statement, values).fetchall()

    def add(self, attempts: tuple[AttemptRecord, ...]) -> None:
        """Write attempts, if need be into what is put in a damaged file's place. Raises sqlite3.Error."""
        try:
            add(self.connection, attempts)
        except sqlite3.DatabaseError as fault:
            if not is_damage(fault):
                raise
            self._replace_damaged()
            add(self.connection, attempts)

    def close(self) -> None:
        """Let go of the file."""
        self.connection.close()

    @property
    def _is_elsewhere(self) -> bool:
        """Whether the open file was renamed, deleted or replaced; what is written to it would be lost."""
        return not self.out_of_reach and identity_of(self._folder) != self._opened.identity

    def _reopen(self, attempts: tuple[AttemptRecord, ...], notes: tuple[Note, ...]) -> None:
        """Open the file in its place with what is carried over; where that fails, all stays as it is."""
        opened = open_file(self._folder, self._clock())
        try:
            add(opened.connection, attempts)
            add_notes(opened.connection, notes)
        except BaseException:
            opened.connection.close()
            raise
        self.connection.close()
        self._opened = opened

    def _replace_damaged(self) -> None:
        """Have the damaged file set aside; where that fails, what could still be read of it is in memory.

        Raises what kept it from being set aside.
        """
        attempts, notes = attempts_through(self.connection), notes_through(self.connection)
        # Not every system renames a file that is open.
        self.connection.close()
        try:
            self._opened = open_file(self._folder, self._clock(), thorough=True)
        except UNREACHABLE as fault:
            self._opened = remembered(self._folder, fault)
            add(self.connection, attempts)
            add_notes(self.connection, notes)
            raise
