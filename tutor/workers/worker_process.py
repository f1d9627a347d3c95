"""A process beside the window and the pipe to it, as seen from the window's side.

The process is started with the ``spawn`` method: a program that uses one must guard its main module.
"""

from __future__ import annotations

import logging
import sys
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from multiprocessing.connection import wait
from multiprocessing.process import BaseProcess
from typing import Any

from tutor.workers import words
from tutor.workers.desk import serve

if sys.platform == "win32":
    from multiprocessing.connection import PipeConnection as Connection
else:
    from multiprocessing.connection import Connection

PATIENCE = 2.0
"""Seconds to wait for a process that was told to terminate."""

log = logging.getLogger(__name__)


class WorkerProcess:
    """A spawned process that serves requests, and this end of the pipe to it."""

    def __init__(self, prepare: Callable[..., Callable[[Any], object]], *arguments: object) -> None:
        """Begin to start it; ``prepare`` is a function at the top level of a module, as ``serve`` wants it.

        Neither starting nor sending is waited for: both may take longer than a frame.
        """
        # The window's first screen needs no process, so what makes them is not imported before one is wanted.
        from multiprocessing import get_context

        context = get_context("spawn")
        self._pipe: Connection
        self._pipe, other = context.Pipe()
        self._process: BaseProcess = context.Process(
            target=serve, args=(other, prepare, *arguments), daemon=True
        )
        self._thread = ThreadPoolExecutor(1, "to-process")
        self._started = self._thread.submit(_start, self._process, other)

    @property
    def process_id(self) -> int | None:
        """The number of the process; None when it could not be started. Waits until it has been."""
        self._started.result()
        return self._process.pid

    def send(self, message: object) -> None:
        """Send a message; that the process is gone is noticed by ``receive``."""
        self._thread.submit(self._send, message)

    def _send(self, message: object) -> None:
        with suppress(OSError):
            self._pipe.send(message)

    def receive(self) -> tuple[list[object], bool]:
        """The messages that have come in, and whether the process is still there to send more.

        On Windows the pipe of a process that died before it took its end over stays open: its own end is
        asked for, too, and before the pipe, so that nothing is missed.
        """
        there = not self._has_ended()
        messages: list[object] = []
        try:
            while self._pipe.poll():
                messages.append(self._pipe.recv())
        except (EOFError, OSError):
            return messages, False
        return messages, there

    def _has_ended(self) -> bool:
        begun = self._started.done() and self._process.pid is not None
        return begun and self._process.exitcode is not None

    def wait(self, seconds: float) -> bool:
        """Wait at most so long for a message, or for the process's end; whether there is either."""
        begun = self._started.done() and self._process.pid is not None
        try:
            return bool(wait([self._pipe, *([self._process.sentinel] if begun else [])], max(0.0, seconds)))
        except OSError:
            return True

    def let_go(self) -> None:
        """Close the pipe, which tells the process to end, and do not wait for it."""
        self._pipe.close()
        self._thread.shutdown(wait=False)

    def end(self, patience: float = 0.0) -> None:
        """Close the pipe, wait so many seconds for the process to end by itself, and see that it does."""
        self.let_go()
        if self.process_id is None:
            return
        self._process.join(patience)
        for stop in (self._process.terminate, self._process.kill):
            if self._process.is_alive():
                stop()
                self._process.join(PATIENCE)


def _start(process: BaseProcess, other: Connection) -> None:
    try:
        process.start()
    except Exception:
        # Too many processes, or something that cannot be handed over: at the other end it counts as gone.
        log.exception(words.PROCESS_NOT_STARTED)
    finally:
        # Once the process alone holds this end, its death is noticed at the other.
        other.close()
