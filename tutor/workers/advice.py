"""Advice about whole solves for the window, worked out in a process that starts with the first question."""

from __future__ import annotations

from collections.abc import Iterator

from tutor.session.commands import Advised, Question
from tutor.workers.desk import Failure, Result
from tutor.workers.request_service import RequestService, ServiceReport
from tutor.workers.solver_processes import advising
from tutor.workers.worker_process import WorkerProcess

MOST_DEATHS = 3
"""The service gives a question up after the process has ended over it so often."""


def advice_service() -> RequestService[Question, Advised]:
    """The service for advice, which answers None where there is none; nothing starts yet."""
    return RequestService(_begin, _told, deaths=MOST_DEATHS)


def _told(report: ServiceReport) -> Iterator[Advised]:
    match report:
        case Result(request, answer):
            yield Advised(request, answer)
        case Failure(request, _):
            yield Advised(request, None)


def _begin() -> WorkerProcess:
    # Working advice out takes packages that the window's process, which only asks for it, need not have.
    return WorkerProcess(advising)
