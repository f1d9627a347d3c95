"""Services without processes and threads: everything is worked out in this process, when asked or polled."""

from __future__ import annotations

import time
from collections import deque
from collections.abc import Callable, Collection, Iterable, Sequence
from functools import cache, lru_cache, partial
from math import inf
from random import Random
from typing import Any, Generic, TypeVar

from tutor.app.services import Services
from tutor.cube.position import Position
from tutor.lesson.scenes import Lesson
from tutor.method.answer import Answer, answer
from tutor.session.advisor import advise
from tutor.session.answers import Key
from tutor.session.commands import Advised, Answered, Command, Question
from tutor.solver.search import Solver
from tutor.solver.task import Task

Q = TypeVar("Q")


class DirectService(Generic[Q]):
    """Works out what waits, in the order asked, at most ``at_once`` of it a poll.

    With ``pressing`` it is as slow as can be borne: what is not pressing waits until it is.
    """

    def __init__(
        self,
        work: Callable[[int, Q], Command],
        at_once: int = 64,
        pressing: Callable[[], Collection[Q]] | None = None,
    ) -> None:
        self._work, self._at_once, self._pressing = work, at_once, pressing
        self.waiting: deque[tuple[int, Q]] = deque()

    def ask(self, request: int, question: Q) -> None:
        self.waiting.append((request, question))

    def forget(self, requests: Sequence[int]) -> None:
        self.waiting = deque(item for item in self.waiting if item[0] not in requests)

    def poll(self) -> Sequence[Command]:
        if not self.waiting:
            return ()
        pressing = None if self._pressing is None else self._pressing()
        due = [item for item in self.waiting if pressing is None or item[1] in pressing][: self._at_once]
        self.waiting = deque(item for item in self.waiting if item not in due)
        return [self._work(*item) for item in due]

    def close(self) -> None:
        pass


@cache
def answers_of(solver: Solver) -> Callable[[Position, Task], Answer]:
    """Exact answers of a solver, each worked out once for all tests of a process."""
    return lru_cache(maxsize=20_000)(partial(answer, solver))


def direct_answers(
    answer: Callable[[Position, Task], Answer], pressing: Callable[[], Collection[Key]] | None = None
) -> DirectService[Key]:
    return DirectService(lambda request, question: Answered(request, answer(*question)), pressing=pressing)


class _OutOfTimeError(Exception):
    """A proof takes longer than a test has patience for."""


def direct_advice(solver: Callable[[], Solver], patience: float = inf) -> DirectService[Question]:
    """One question each time it is polled; proofs get ``patience`` seconds."""

    def advised(request: int, question: Question) -> Advised:
        end = time.monotonic() + patience

        def look_at_clock() -> None:
            if time.monotonic() > end:
                raise _OutOfTimeError

        try:
            return Advised(request, advise(solver(), question, look_at_clock))
        except _OutOfTimeError:
            return Advised(request, None)

    return DirectService(advised, at_once=1)


class Silence:
    """A service that never answers."""

    def ask(self, request: int, question: object) -> None:
        pass

    def forget(self, requests: Sequence[int]) -> None:
        pass

    def say(self, text: str) -> None:
        pass

    def forget_faults(self) -> None:
        pass

    def poll(self) -> Sequence[Command]:
        return ()

    def close(self) -> None:
        pass


class AtOnce:
    """In place of a thread: does everything as soon as it is begun."""

    busy = False

    def __init__(self, name: str = "") -> None:
        self._done: list[Sequence[Command]] = []

    def begin(self, work: Callable[[], Sequence[Command]], replacing: str = "") -> None:
        self._done.append(work())

    def poll(self) -> Iterable[Sequence[Command]]:
        done, self._done = self._done, []
        return done

    def close(self) -> None:
        pass

    abandon = close


def _no_lesson(*_: object) -> Lesson:
    raise AssertionError("no lesson is expected to be opened")


def direct_services(solver: Solver, **other: Any) -> Services:
    """Answers from the solver, nothing else that works; ``other`` are the services that a test wants."""
    usual: dict[str, Any] = {
        "clock": time.perf_counter,
        "wall": time.time,
        "random": Random(7),
        "answers": direct_answers(answers_of(solver)),
        "advice": Silence(),
        "saving": Silence(),
        "keeper": None,
        "sharing": None,
        "shelf": None,
        "read_lesson": _no_lesson,
        "changed_at": lambda _: None,
        "save_settings": lambda _: None,
        "save_places": lambda _: None,
        "save_painting": lambda _learner, _text: None,
        "load_painting": lambda _: "",
        "click": lambda: None,
        "chime": lambda: None,
        "speech": Silence(),
        "thread": AtOnce,
    }
    return Services(**{**usual, **other})
