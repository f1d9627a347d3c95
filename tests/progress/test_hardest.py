"""The cases that a group finds hardest, from cards made by hand."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from tutor.method.cases import CASES
from tutor.progress.cards import Card, CardPhase
from tutor.progress.hardest import MOST, hardest

NOW = datetime(2026, 11, 20, 18, 0, tzinfo=UTC)


def card(number: int, days: int, phase: CardPhase = CardPhase.STICKING) -> Card:
    """A card that lasts ten days and was seen so many days ago."""
    case = next(case for case in CASES if case.number == number)
    seen = NOW - timedelta(days=days)
    return Card(case.slug, phase, 10.0, 5.0, seen, seen, NOW, 3)


def numbers(*learners: tuple[Card, ...]) -> list[int]:
    found = hardest(({each.slug: each for each in cards} for cards in learners), NOW)
    by_slug = {case.slug: case.number for case in CASES}
    return [by_slug[slug] for slug in found]


def test_what_slips_from_most_comes_first_then_what_is_farther_gone() -> None:
    # After ten days the chance is 90 %, by what "lasts" means; it falls with time (FSRS), so 200 days slip.
    ada = (card(3, 200), card(9, 300), card(30, 1))
    bo = (card(3, 200), card(12, 400), card(30, 10))
    assert numbers(ada, bo) == [3, 12, 9]


def test_a_case_forgotten_and_taken_up_again_counts_and_one_just_met_does_not() -> None:
    group = (card(5, 0, CardPhase.SETTLING_AGAIN), card(6, 300, CardPhase.SETTLING))
    assert numbers(group) == [5]
    assert numbers() == numbers(()) == []


def test_an_evening_has_so_many_cases_and_the_books_order_breaks_ties() -> None:
    assert numbers(tuple(card(number, 300) for number in range(41, 0, -1))) == list(range(1, MOST + 1))
