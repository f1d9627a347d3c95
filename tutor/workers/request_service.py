"""Asks a process beside the window, and starts it again when it dies.

The window's thread calls all of this, so nothing here waits. The process starts with the first question.
"""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import islice
from typing import Generic, TypeVar

from msgspec import Struct

from tutor.workers import words
from tutor.workers.desk import Dropped, Failure, Result, Told, WorkList
from tutor.workers.worker_process import WorkerProcess

Q = TypeVar("Q")
T = TypeVar("T")

AT_ONCE = 32
"""Requests that the process is told of at a time. A pipe takes so many without anybody having to read: two
that both wait for the other to read would wait for ever."""

log = logging.getLogger(__name__)


class ProcessEnded(Struct, frozen=True):
    """The process of this number ended unexpectedly; a new one takes up what is still wanted."""

    process_id: int | None


ServiceReport = Result | Failure | Dropped | Told | ProcessEnded


class RequestService(Generic[Q, T]):
    """Has a process answer requests in their order."""

    def __init__(
        self,
        begin: Callable[[], WorkerProcess],
        told: Callable[[ServiceReport], Iterable[T]],
        *,
        deaths: int,
        stays: bool = True,
    ) -> None:
        """``begin`` starts a process; ``told`` turns a report into what ``poll`` gives.

        A request over which the process dies ``deaths`` times in a row is given up. Unless the process
        ``stays``, it ends when nothing is left to do.
        """
        self._begin, self._told, self._most_deaths, self._stays = begin, told, deaths, stays
        self._process: WorkerProcess | None = None
        self._wanted: dict[int, Q] = {}
        self._leaving: set[int] = set()
        self._sent: set[int] = set()
        self._changed = False
        self._deaths = 0

    @property
    def process_id(self) -> int | None:
        """The number of the process, for tests and diagnosis; None while there is none."""
        return None if self._process is None else self._process.process_id

    def start(self) -> WorkerProcess:
        """Start the process before the first question, unless it runs already, and give it."""
        if self._process is None:
            self._process, self._sent = self._begin(), set()
        return self._process

    def ask(self, request: int, question: Q) -> None:
        """Ask a question; ``poll`` gives its answer later under this number, which serves once."""
        self._wanted[request] = question
        self._changed = True

    def forget(self, requests: Sequence[int]) -> None:
        """Drop these requests; a report says of each when no work on it goes on any more."""
        self._leaving |= self._wanted.keys() & set(requests)
        self._wanted = {number: what for number, what in self._wanted.items() if number not in requests}
        self._changed = True

    def poll(self) -> tuple[T, ...]:
        """The answers that have come since the last call; sends the questions asked since. Never waits."""
        reports = tuple(self._heard())
        if self._changed:
            reports += tuple(self._say_what_is_wanted())
        return tuple(told for report in reports for told in self._told(report))

    def wait(self, seconds: float) -> bool:
        """Wait at most so long for a message; whether there is one."""
        return self._process is not None and self._process.wait(seconds)

    def close(self, patience: float = 0.0) -> None:
        """End the process, which has so many seconds to do so by itself, and drop its work."""
        self._wanted, self._leaving, self._changed = {}, set(), False
        if self._process is not None:
            self._process.end(patience)
            self._process = None

    def _heard(self) -> Iterator[ServiceReport]:
        if self._process is None:
            return
        messages, alive = self._process.receive()
        for message in messages:
            assert isinstance(message, Result | Failure | Dropped | Told)
            if not isinstance(message, Told):
                self._deaths = 0
                self._wanted.pop(message.request, None)
                self._leaving.discard(message.request)
            yield message
        # What waits behind those that were sent follows when one of them is done.
        self._changed |= bool(messages) and not self._wanted.keys() <= self._sent
        if not alive:
            yield from self._died()
        elif messages and not self._stays and not self._wanted and not self._leaving:
            self._process.let_go()
            self._process = None

    def _died(self) -> Iterator[ServiceReport]:
        """What is reported of its end; what is wanted goes to one anew, but for what is given up."""
        assert self._process is not None
        log.warning(words.PROCESS_STOPPED)
        self._process.end()
        yield ProcessEnded(self._process.process_id)
        self._process, self._changed, self._deaths = None, True, self._deaths + 1
        yield from self._left(self._leaving)
        if self._wanted and self._deaths >= self._most_deaths:
            request, self._deaths = next(iter(self._wanted)), 0
            del self._wanted[request]
            yield Failure(request, words.STOPPED_EVERY_TIME)

    def _say_what_is_wanted(self) -> Iterator[ServiceReport]:
        self._changed = False
        yield from self._left(self._leaving - self._sent)
        if self._wanted or self._process is not None:
            first = tuple(islice(self._wanted.items(), AT_ONCE))
            self.start().send(WorkList(first))
            self._sent = {number for number, _ in first}

    def _left(self, requests: set[int]) -> Iterator[Dropped]:
        """Of these the process knows nothing, or is gone with them."""
        self._leaving = self._leaving - requests
        for request in requests:
            yield Dropped(request)
