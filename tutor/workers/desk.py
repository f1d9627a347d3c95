"""What a worker process does, and the messages between it and the window.

The window sends all its requests each time; the process works them off in order. The process ends when its
pipe closes, as it does when the program that started it dies.
"""

from __future__ import annotations

import logging
import signal
from collections.abc import Callable
from multiprocessing.connection import Connection
from types import FrameType
from typing import Any

from msgspec import Struct

from tutor.workers import words
from tutor.workers.priority import let_others_go_first

log = logging.getLogger(__name__)


class WorkList(Struct, frozen=True):
    """To the process: all requests with their questions, in order; it replaces the list before it."""

    requests: tuple[tuple[int, Any], ...]


class Result(Struct, frozen=True):
    """The answer to a request."""

    request: int
    value: Any


class Failure(Struct, frozen=True):
    """A request that gets no answer; ``reason`` has no full stop."""

    request: int
    reason: str


class Dropped(Struct, frozen=True):
    """A request that nobody wants any more, and that the process no longer works on."""

    request: int


class Told(Struct, frozen=True):
    """A message sent during the work: how far it is, or a notice."""

    value: Any


FOR_THE_FIRST = tuple(
    found for name in ("SIGINT", "SIGHUP") if (found := getattr(signal, name, None)) is not None
)
"""Signals that reach every process of a terminal; the program that started the others says when they end."""


class DroppedError(BaseException):
    """Raised in the midst of work that is not wanted any more; no work may take it for a fault of its own."""


class Desk:
    """In a worker process: the requests, and the way to send answers."""

    def __init__(self, pipe: Connection) -> None:
        self._pipe = pipe
        self._wanted: dict[int, Any] = {}
        self._done: set[int] = set()
        self._under_way: int | None = None

    def go_on(self) -> None:
        """Call this now and then; it raises DroppedError when nobody wants the current work any more."""
        while self._pipe.poll():
            self._read()
        if self._under_way is not None and self._under_way not in self._wanted:
            raise DroppedError

    def tell(self, value: object) -> None:
        """Send a message during the work."""
        self._send(Told(value))

    def work_off(self, work: Callable[[Any], object]) -> None:
        """Work the requests off in order, for ever; SystemExit comes when the pipe closes."""
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


def _leave(_number: int, _frame: FrameType | None) -> None:
    """End, and leave nothing half written."""
    raise SystemExit


def serve(pipe: Connection, prepare: Callable[..., Callable[[Any], object]], *arguments: object) -> None:
    """Work requests off until the pipe closes.

    ``prepare`` takes the desk and the ``arguments`` once, and gives the function that answers a question.
    """
    for number in FOR_THE_FIRST:
        signal.signal(number, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, _leave)
    let_others_go_first()
    desk = Desk(pipe)
    try:
        desk.work_off(prepare(desk, *arguments))
    finally:
        # From here on it ends by itself, and an exception in that would be printed.
        signal.signal(signal.SIGTERM, signal.SIG_IGN)
