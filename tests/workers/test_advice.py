"""Advice from a process of its own."""

from __future__ import annotations

import os
import time
from collections.abc import Iterator
from random import Random
from signal import SIGKILL

import pytest

from tutor.cube.notation import parse_turns
from tutor.cube.position import SOLVED
from tutor.cube.random_position import random_position
from tutor.method.advice import CrossQuestion, CrossReading, PairsQuestion, PairsReading, ProofQuestion
from tutor.session.commands import Advised, Question
from tutor.workers.advice import MOST_DEATHS, advice_service
from tutor.workers.request_service import RequestService

LONGEST_WAIT = 60.0
Service = RequestService[Question, Advised]


@pytest.fixture
def service() -> Iterator[Service]:
    made = advice_service()
    yield made
    made.close()


def heard(service: Service, count: int) -> list[Advised]:
    """So many answers, waited for a minute at most."""
    found: list[Advised] = []
    end = time.monotonic() + LONGEST_WAIT
    while len(found) < count and time.monotonic() < end:
        found += service.poll()
        time.sleep(0.01)
    return found


def test_answers_come_in_the_order_asked_with_their_numbers(service: Service) -> None:
    position = SOLVED.after(parse_turns("R U R'"))
    service.ask(4, CrossQuestion(position))
    service.ask(9, PairsQuestion(position))
    cross, pairs = heard(service, 2)
    assert (cross.request, pairs.request) == (4, 9)
    assert isinstance(cross.answer, CrossReading)
    assert isinstance(pairs.answer, PairsReading)
    assert pairs.answer.costs[0].cost == 3


def test_a_proof_that_nobody_waits_for_is_broken_off(service: Service) -> None:
    position = random_position(Random(1))
    service.ask(1, ProofQuestion(position))
    assert list(service.poll()) == []
    service.forget((1,))
    service.ask(2, CrossQuestion(position))
    (found,) = heard(service, 1)
    assert found.request == 2
    assert isinstance(found.answer, CrossReading)


def test_a_question_over_which_the_process_dies_again_and_again_is_given_up_and_the_next_answered(
    service: Service,
) -> None:
    service.ask(1, ProofQuestion(random_position(Random(1))))
    service.ask(2, CrossQuestion(SOLVED))
    found: list[Advised] = []
    killed: set[int] = set()
    end = time.monotonic() + LONGEST_WAIT
    while len(killed) < MOST_DEATHS and time.monotonic() < end:
        assert found == []
        found += service.poll()
        number = service.process_id
        if number is not None and number not in killed:
            os.kill(number, SIGKILL)
            killed.add(number)
    first, second = found + heard(service, 2 - len(found))
    assert first == Advised(1, None)
    assert second.request == 2
    assert isinstance(second.answer, CrossReading)
