"""A process of one's own and the pipe to it, for all that is worked out beside the window.

The process is started with the ``spawn`` method: a program that uses one must guard its main module. It
should end by itself when its pipe is closed, as it is when the program that started it dies.
"""

from __future__ import annotations

import logging
from threading import Thread
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from multiprocessing.connection import Connection
    from multiprocessing.process import BaseProcess

PATIENCE = 2.0
"""Seconds to wait, usually, for a process to end by itself."""

log = logging.getLogger(__name__)


class Link:
    """A spawned process and this end of the pipe to it."""

    def __init__(self, target: Any, *arguments: object) -> None:
        """Begin to start it; ``target`` gets its end of the pipe before the ``arguments``.

        Starting takes longer than a frame may and is not waited for; what is sent before waits in the pipe.
        """
        # The window's first screen needs no process, so what makes them is not imported before one is wanted.
        from multiprocessing import get_context

        context = get_context("spawn")
        self._pipe: Connection
        self._pipe, other = context.Pipe()
        self._process: BaseProcess = context.Process(target=target, args=(other, *arguments), daemon=True)
        self._starting = Thread(target=_start, args=(self._process, other))
        self._starting.start()

    @property
    def process_id(self) -> int | None:
        """The number of the process; None when it could not be started. Waits until it has been."""
        self._starting.join()
        return self._process.pid

    def send(self, message: object) -> bool:
        """Send a small message; False when the process is gone."""
        try:
            self._pipe.send(message)
        except OSError:
            return False
        return True

    def receive(self) -> tuple[list[Any], bool]:
        """The messages that have come in, and whether the process is still there to send more."""
        messages: list[Any] = []
        try:
            while self._pipe.poll():
                messages.append(self._pipe.recv())
        except (EOFError, OSError):
            return messages, False
        return messages, True

    def wait(self, seconds: float) -> bool:
        """Wait at most so long for a message, or for the process's end; whether there is either."""
        try:
            return self._pipe.poll(max(0.0, seconds))
        except OSError:
            return True

    def let_go(self) -> None:
        """Close the pipe to a process that ends by itself."""
        self._pipe.close()

    def end(self, *, at_once: bool = False, patience: float = PATIENCE) -> None:
        """Close the pipe, which tells the process to end, and see that it does."""
        self._pipe.close()
        if self.process_id is None:
            return
        if at_once:
            self._process.terminate()
        self._process.join(patience)
        if self._process.is_alive():
            self._process.kill()
            self._process.join(PATIENCE)


def _start(process: BaseProcess, other: Connection) -> None:
    try:
        process.start()
    except Exception:
        # Too many processes, or something that cannot be handed over: at the other end it counts as gone.
        log.exception("a process could not be started")
    finally:
        # Once the process alone holds this end, its death is noticed at the other.
        other.close()
