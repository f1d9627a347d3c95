"""Who works out advice about whole solves: a process of its own for the window, or the solver for tests."""

from __future__ import annotations

import logging
import signal
import time
from collections import deque
from collections.abc import Callable, Sequence
from math import inf
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from multiprocessing.connection import Connection

    from tutor.session.commands import Question
    from tutor.solver.link import Link
    from tutor.solver.search import Solver

MOST_DEATHS = 3
"""A question over which the process ends so often is given up."""

log = logging.getLogger(__name__)


class DirectAdvisor:
    """Works advice out in this process, one question each time it is polled."""

    def __init__(self, solver: Callable[[], Solver], patience: float = inf) -> None:
        """``solver`` gives the solver when the first question comes; proofs get ``patience`` seconds."""
        self._solver = solver
        self._patience = patience
        self._waiting: deque[tuple[int, Question]] = deque()

    def request(self, request: int, question: Question) -> None:
        """Ask; the answer comes out of ``poll`` later."""
        self._waiting.append((request, question))

    def forget(self, requests: Sequence[int]) -> None:
        """These need not be answered any more."""
        self._waiting = deque(item for item in self._waiting if item[0] not in requests)

    def poll(self) -> tuple[tuple[int, object], ...]:
        """Work out what has waited longest."""
        if not self._waiting:
            return ()
        request, question = self._waiting.popleft()
        end = time.monotonic() + self._patience

        def look_at_clock() -> None:
            if time.monotonic() > end:
                raise _BrokenOffError

        return ((request, _answer(self._solver(), question, look_at_clock)),)

    def close(self) -> None:
        """Nothing runs."""


class ProcessAdvisor:
    """Has advice worked out in a process that starts with the first question and ends with its pipe."""

    def __init__(self) -> None:
        """Nothing starts yet."""
        self._waiting: deque[tuple[int, Question]] = deque()
        self._under_way: tuple[int, Question] | None = None
        self._link: Link | None = None
        self._deaths = 0

    @property
    def process_id(self) -> int | None:
        """The number of the process, for tests and diagnosis; None while there is none."""
        return None if self._link is None else self._link.process_id

    def request(self, request: int, question: Question) -> None:
        """Ask; the answer comes out of ``poll`` later."""
        self._waiting.append((request, question))
        self._send()

    def forget(self, requests: Sequence[int]) -> None:
        """These need not be answered any more; one being worked out for nobody is broken off."""
        self._waiting = deque(item for item in self._waiting if item[0] not in requests)
        if self._under_way is not None and self._under_way[0] in requests:
            self._tell(None)

    def poll(self) -> tuple[tuple[int, object], ...]:
        """The answers that have come since; never waits."""
        if self._link is None:
            return ()
        answers, alive = self._link.receive()
        found: list[tuple[int, object]] = []
        for answer in answers:
            if self._under_way is not None:
                found.append((self._under_way[0], answer))
            self._under_way, self._deaths = None, 0
            self._send()
        if not alive:
            log.warning("the process that works out advice ended")
            found += self._start_again()
        return tuple(found)

    def close(self) -> None:
        """End the process."""
        self._waiting.clear()
        self._end()

    def _send(self) -> None:
        if self._under_way is None and self._waiting:
            if self._link is None:
                from tutor.solver.link import Link

                self._link = Link(run_advisor)
            self._under_way = self._waiting.popleft()
            self._tell(self._under_way[1])

    def _tell(self, message: Question | None) -> None:
        """Send a message; when the process is gone, the next poll notices."""
        if self._link is not None and not self._link.send(message):
            log.warning("a question could not be handed over")

    def _start_again(self) -> list[tuple[int, object]]:
        """Ask what was under way once more; what the process died of again and again has no answer."""
        lost, self._deaths = self._under_way, self._deaths + 1
        self._end()
        given_up: list[tuple[int, object]] = []
        if lost is not None and self._deaths < MOST_DEATHS:
            self._waiting.appendleft(lost)
        elif lost is not None:
            given_up, self._deaths = [(lost[0], None)], 0
        self._send()
        return given_up

    def _end(self) -> None:
        if self._link is not None:
            self._link.end(at_once=True)
        self._link = self._under_way = None


class _BrokenOffError(Exception):
    """Raised inside a search that nobody waits for any more."""


def run_advisor(pipe: Connection) -> None:
    """Answer questions until the pipe is closed; a message in between breaks the work off."""
    from tutor.solver.search import Solver

    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the program that started this decides when it ends

    def look_up() -> None:
        if pipe.poll():
            raise _BrokenOffError

    solver = Solver(Solver.open().tables, look_up)
    try:
        while True:
            question = pipe.recv()
            if question is None:
                continue  # what it would break off is finished
            pipe.send(_answer(solver, question, look_up))
    except (EOFError, BrokenPipeError, ConnectionResetError):
        return


def _answer(solver: Solver, question: Question, look_up: Callable[[], None]) -> object:
    # Working advice out takes packages that the window's process, which only asks for it, need not have.
    from tutor.session.advisor import advise

    try:
        return advise(solver, question, look_up)
    except _BrokenOffError:
        return None
    except Exception:
        log.exception("advice could not be worked out")
        return None
