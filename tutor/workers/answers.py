"""Answers about positions for the window, and the large tables made for them when they are missing."""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tutor.session.commands import Answered, Notice
from tutor.workers.desk import Failure, Result, Told
from tutor.workers.request_service import ProcessEnded, RequestService

if TYPE_CHECKING:
    from tutor.cube.position import Position
    from tutor.solver.store import Store
    from tutor.solver.task import Task
    from tutor.workers.worker_process import WorkerProcess

TAKE_UP_TABLES = -1
"""The request that has large tables taken up; the session's own count from 1."""
PATIENCE = 2.0
"""Seconds that closing gives the process to end by itself: it may be writing a table."""

log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class TablesMissing:
    """There are no large tables; answers are exact all the same, only slower."""


@dataclass(frozen=True, slots=True)
class TablesShare:
    """How much of the large tables is made, from 0 to 1."""

    share: float


@dataclass(frozen=True, slots=True)
class TablesNotice:
    """Something about the tables that a person may want to know, in a sentence."""

    text: str


class AnswerService:
    """Has answers worked out in one process, and large tables made in another when they are missing."""

    def __init__(self, cache_folder: Path | None = None) -> None:
        """Nothing starts before the first poll, so that the first frame does not wait for it."""
        self._folder = cache_folder
        self._store: Store | None = None
        self._answering = RequestService["tuple[Position, Task] | None"](self._begin_answering, deaths=2)
        self._building = RequestService[None](self._begin_building, deaths=2, stays=False)
        self._built = 0

    @property
    def process_id(self) -> int | None:
        """The number of the process that answers, for tests and diagnosis; None while there is none."""
        return self._answering.process_id

    def ask(self, request: int, question: tuple[Position, Task]) -> None:
        """Ask; the answer comes out of ``poll`` later."""
        self._answering.ask(request, question)

    def forget(self, requests: Sequence[int]) -> None:
        """These need not be answered any more."""
        self._answering.forget(requests)

    def poll(self) -> Iterator[Answered | Notice]:
        """The answers that have come since, and what there is to say; never waits."""
        self._answering.start()
        for report in self._answering.poll():
            match report:
                case Result(request, answer) if request != TAKE_UP_TABLES:
                    yield Answered(request, answer)
                case Failure(_, reason):
                    yield _warning(f"No answer could be worked out: {reason}.")
                case ProcessEnded():
                    yield _warning("The process that works out answers ended and is started again.")
                case Told(TablesNotice(text)):
                    yield _warning(text)
                case Told(TablesMissing()):
                    yield from self._build()
        yield from self._heard_of_building()

    def close(self) -> None:
        """End the processes; what they were doing is dropped."""
        self._answering.close(PATIENCE)
        self._building.close()

    def _build(self) -> Iterator[Notice]:
        """Large tables that are found damaged once they have been made are made once more, not for ever."""
        if self._built < 2:
            self._built += 1
            self._building.ask(self._built, None)
            yield _told_share(0.0)

    def _heard_of_building(self) -> Iterator[Notice]:
        for report in self._building.poll():
            match report:
                case Told(TablesShare(share)):
                    yield _told_share(share)
                case Told(TablesNotice(text)):
                    yield _warning(text)
                case Result():
                    self._answering.ask(TAKE_UP_TABLES, None)

    def _begin_answering(self) -> WorkerProcess:
        from tutor.workers.solver_processes import Answering

        return self._begun(Answering)

    def _begin_building(self) -> WorkerProcess:
        from tutor.workers.solver_processes import building

        return self._begun(building)

    def _begun(self, prepare: Callable[..., Callable[[Any], object]]) -> WorkerProcess:
        # Brought along by the first process: before it there is none, and Home is shown without them.
        from tutor.solver.store import Store
        from tutor.workers.worker_process import WorkerProcess

        if self._store is None:
            self._store = Store(self._folder)
            self._store.writable_spare()
        return WorkerProcess(prepare, self._store.folder, self._store.spare)


def _told_share(share: float) -> Notice:
    told = f"Preparing tables, once: {share:.0%}. Answers are exact already."
    return Notice(told if share < 1.0 else "")


def _warning(text: str) -> Notice:
    log.warning("%s", text)
    return Notice(text)
