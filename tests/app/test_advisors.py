"""Advice worked out in a process of its own."""

from __future__ import annotations

import os
import time
from errno import EAGAIN
from multiprocessing.context import SpawnProcess
from random import Random
from signal import SIGKILL
from threading import Event
from typing import Any

import pytest

from tutor.app.advisors import MOST_DEATHS, ProcessAdvisor
from tutor.cube.notation import parse_turns
from tutor.cube.position import SOLVED
from tutor.cube.random_position import random_position
from tutor.method.advice import CrossQuestion, CrossReading, PairsQuestion, PairsReading, ProofQuestion
from tutor.solver import link


def answers(advisor: ProcessAdvisor, count: int) -> list[tuple[int, object]]:
    """So many answers, waited for a minute at most."""
    found: list[tuple[int, object]] = []
    end = time.monotonic() + 60.0
    while len(found) < count and time.monotonic() < end:
        found += advisor.poll()
        time.sleep(0.01)
    return found


def killed(advisor: ProcessAdvisor) -> int:
    """Kill the process that works out advice, once it runs; its number."""
    assert advisor.process_id is not None
    os.kill(lost := advisor.process_id, SIGKILL)
    return lost


def test_answers_come_in_the_order_asked_with_their_numbers() -> None:
    advisor, position = ProcessAdvisor(), SOLVED.after(parse_turns("R U R'"))
    try:
        advisor.request(4, CrossQuestion(position))
        advisor.request(9, PairsQuestion(position))
        (first, cross), (second, pairs) = answers(advisor, 2)
        assert (first, second) == (4, 9)
        assert isinstance(cross, CrossReading)
        assert isinstance(pairs, PairsReading)
        assert pairs.costs[0].cost == 3
    finally:
        advisor.close()


def test_what_nobody_waits_for_is_broken_off_and_the_next_question_answered() -> None:
    advisor, position = ProcessAdvisor(), random_position(Random(1))
    try:
        advisor.request(1, ProofQuestion(position))
        advisor.request(2, ProofQuestion(position.inverse()))
        advisor.forget((1, 2))
        advisor.request(3, CrossQuestion(position))
        found = dict(answers(advisor, 2))
        assert 2 not in found
        assert isinstance(found[3], CrossReading)
    finally:
        advisor.close()


def test_when_the_process_is_killed_what_was_asked_is_answered_all_the_same() -> None:
    advisor = ProcessAdvisor()
    try:
        advisor.request(1, ProofQuestion(random_position(Random(1))))
        advisor.request(2, CrossQuestion(SOLVED))
        killed(advisor)
        assert [number for number, _ in answers(advisor, 2)] == [1, 2]
    finally:
        advisor.close()


def test_a_process_that_was_ended_is_started_again() -> None:
    advisor = ProcessAdvisor()
    try:
        advisor.request(1, CrossQuestion(SOLVED))
        assert answers(advisor, 1)
        advisor.close()
        advisor.request(2, CrossQuestion(SOLVED))
        assert dict(answers(advisor, 1)).keys() == {2}
    finally:
        advisor.close()


def test_a_question_over_which_the_process_dies_again_and_again_is_given_up_and_the_next_answered() -> None:
    advisor = ProcessAdvisor()
    try:
        advisor.request(1, ProofQuestion(random_position(Random(1))))
        advisor.request(2, CrossQuestion(SOLVED))
        found: list[tuple[int, object]] = []
        for _ in range(MOST_DEATHS):
            assert found == []
            lost = killed(advisor)
            end = time.monotonic() + 60.0
            while advisor.process_id == lost and time.monotonic() < end:
                found += advisor.poll()
                time.sleep(0.01)
        assert found == [(1, None)]
        ((number, reading),) = answers(advisor, 1)
        assert number == 2
        assert isinstance(reading, CrossReading)
    finally:
        advisor.close()


def test_starting_the_process_is_not_waited_for(monkeypatch: pytest.MonkeyPatch) -> None:
    may_start = Event()
    start = link._start

    def held_back(*given: Any) -> None:
        assert may_start.wait(60.0)
        start(*given)

    monkeypatch.setattr(link, "_start", held_back)
    advisor = ProcessAdvisor()
    try:
        advisor.request(1, CrossQuestion(SOLVED))
        # Were it waited for, the request above would never have returned.
        assert advisor.poll() == ()
        may_start.set()
        assert dict(answers(advisor, 1)).keys() == {1}
    finally:
        may_start.set()
        advisor.close()


def test_a_process_that_cannot_be_started_gives_no_answer_and_says_so(
    monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    def refused(_process: object) -> None:
        raise OSError(EAGAIN, "Resource temporarily unavailable")

    monkeypatch.setattr(SpawnProcess, "start", refused)
    advisor = ProcessAdvisor()
    try:
        advisor.request(1, CrossQuestion(SOLVED))
        assert answers(advisor, 1) == [(1, None)]
        assert "could not be started" in caplog.text
    finally:
        advisor.close()
