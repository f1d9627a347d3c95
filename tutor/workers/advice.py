"""Advice about whole solves for the window."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from tutor.session.solve.commands import Advised
from tutor.workers.desk import Failure, Result
from tutor.workers.request_service import RequestService

if TYPE_CHECKING:
    from tutor.session.solve.commands import Question
    from tutor.workers.worker_process import WorkerProcess

MOST_DEATHS = 3
"""A question over which the process ends so often is given up."""


class AdviceService:
    """Has advice worked out in a process that starts with the first question."""

    def __init__(self) -> None:
        """Nothing starts yet."""
        self._service = RequestService["Question"](_begin, deaths=MOST_DEATHS)

    @property
    def process_id(self) -> int | None:
        """The number of the process, for tests and diagnosis; None while there is none."""
        return self._service.process_id

    def ask(self, request: int, question: Question) -> None:
        """Ask; the answer comes out of ``poll`` later."""
        self._service.ask(request, question)

    def forget(self, requests: Sequence[int]) -> None:
        """These need not be answered any more; one being worked out for nobody is broken off."""
        self._service.forget(requests)

    def poll(self) -> Iterator[Advised]:
        """The answers that have come since, None where there is none; never waits."""
        for report in self._service.poll():
            match report:
                case Result(request, answer):
                    yield Advised(request, answer)
                case Failure(request, _):
                    yield Advised(request, None)

    def close(self) -> None:
        """End the process."""
        self._service.close()


def _begin() -> WorkerProcess:
    # Working advice out takes packages that the window's process, which only asks for it, need not have.
    from tutor.workers.solver_processes import advising
    from tutor.workers.worker_process import WorkerProcess

    return WorkerProcess(advising)
