"""What a worker process does, and what is said over the pipe to it.

The window tells all that it wants each time; the process works it off in order. The process ends by itself
when its pipe is closed, as it is when the program that started it dies.
"""

from __future__ import annotations

import logging
import signal
from collections.abc import Callable
from dataclasses import dataclass
from multiprocessing.connection import Connection
from typing import Any

from tutor.workers import words

log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class WorkList:
    """To the process: all that is wanted, requests and questions in order; replaces what was before it."""

    requests: tuple[tuple[int, Any], ...]


@dataclass(frozen=True, slots=True)
class Result:
    """What has come of a request."""

    request: int
    value: Any


@dataclass(frozen=True, slots=True)
class Failure:
    """Nothing has come of a request and nothing will; why, without a full stop."""

    request: int
    reason: str


@dataclass(frozen=True, slots=True)
class Dropped:
    """A request is not wanted any more, and nothing is being done about it any more."""

    request: int


@dataclass(frozen=True, slots=True)
class Told:
    """Something said while working: how far it is, or a word about it."""

    value: Any


class DroppedError(BaseException):
    """Raised in the midst of work that is not wanted any more; no work may take it for a fault of its own."""


class Desk:
    """In a worker process: what is wanted, and the way to tell what comes of it."""

    def __init__(self, pipe: Connection) -> None:
        self._pipe = pipe
        self._wanted: dict[int, Any] = {}
        self._done: set[int] = set()
        self._under_way: int | None = None

    def go_on(self) -> None:
        """To be called now and then; raises DroppedError when what is being done is no longer wanted."""
        while self._pipe.poll():
            self._read()
        if self._under_way is not None and self._under_way not in self._wanted:
            raise DroppedError

    def tell(self, value: object) -> None:
        """Say something while working."""
        self._send(Told(value))

    def work_off(self, work: Callable[[Any], object]) -> None:
        """Do what is wanted, in order, for ever; SystemExit comes when the pipe is closed."""
        while True:
            while not self._wanted or self._pipe.poll():
                self._read()
            self._under_way = next(iter(self._wanted))
            report = self._report(work, self._under_way)
            self._done.add(self._under_way)
            self._wanted.pop(self._under_way, None)
            self._under_way = None
            self._send(report)

    def _report(self, work: Callable[[Any], object], request: int) -> Result | Failure | Dropped:
        try:
            return Result(request, work(self._wanted[request]))
        except DroppedError:
            return Dropped(request)
        except Exception as error:
            log.exception(words.REQUEST_FAILED)
            return Failure(request, str(error))

    def _read(self) -> None:
        """Take in what is wanted now; what is done was only not heard of in time."""
        try:
            message = self._pipe.recv()
        except (EOFError, OSError):
            raise SystemExit from None
        assert isinstance(message, WorkList)
        now = dict(message.requests)
        for request in self._wanted.keys() - now.keys() - {self._under_way}:
            self._send(Dropped(request))
        self._done &= now.keys()
        self._wanted = {request: what for request, what in now.items() if request not in self._done}

    def _send(self, message: object) -> None:
        try:
            self._pipe.send(message)
        except OSError:
            raise SystemExit from None


def serve(pipe: Connection, prepare: Callable[..., Callable[[Any], object]], *arguments: object) -> None:
    """Work requests off until the pipe is closed.

    ``prepare`` is given the desk and the ``arguments`` once, and gives what turns a question into its value.
    """
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the program that started this decides when it ends
    desk = Desk(pipe)
    desk.work_off(prepare(desk, *arguments))
