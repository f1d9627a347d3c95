"""A process that serves requests: order, work dropped, errors, death survived; its work is made up here."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from errno import EAGAIN
from multiprocessing import active_children
from multiprocessing.context import SpawnProcess
from threading import Event
from typing import Any

import pytest

from tutor.workers import worker_process
from tutor.workers.desk import Desk, Dropped, Failure, Result, Told, WorkList
from tutor.workers.request_service import AT_ONCE, ProcessEnded, RequestService, ServiceReport
from tutor.workers.worker_process import WorkerProcess

LONGEST_WAIT = 60.0
"""Seconds until a test gives up."""
ENDLESS, DEADLY, REFUSED, TELLING = "endless", "deadly", "refused", "telling"
DEATHS = 2
Service = RequestService[str, ServiceReport]


def made_up(desk: Desk) -> Callable[[str], tuple[str, int]]:
    """Gives back what it is asked and the number of its process, but for what is asked by those names."""

    def work(question: str) -> tuple[str, int]:
        if question == DEADLY:
            os._exit(3)
        if question == REFUSED:
            raise ValueError("not today")
        if question in (TELLING, ENDLESS):
            desk.tell("begun")
        while question == ENDLESS:
            desk.go_on()
            time.sleep(0.001)
        return question, os.getpid()

    return work


def begin() -> WorkerProcess:
    return WorkerProcess(made_up)


def as_it_is(report: ServiceReport) -> tuple[ServiceReport]:
    return (report,)


@pytest.fixture
def service() -> Iterator[Service]:
    made = Service(begin, as_it_is, deaths=DEATHS)
    yield made
    made.close()


def until(service: Service, done: Callable[[list[ServiceReport]], Any]) -> list[ServiceReport]:
    """Poll until what has come in satisfies ``done``."""
    reports: list[ServiceReport] = []
    deadline = time.monotonic() + LONGEST_WAIT
    while not done(reports):
        assert time.monotonic() < deadline, reports
        reports += service.poll()
        time.sleep(0.002)
    return reports


def answered(reports: list[ServiceReport]) -> list[tuple[int, str]]:
    return [(report.request, report.value[0]) for report in reports if isinstance(report, Result)]


def gone(number: int) -> bool:
    try:
        os.kill(number, 0)
    except ProcessLookupError:
        return True
    return False


def test_requests_are_answered_in_the_order_asked_in_another_process(service: Service) -> None:
    for number, question in ((4, "a"), (9, "b"), (2, "c")):
        service.ask(number, question)
    reports = until(service, lambda reports: len(answered(reports)) == 3)
    assert answered(reports) == [(4, "a"), (9, "b"), (2, "c")]
    assert {report.value[1] for report in reports if isinstance(report, Result)} == {service.process_id}
    assert service.process_id != os.getpid()


def test_no_process_runs_before_anything_is_asked(service: Service) -> None:
    assert service.poll() == ()
    assert service.process_id is None


def test_what_is_forgotten_is_broken_off_and_what_follows_is_answered(service: Service) -> None:
    service.ask(1, ENDLESS)
    service.ask(2, "never begun")
    service.ask(3, "wanted")
    assert until(service, bool) == [Told("begun")]
    service.forget((1, 2))
    reports = until(service, lambda reports: answered(reports) and len(reports) == 3)
    assert answered(reports) == [(3, "wanted")]
    assert {report.request for report in reports if isinstance(report, Dropped)} == {1, 2}


def test_what_is_forgotten_before_it_is_sent_is_reported_too(service: Service) -> None:
    service.ask(1, "a")
    service.forget((1,))
    assert service.poll() == (Dropped(1),)
    assert service.process_id is None


def test_what_is_forgotten_once_it_is_answered_is_no_longer_spoken_of(service: Service) -> None:
    service.ask(1, "a")
    until(service, answered)
    service.forget((1,))
    service.ask(2, "b")
    assert len(until(service, answered)) == 1


def test_very_many_requests_never_block_and_the_last_is_answered(service: Service) -> None:
    service.ask(0, ENDLESS)
    for number in range(1, 400):
        service.forget((number - 1,))
        service.ask(number, "x" * 10_000)
        service.poll()
    until(service, lambda reports: 399 in dict(answered(reports)))


def test_the_process_is_told_of_a_few_requests_at_a_time_and_of_all_in_the_end(
    monkeypatch: pytest.MonkeyPatch, service: Service
) -> None:
    told: list[int] = []
    send = WorkerProcess.send

    def noted(process: WorkerProcess, message: WorkList) -> None:
        told.append(len(message.requests))
        send(process, message)

    monkeypatch.setattr(WorkerProcess, "send", noted)
    for number in range(3 * AT_ONCE):
        service.ask(number, "a")
    reports = until(service, lambda reports: len(answered(reports)) == 3 * AT_ONCE)
    assert [number for number, _ in answered(reports)] == list(range(3 * AT_ONCE))
    assert max(told) == AT_ONCE


def test_a_process_that_dies_early_is_missed_although_its_pipe_stays_open(
    monkeypatch: pytest.MonkeyPatch, service: Service
) -> None:
    # As on Windows, where a handle for it stays here until it takes it (multiprocessing.reduction.DupHandle).
    kept: list[Any] = []

    def start(process: Any, other: Any) -> None:
        kept.append(other)
        process.start()

    monkeypatch.setattr(worker_process, "_start", start)
    service.ask(1, DEADLY)
    reports = until(service, lambda reports: len(reports) == DEATHS + 1)
    assert [type(report) for report in reports] == [ProcessEnded] * DEATHS + [Failure]
    assert not service.wait(0.0)
    assert not kept[0].closed


def test_a_long_question_is_not_waited_for_while_the_process_starts(
    monkeypatch: pytest.MonkeyPatch, service: Service
) -> None:
    may_start, start = Event(), worker_process._start

    def held_back(*given: Any) -> None:
        assert may_start.wait(LONGEST_WAIT)
        start(*given)

    monkeypatch.setattr(worker_process, "_start", held_back)
    try:
        service.ask(1, "x" * 10_000_000)
        # Were either waited for, this would never return: no pipe holds as much.
        assert service.poll() == ()
        may_start.set()
        assert answered(until(service, answered)) == [(1, "x" * 10_000_000)]
    finally:
        may_start.set()


def test_an_error_fails_the_request_and_the_next_is_answered(service: Service) -> None:
    service.ask(4, REFUSED)
    service.ask(5, "a")
    reports = until(service, answered)
    assert reports[0] == Failure(4, "not today")
    assert answered(reports) == [(5, "a")]


def test_what_is_said_while_working_is_heard(service: Service) -> None:
    service.ask(1, TELLING)
    assert until(service, answered)[0] == Told("begun")


def test_a_process_that_is_killed_is_started_again_and_answers(service: Service) -> None:
    service.ask(1, "a")
    until(service, answered)
    first = service.process_id
    assert first is not None
    service.ask(2, ENDLESS)
    service.ask(3, "b")
    assert until(service, bool) == [Told("begun")]
    os.kill(first, signal.SIGKILL)
    assert ProcessEnded(first) in until(service, bool)
    service.forget((2,))
    assert answered(until(service, answered)) == [(3, "b")]
    assert service.process_id not in (None, first)


def test_what_ends_the_process_again_and_again_is_given_up_and_the_rest_answered(
    service: Service,
) -> None:
    for first in (1, 3):
        service.ask(first, DEADLY)
        service.ask(first + 1, "a")
        reports = until(service, answered)
        assert sum(isinstance(report, ProcessEnded) for report in reports) == DEATHS
        assert [report.request for report in reports if isinstance(report, Failure)] == [first]
        assert answered(reports) == [(first + 1, "a")]


def test_what_is_forgotten_when_the_process_dies_is_reported(service: Service) -> None:
    service.ask(1, "a")
    until(service, answered)
    service.ask(2, DEADLY)
    service.poll()
    service.forget((2,))
    assert Dropped(2) in until(service, lambda reports: Dropped(2) in reports)


def test_a_process_that_cannot_be_started_gives_no_answer_and_says_so(
    monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture, service: Service
) -> None:
    def refused(_process: object) -> None:
        raise OSError(EAGAIN, "Resource temporarily unavailable")

    monkeypatch.setattr(SpawnProcess, "start", refused)
    service.ask(1, "a")
    reports = until(service, lambda reports: len(reports) == DEATHS + 1)
    assert reports[:-1] == [ProcessEnded(None)] * DEATHS
    assert isinstance(reports[-1], Failure)
    assert "the system did not start a process beside the window" in caplog.text


def test_closing_ends_the_process_in_the_midst_of_work_and_it_can_be_asked_anew(
    service: Service,
) -> None:
    service.ask(1, ENDLESS)
    assert until(service, bool) == [Told("begun")]
    number = service.process_id
    assert number is not None
    service.close()
    service.close()
    assert gone(number)
    assert service.poll() == ()
    service.ask(2, "a")
    assert answered(until(service, answered)) == [(2, "a")]


def test_a_process_that_does_not_stay_ends_with_the_last_request() -> None:
    passing = Service(begin, as_it_is, deaths=DEATHS, stays=False)
    passing.ask(1, "a")
    passing.ask(2, TELLING)
    passing.poll()
    number = passing.process_id
    assert number is not None
    assert len(until(passing, lambda reports: len(answered(reports)) == 2)) == 3
    assert passing.process_id is None
    end = time.monotonic() + LONGEST_WAIT
    while any(child.pid == number for child in active_children()):
        assert time.monotonic() < end
        time.sleep(0.01)
    passing.ask(3, "b")
    assert answered(until(passing, answered)) == [(3, "b")]
    passing.close()


def test_a_signal_while_the_process_ends_is_not_printed() -> None:
    script = """
import atexit, os, signal
from multiprocessing import Pipe
from tutor.workers.desk import serve
here, there = Pipe()
there.close()
atexit.register(os.kill, os.getpid(), signal.SIGTERM)
serve(here, lambda desk: print)
"""
    ended = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert (ended.stdout, ended.stderr) == ("", "")
