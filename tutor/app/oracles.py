"""Who works out answers: the solver itself, a few at a time, for tests and for machines without processes."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Sequence

from tutor.cube.position import Position
from tutor.method.answer import Answer
from tutor.solver.task import Task


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
