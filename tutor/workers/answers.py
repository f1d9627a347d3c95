"""Answers about positions for the window, and the large tables made for them when they are missing."""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from tutor.cube.position import Position
from tutor.session.commands import Answered, TellAtFoot
from tutor.solver.store import Store
from tutor.solver.task import Task
from tutor.workers import words
from tutor.workers.desk import Failure, Result, Told
from tutor.workers.request_service import ProcessEnded, RequestService, ServiceReport
from tutor.workers.solver_processes import Answering, building
from tutor.workers.table_news import TablesMissing, TablesNotice, TablesShare
from tutor.workers.worker_process import WorkerProcess

TAKE_UP_TABLES = -1
"""The request to take up large tables; the session's own requests count from 1."""
MOST_BUILT = 2
"""How often the service makes damaged large tables, so that it does not do so for ever."""
PATIENCE = 2.0
"""Seconds that closing gives the process to end by itself: it may be writing a table."""

log = logging.getLogger(__name__)


class AnswerService(RequestService[tuple[Position, Task] | None, Answered | TellAtFoot]):
    """Works out answers in one process, and makes missing large tables in another."""

    def __init__(self, cache_folder: Path | None = None) -> None:
        """Nothing starts before the first poll, so that the first frame does not wait for it."""
        super().__init__(self._begin_answering, self._told_of_answers, deaths=2)
        self._building = RequestService[None, TellAtFoot](
            self._begin_building, self._told_of_building, deaths=2, stays=False
        )
        self._folder = cache_folder
        self._store: Store | None = None
        self._built = 0

    def poll(self) -> tuple[Answered | TellAtFoot, ...]:
        """The answers and notices that have come since the last call; never waits."""
        self.start()
        return (*super().poll(), *self._building.poll())

    def close(self, patience: float = PATIENCE) -> None:
        """End the processes and drop their work."""
        super().close(patience)
        self._building.close()

    def _told_of_answers(self, report: ServiceReport) -> Iterator[Answered | TellAtFoot]:
        match report:
            case Result(request, answer) if request != TAKE_UP_TABLES:
                yield Answered(request, answer)
            case Failure(_, reason):
                yield _warning(words.no_answer(reason))
            case ProcessEnded():
                yield _warning(words.ANSWERS_RESTARTED)
            case Told(TablesNotice(text)):
                yield _warning(text)
            case Told(TablesMissing()) if self._built < MOST_BUILT:
                self._built += 1
                self._building.ask(self._built, None)
                yield _told_share(0.0)

    def _told_of_building(self, report: ServiceReport) -> Iterator[TellAtFoot]:
        match report:
            case Told(TablesShare(share)):
                yield _told_share(share)
            case Told(TablesNotice(text)):
                yield _warning(text)
            case Failure(_, reason):
                yield _warning(words.setup_failed(reason))
            case ProcessEnded():
                yield _warning(words.SETUP_RESTARTED)
            case Result():
                self.ask(TAKE_UP_TABLES, None)

    def _begin_answering(self) -> WorkerProcess:
        return self._begun(Answering)

    def _begin_building(self) -> WorkerProcess:
        return self._begun(building)

    def _begun(self, prepare: Callable[..., Callable[[Any], object]]) -> WorkerProcess:
        # Brought along by the first process: before it there is none, and Home is shown without them.
        if self._store is None:
            self._store = Store(self._folder)
            self._store.writable_spare()
        return WorkerProcess(prepare, self._store.folder, self._store.spare)


def _told_share(share: float) -> TellAtFoot:
    return TellAtFoot(words.setup_share(share) if share < 1.0 else "")


def _warning(text: str) -> TellAtFoot:
    log.warning("%s", text)
    return TellAtFoot(text)
