"""Cards follow from the attempts, as the FSRS library works them out."""

import random
from collections.abc import Iterable
from datetime import UTC, datetime, timedelta
from itertools import product
from typing import Any

import fsrs
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tutor.cube.faces import Turn
from tutor.cube.position import Slot, every_other_slot
from tutor.method.answer import answer
from tutor.method.cases import ALIGNMENTS, CASES
from tutor.method.continuations import Verdict
from tutor.method.steps import Step
from tutor.progress.attempt import AttemptRecord, HintTaken, Mode, Outcome, TurnMade
from tutor.progress.cards import SPREAD, UNCOUNTED, CardPhase, believable_times, cards_of, grades, spread_next
from tutor.progress.forgetting import AGAIN, GOOD, HARD, PARAMETERS, WANTED_CHANCE
from tutor.progress.results import microseconds, results_of
from tutor.solver.search import Solver
from tutor.solver.task import Task

SLUG = CASES[0].slug
HOW = ("plain", "detour", "hint", "flash")
PHASES = {
    CardPhase.SETTLING: fsrs.State.Learning,
    CardPhase.STICKING: fsrs.State.Review,
    CardPhase.SETTLING_AGAIN: fsrs.State.Relearning,
}
ACCEPTABLE = (TurnMade(Turn.U, 1.0, Verdict.ACCEPTABLE, 1, Step.PART),)
DETOUR = (TurnMade(Turn.F, 1.0, Verdict.DETOUR, 2, Step.PART),)


@pytest.mark.parametrize(
    ("changes", "grade"),
    [
        ({}, GOOD),
        ({"turns": ACCEPTABLE, "turns_used": 4}, GOOD),
        ({"turns": ACCEPTABLE, "turns_used": 5}, HARD),
        ({"turns": ACCEPTABLE, "turns_used": 4, "route": None}, HARD),
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
        ({"outcome": Outcome.SOLVED, "shown": 2}, UNCOUNTED),
        ({"outcome": Outcome.NAMED, "mode": Mode.GLANCE}, UNCOUNTED),
        ({"outcome": Outcome.MISNAMED, "mode": Mode.GLANCE}, UNCOUNTED),
    ],
)
def test_how_an_attempt_went_decides_what_it_counts_as(attempt: Any, changes: Any, grade: int) -> None:
    assert grades(results_of([attempt(**changes)])).tolist() == [grade]


def test_whoever_makes_the_taught_route_twice_a_day_apart_knows_the_case(attempt: Any) -> None:
    # The requirement: what is taught, made without help or a slip, is an answer as good as any.
    solver, task, longer = Solver.open(), Task(Slot.FR, every_other_slot(Slot.FR)), 0
    for case, alignment in product(CASES, ALIGNMENTS):
        found = answer(solver, case.position(Slot.FR, alignment), task)
        # Every turn of a route is Optimal or Acceptable (tests/method/test_continuations.py): take the worse.
        turns = tuple(TurnMade(turn, 1.0, Verdict.ACCEPTABLE, 0) for turn in found.routes[0].turns)
        kept = {"alignment": alignment, "turns": turns, "turns_used": len(turns), "route": len(turns)}
        by_hand = {"by_hand": found.by_hand, "at_all": found.distance}
        made = [attempt(case.slug, day, **kept, **by_hand) for day in (0, 1)]
        card = cards_of(results_of(made), made[-1].time)[case.slug]
        assert card.phase is CardPhase.STICKING, (case.slug, alignment)
        longer += len(turns) > found.to_go
    # So many routes are longer than the way by hand; tests/method holds both lengths to plain searches.
    assert longer == 58


def reviewed(model: fsrs.Card | None, scheduler: fsrs.Scheduler, how: str, at: datetime) -> fsrs.Card | None:
    """The library's card after an attempt that went so."""
    if how == "flash":
        return model
    card = fsrs.Card(card_id=1) if model is None else model
    rating = {"plain": fsrs.Rating.Good, "detour": fsrs.Rating.Again, "hint": fsrs.Rating.Hard}[how]
    if how == "hint" and card.state is not fsrs.State.Review:
        rating = fsrs.Rating.Again
    return scheduler.review_card(card, rating, at)[0]


def same_as_the_library(made: list[tuple[AttemptRecord, str]]) -> None:
    """Every figure of every card is the library's, worked out by it review by review, to the last digit."""
    scheduler = fsrs.Scheduler(desired_retention=WANTED_CHANCE, enable_fuzzing=False)
    models: dict[str, fsrs.Card] = {}
    for each, how in made:
        model = reviewed(models.get(each.case), scheduler, how, each.time)
        if model is not None:
            models[each.case] = model
    now = made[-1][0].time
    cards = cards_of(results_of([each for each, _ in made]), now)
    assert cards.keys() == models.keys()
    for slug, model in models.items():
        card = cards[slug]
        assert PHASES[card.phase] is model.state
        assert (card.lasts, card.difficulty, card.rung) == (model.stability, model.difficulty, model.step)
        assert (card.last, card.next) == (model.last_review, model.due)
        for days in (0.0, 0.5, 1.0, 30.0, 400.0):
            at = now + timedelta(days=days)
            assert card.chance(at) == scheduler.get_card_retrievability(model, at)


def made_in(make: Any, drawn: Iterable[tuple[int, float, str]]) -> list[tuple[AttemptRecord, str]]:
    """Attempts at cases, each so many days after the one before, that went so."""
    day, made = 0.0, []
    for case, gap, how in drawn:
        day += gap
        slug = CASES[case].slug
        if how == "detour":
            one = make.detour(slug, day)
        elif how == "hint":
            one = make.hinted(1, slug, day)
        else:
            one = make(slug, day, mode=Mode.GLANCE if how == "flash" else Mode.TODAY)
        made.append((one, how))
    return made


@given(
    drawn=st.lists(
        st.tuples(st.integers(0, 3), st.floats(-4.0, 3.0).map(lambda power: 10**power), st.sampled_from(HOW)),
        min_size=1,
        max_size=40,
    )
)
def test_the_cards_are_those_of_the_library(drawn: list[tuple[int, float, str]], attempt_maker: Any) -> None:
    same_as_the_library(made_in(attempt_maker(), drawn))


def test_the_cards_of_a_long_history_are_those_of_the_library(attempt: Any) -> None:
    drawn = random.Random(7)
    ways = ("plain",) * 8 + HOW
    same_as_the_library(
        made_in(
            attempt,
            [(drawn.randrange(41), drawn.expovariate(20), drawn.choice(ways)) for _ in range(6000)],
        )
    )


def test_the_parameters_are_those_that_the_library_gives() -> None:
    assert fsrs.Scheduler().parameters == PARAMETERS


def test_first_and_last_attempt_are_told_and_how_many_there_were(attempt: Any) -> None:
    made = [attempt(day=0), attempt(day=0.01), attempt.detour(day=1.5), attempt(day=9)]
    found = cards_of(results_of(made), made[-1].time)[SLUG]
    assert (found.first, found.last, found.reviews) == (made[0].time, made[-1].time, 4)


def test_a_first_hint_is_hard_once_the_case_holds_and_again_before(attempt: Any) -> None:
    learning = cards_of(results_of([attempt.hinted(1)]), attempt().time)[SLUG]
    assert learning.phase is CardPhase.SETTLING
    again = cards_of(results_of([attempt.hinted(3)]), attempt().time)[SLUG]
    assert learning == again

    held = [attempt(day=0), attempt(day=0.01)]
    hard = cards_of(results_of([*held, attempt.hinted(1, day=3)]), attempt(day=3).time)[SLUG]
    deep = cards_of(results_of([*held, attempt.hinted(2, day=3)]), attempt(day=3).time)[SLUG]
    assert hard.phase is CardPhase.STICKING
    assert deep.phase is CardPhase.SETTLING_AGAIN
    assert hard.lasts > deep.lasts


def test_nothing_is_taken_for_easy_on_first_sight(attempt: Any) -> None:
    # Easy would send the card away for more than a week (FSRS 6 parameters: 8.3 days); Good asks again in ten
    # minutes.
    card = cards_of(results_of([attempt(seconds=0.5, first_turn=0.1)]), attempt().time)[SLUG]
    assert card.phase is CardPhase.SETTLING
    assert card.next - card.last == timedelta(minutes=10)


def test_undoing_an_attempt_restores_the_card(attempt: Any) -> None:
    made = [attempt(day=0), attempt(day=0.01), attempt.detour(day=4), attempt(CASES[5].slug, day=5)]
    before = cards_of(results_of(made[:3]), made[3].time)
    assert cards_of(results_of(made), made[3].time) != before
    assert cards_of(results_of([each for each in made if each is not made[3]]), made[3].time) == before


def test_attempts_of_a_clock_that_ran_ahead_do_not_put_a_case_off_for_a_year(attempt: Any) -> None:
    made = [attempt(day=0), attempt(day=0.01), attempt(day=400), attempt.detour(day=401)]
    now = attempt(day=2).time
    card = cards_of(results_of(made), now)[SLUG]
    assert card.last == made[1].time
    assert card.next <= now
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
        assert spread_next(card) == spread_next(card)
        shifts.append((spread_next(card) - card.next) / (card.next - card.last))
    assert all(abs(shift) <= SPREAD for shift in shifts)
    assert max(shifts) - min(shifts) > SPREAD
    learning = cards_of(results_of([attempt()]), attempt().time)[SLUG]
    assert spread_next(learning) == learning.next


def test_times_of_cards_are_in_utc(attempt: Any) -> None:
    card = cards_of(results_of([attempt()]), attempt().time)[SLUG]
    assert {card.first.tzinfo, card.last.tzinfo, card.next.tzinfo} == {UTC}
