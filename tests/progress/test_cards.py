"""Cards follow from the attempts, as the FSRS library works them out."""

from datetime import UTC, timedelta
from typing import Any

import fsrs
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tutor.cube.faces import Turn
from tutor.method.cases import CASES
from tutor.method.continuations import Verdict
from tutor.method.steps import Step
from tutor.progress.attempt import HintTaken, Mode, Outcome, TurnMade
from tutor.progress.cards import (
    AGAIN,
    GOOD,
    HARD,
    SPREAD,
    UNCOUNTED,
    WANTED_RECALL,
    Phase,
    believable_times,
    cards_of,
    checkpoint_of,
    grades,
    spread_due,
)
from tutor.progress.results import microseconds, results_of

SLUG = CASES[0].slug
ACCEPTABLE = (TurnMade(Turn.U, 1.0, Verdict.ACCEPTABLE, 1, Step.PART),)
DETOUR = (TurnMade(Turn.F, 1.0, Verdict.DETOUR, 2, Step.PART),)


@pytest.mark.parametrize(
    ("changes", "grade"),
    [
        ({}, GOOD),
        ({"turns": ACCEPTABLE, "turns_used": 4}, HARD),
        ({"turns": ACCEPTABLE * 5, "turns_used": 3}, HARD),
        ({"hints": (HintTaken(1, 0.5),)}, HARD),
        ({"hints": (HintTaken(1, 0.5), HintTaken(2, 0.9))}, AGAIN),
        ({"hints": (HintTaken(3, 0.5),)}, AGAIN),
        ({"turns": DETOUR, "turns_used": 5}, AGAIN),
        ({"by_hand": 5, "turns_used": 5}, GOOD),
        ({"by_hand": 5, "turns_used": 6}, HARD),
        ({"by_hand": 5, "turns_used": 3}, GOOD),
        ({"by_hand": None, "turns_used": 3}, GOOD),
        ({"by_hand": None, "turns_used": 5}, HARD),
        ({"outcome": Outcome.GIVEN_UP}, AGAIN),
        ({"outcome": Outcome.WATCHED, "shown": 3}, AGAIN),
        ({"outcome": Outcome.HOME, "shown": 2}, UNCOUNTED),
        ({"outcome": Outcome.NAMED, "mode": Mode.FLASH}, UNCOUNTED),
        ({"outcome": Outcome.MISNAMED, "mode": Mode.FLASH}, UNCOUNTED),
    ],
)
def test_how_an_attempt_went_decides_what_it_counts_as(attempt: Any, changes: Any, grade: int) -> None:
    assert grades(results_of([attempt(**changes)])).tolist() == [grade]


def test_the_cards_are_those_of_the_library(attempt: Any) -> None:
    # Worked out by the library itself, review by review.
    made = [attempt(day=0), attempt(day=0.01), attempt.detour(day=1.5), attempt(day=1.51), attempt(day=9)]
    scheduler = fsrs.Scheduler(desired_retention=WANTED_RECALL, enable_fuzzing=False)
    card = fsrs.Card(card_id=1)
    for each, rating in zip(made, (3, 3, 1, 3, 3), strict=True):
        card, _ = scheduler.review_card(card, fsrs.Rating(rating), each.time)
    now = made[-1].time
    found = cards_of(results_of(made), now)[SLUG]
    assert (found.stability, found.difficulty, found.due) == (card.stability, card.difficulty, card.due)
    assert (found.first, found.last, found.reviews) == (made[0].time, now, 5)
    for days in (0, 0.5, 1, 30, 400):
        at = now + timedelta(days=days)
        assert found.recall(at) == pytest.approx(scheduler.get_card_retrievability(card, at))


def test_a_first_hint_is_hard_once_the_case_holds_and_again_before(attempt: Any) -> None:
    learning = cards_of(results_of([attempt.hinted(1)]), attempt().time)[SLUG]
    assert learning.phase is Phase.LEARNING
    again = cards_of(results_of([attempt.hinted(3)]), attempt().time)[SLUG]
    assert learning == again

    held = [attempt(day=0), attempt(day=0.01)]
    hard = cards_of(results_of([*held, attempt.hinted(1, day=3)]), attempt(day=3).time)[SLUG]
    deep = cards_of(results_of([*held, attempt.hinted(2, day=3)]), attempt(day=3).time)[SLUG]
    assert hard.phase is Phase.HOLDING
    assert deep.phase is Phase.RELEARNING
    assert hard.stability > deep.stability


def test_nothing_is_taken_for_easy_on_first_sight(attempt: Any) -> None:
    # Easy would send the card away for more than a week (FSRS 6 parameters: 8.3 days); Good asks again in ten
    # minutes.
    card = cards_of(results_of([attempt(seconds=0.5, first_turn=0.1)]), attempt().time)[SLUG]
    assert card.phase is Phase.LEARNING
    assert card.due - card.last == timedelta(minutes=10)


def test_undoing_an_attempt_restores_the_card(attempt: Any) -> None:
    made = [attempt(day=0), attempt(day=0.01), attempt.detour(day=4), attempt(CASES[5].slug, day=5)]
    before = cards_of(results_of(made[:3]), made[3].time)
    assert cards_of(results_of(made), made[3].time) != before
    assert cards_of(results_of([each for each in made if each is not made[3]]), made[3].time) == before


@settings(max_examples=40)
@given(data=st.data())
def test_going_on_from_a_checkpoint_leads_to_the_same_cards(data: st.DataObject, attempt_maker: Any) -> None:
    attempt = attempt_maker()
    pick = st.tuples(st.integers(0, 4), st.integers(0, 40), st.sampled_from(["plain", "detour", "hint"]))
    makers = {"plain": attempt, "detour": attempt.detour, "hint": lambda *a, **k: attempt.hinted(1, *a, **k)}
    made = [
        makers[how](CASES[case].slug, day=day / 4)
        for case, day, how in data.draw(st.lists(pick, max_size=25))
    ]
    made.sort(key=lambda each: (each.time, each.uuid.hex))
    cut = data.draw(st.integers(0, len(made)))
    now = attempt(day=50).time
    early = results_of(made[:cut])
    checkpoint = checkpoint_of(early, cards_of(early, now))
    assert cards_of(results_of(made), now, checkpoint) == cards_of(results_of(made), now)


def test_a_checkpoint_of_other_attempts_is_of_no_effect(attempt: Any) -> None:
    made = [attempt(day=0), attempt.detour(day=1), attempt(day=2)]
    now = made[-1].time
    whole = results_of(made)
    checkpoint = checkpoint_of(whole, cards_of(whole, now))
    without_first = results_of(made[1:])
    assert cards_of(without_first, now, checkpoint) == cards_of(without_first, now)
    assert cards_of(whole, now, b"no checkpoint") == cards_of(whole, now)


def test_attempts_of_a_clock_that_ran_ahead_do_not_put_a_case_off_for_a_year(attempt: Any) -> None:
    made = [attempt(day=0), attempt(day=0.01), attempt(day=400), attempt.detour(day=401)]
    now = attempt(day=2).time
    card = cards_of(results_of(made), now)[SLUG]
    assert card.last == made[1].time
    assert card.due <= now
    assert believable_times(results_of(made), now).tolist() == [
        microseconds(each.time) for each in (made[0], made[1], made[1], made[1])
    ]


def test_only_wrong_times_leave_now_as_the_time(attempt: Any) -> None:
    now = attempt(day=-1).time
    assert cards_of(results_of([attempt(day=5)]), now)[SLUG].last == now


def test_due_times_are_spread_by_little_and_always_alike(attempt: Any) -> None:
    made = [attempt(case.slug, day=day) for case in CASES for day in (0, 0.01, 3, 20)]
    cards = cards_of(results_of(made), attempt(day=20).time)
    shifts = []
    for card in cards.values():
        assert spread_due(card) == spread_due(card)
        shifts.append((spread_due(card) - card.due) / (card.due - card.last))
    assert all(abs(shift) <= SPREAD for shift in shifts)
    assert max(shifts) - min(shifts) > SPREAD
    learning = cards_of(results_of([attempt()]), attempt().time)[SLUG]
    assert spread_due(learning) == learning.due


def test_times_of_cards_are_in_utc(attempt: Any) -> None:
    card = cards_of(results_of([attempt()]), attempt().time)[SLUG]
    assert {card.first.tzinfo, card.last.tzinfo, card.due.tzinfo} == {UTC}
