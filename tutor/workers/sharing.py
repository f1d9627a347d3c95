"""Carries out what a window does with a shared folder, on a thread of its own: a share may take its time."""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from contextlib import suppress
from pathlib import Path

from tutor.progress.connection import reason_of
from tutor.progress.exchange import Exchange
from tutor.progress.presence import Live, Presence, live
from tutor.progress.presence_files import PresenceFiles
from tutor.progress.shared_folder import SharedFolder
from tutor.progress.store import AttemptStore, StoreError
from tutor.quoting import visible
from tutor.session.record_commands import Exchanged
from tutor.workers import words


class Sharing:
    """A shared folder and a progress file. Use it from one thread at a time."""

    def __init__(
        self,
        folder: Path,
        store: Callable[[], AttemptStore | None],
        wall: Callable[[], float] = time.time,
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        """Nothing is read or written yet. ``store`` gives the one open progress file of this process.

        A second one must not be opened: where a process closes a file, it loses its locks on it (POSIX,
        fcntl), SQLite's too, and another process takes the file for free (sqlite.org/howtocorrupt, 2.2).
        """
        self._folder = folder
        self._name = visible(folder)
        self._open = store
        self._wall = wall
        self._clock = clock
        self._presences = PresenceFiles(folder)
        self._exchange: Exchange | None = None
        self._last: Exchanged | None = None

    def carry_out(self, presence: Presence) -> Sequence[Exchanged]:
        """Exchange attempts, tell ``presence``; what has come of it, or nothing where all is as it was."""
        store = self._open()
        if store is None:
            return ()
        exchanged = self._exchanged(store, presence)
        if exchanged == self._last and not exchanged.learners:
            return ()
        self._last = exchanged
        return (exchanged,)

    def close(self) -> None:
        """Write what the folder lacks, and leave it; where it is away, the next window writes it."""
        try:
            if self._exchange is not None:
                with suppress(OSError, StoreError):
                    self._exchange.carry_out()
        finally:
            self._presences.leave()

    def _exchanged(self, store: AttemptStore, presence: Presence) -> Exchanged:
        if self._exchange is None:
            self._exchange = Exchange(store, SharedFolder(self._folder))
        others: tuple[Live, ...] = ()
        try:
            # First, so that a progress file that cannot be written hides nobody.
            self._presences.tell(presence, self._clock())
            others = live(self._presences.others(self._wall(), self._clock()))
            received = self._exchange.carry_out()
        except StoreError as fault:
            return Exchanged(self._name, others=others, problem=words.not_shared(self._name, str(fault)))
        except OSError as fault:
            problem = words.away(self._name, reason_of(fault))
            return Exchanged(self._name, problem=problem, away=True)
        return Exchanged(self._name, tuple(sorted(received.learners)), others, received.refused)
