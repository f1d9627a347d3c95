"""Advice worked out in a process of its own."""

from __future__ import annotations

import time
from random import Random

from tutor.app.advisors import ProcessAdvisor
from tutor.cube.notation import parse_turns
from tutor.cube.position import SOLVED
from tutor.cube.random_position import random_position
from tutor.method.advice import CrossQuestion, CrossReading, PairsQuestion, PairsReading, ProofQuestion


def answers(advisor: ProcessAdvisor, count: int) -> list[tuple[int, object]]:
    """So many answers, waited for a minute at most."""
    found: list[tuple[int, object]] = []
    end = time.monotonic() + 60.0
    while len(found) < count and time.monotonic() < end:
        found += advisor.poll()
        time.sleep(0.01)
    return found


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
        assert advisor._process is not None
        advisor._process.kill()
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
