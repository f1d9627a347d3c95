"""Who works out answers: a worker process for the window, or the solver itself for tests."""

from __future__ import annotations

import logging
from collections import deque
from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tutor.cube.position import Position
    from tutor.method.answer import Answer
    from tutor.solver.task import Task
    from tutor.solver.worker import AnswerSource, Report

log = logging.getLogger(__name__)


class DirectOracle:
    """Works answers out in this process, in the order asked, when polled."""

    def __init__(self, answer: Callable[[Position, Task], Answer], at_once: int = 64) -> None:
        """``answer`` works one out; a poll gives at most ``at_once`` of them."""
        self._answer = answer
        self._at_once = at_once
        self._waiting: deque[tuple[int, Position, Task]] = deque()

    def request(self, request: int, position: Position, task: Task) -> None:
        """Ask; the answer comes out of ``poll`` later."""
        self._waiting.append((request, position, task))

    def forget(self, requests: Sequence[int]) -> None:
        """These need not be answered any more."""
        self._waiting = deque(item for item in self._waiting if item[0] not in requests)

    def poll(self) -> tuple[tuple[int, Answer], ...]:
        """Work out what waits."""
        found: list[tuple[int, Answer]] = []
        while self._waiting and len(found) < self._at_once:
            request, position, task = self._waiting.popleft()
            found.append((request, self._answer(position, task)))
        return tuple(found)

    def notice(self) -> str:
        """Nothing to say."""
        return ""

    def close(self) -> None:
        """Nothing runs."""


class WorkerOracle:
    """Has answers worked out in another process: the first asked for first, the rest ahead of need."""

    def __init__(self, begin: Callable[[], AnswerSource]) -> None:
        """``begin`` makes the worker, when first polled, so that the first frame does not wait for it."""
        self._begin = begin
        self._worker: AnswerSource | None = None
        self._waiting: dict[tuple[Position, Task], int] = {}
        self._changed = False
        self._notice = ""

    def request(self, request: int, position: Position, task: Task) -> None:
        """Ask; the answer comes out of ``poll`` later."""
        self._waiting[position, task] = request
        self._changed = True

    def forget(self, requests: Sequence[int]) -> None:
        """These need not be answered any more."""
        self._waiting = {key: number for key, number in self._waiting.items() if number not in requests}
        self._changed = True

    def poll(self) -> tuple[tuple[int, Answer], ...]:
        """The answers that have come since; never waits."""
        worker = self._worker = self._worker or self._begin()
        for report in worker.poll():
            self._hear(report)
        found: list[tuple[int, Answer]] = []
        for (position, task), request in tuple(self._waiting.items()):
            value = worker.known(position, task)
            if value is not None:
                del self._waiting[position, task]
                found.append((request, value))
        self._tell(worker)
        return tuple(found)

    def notice(self) -> str:
        """What there is to say about the tables, in one line; empty when nothing."""
        return self._notice

    def close(self) -> None:
        """End the worker."""
        if self._worker is not None:
            self._worker.close()

    def _tell(self, worker: AnswerSource) -> None:
        """Tell the worker what is wanted, when that has changed."""
        if not self._changed:
            return
        self._changed = False
        keys = tuple(self._waiting)
        if keys:
            worker.request(self._waiting[keys[0]], *keys[0])
            worker.prefetch(keys[1:])

    def _hear(self, report: Report) -> None:
        # The worker that reports has brought its module along; before the first question there is none.
        from tutor.solver.store import Notice
        from tutor.solver.worker import Answered, Building, Failed, Restarted

        match report:
            case Building(share) if share < 1.0:
                self._notice = f"Preparing tables, once: {share:.0%}. Answers are exact already."
            case Building():
                self._notice = ""
            case Answered():
                pass
            case Restarted(text) | Failed(_, text) | Notice(text=text):
                log.warning("%s", text)
                self._notice = text
