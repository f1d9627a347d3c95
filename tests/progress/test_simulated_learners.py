"""Learners who follow the course need fewer tries than chance does, under the model of the benchmark.

The model is stated in tests/bench/bench_course.py, and the forgetting curve is that which the authors of FSRS
publish; the full run and its figures are in tests/bench/RESULTS.md. Nothing of it was measured on people.
"""

from __future__ import annotations

from datetime import timedelta
from statistics import median

import pytest
from fsrs import Card, Scheduler, State

from tests.bench.bench_course import (
    BEGINS,
    MINE,
    OTHER,
    Arrival,
    Remembered,
    all_stick,
    arrivals,
    ideas_of,
    lesson_tries,
    ratios,
)
from tutor.method.cases import CASES

SEEDS = range(5)


@pytest.fixture(scope="module")
def course() -> list[Arrival]:
    return arrivals(MINE, SEEDS, all_stick)


@pytest.fixture(scope="module")
def chance() -> list[Arrival]:
    return arrivals(OTHER, SEEDS, all_stick)


def test_the_course_asks_for_at_most_three_fifths_of_the_tries_of_chance(
    course: list[Arrival], chance: list[Arrival]
) -> None:
    assert all(one.arrived for one in (*course, *chance))
    # The share is the one that the product asks for.
    assert median(ratios(course, chance)) <= 0.6


def test_every_simulated_learner_needs_fewer_tries_with_the_course(
    course: list[Arrival], chance: list[Arrival]
) -> None:
    assert all(share < 1.0 for share in ratios(course, chance))


def test_the_same_seed_gives_the_same_learner(course: list[Arrival]) -> None:
    assert arrivals(MINE, SEEDS[:1], all_stick) == course[:1]


def test_the_lessons_ask_for_every_case_and_so_teach_its_idea() -> None:
    assert set(ideas_of(lesson_tries())) == {case.slug for case in CASES}


@pytest.mark.parametrize("days", [0, 1, 3, 10, 40])
def test_forgetting_follows_the_published_curve(days: int) -> None:
    # The library of the authors of FSRS, outside the project.
    card = Card(state=State.Review, stability=4.5, difficulty=5.0, last_review=BEGINS)
    then = BEGINS + timedelta(days=days)
    theirs = Scheduler().get_card_retrievability(card, then)
    assert Remembered(4.5, 5.0, BEGINS).chance(then) == pytest.approx(theirs)
