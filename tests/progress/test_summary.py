"""What the Progress screen tells."""

import csv
from datetime import date, datetime, timedelta, timezone
from statistics import mean, median
from typing import Any

import pytest

from tutor.cube.faces import Turn
from tutor.cube.position import SLOTS, Slot
from tutor.method.cases import CASES
from tutor.method.continuations import Verdict
from tutor.method.steps import TURNING_STEPS, Step
from tutor.progress.attempt import HintTaken, Mode, Outcome, TurnMade
from tutor.progress.study import Study
from tutor.progress.summary import (
    FORECAST_DAYS,
    MOST_POINTS,
    RECENT,
    Memory,
    format_standing,
    memory_of,
    summarise,
)


def at(make: Any, day: float) -> datetime:
    time: datetime = make(day=day).time
    return time


def test_a_beginner_has_41_new_cases_and_nothing_else(attempt: Any) -> None:
    summary = summarise(Study.of([], at(attempt, 0)), at(attempt, 0))
    assert [each.case for each in summary.cases] == list(CASES)
    assert summary.count(Memory.NOT_MET) == 41
    assert (summary.series, summary.forecast) == ((), ())
    assert [day.slugs for day in summary.week] == [()] * 7
    assert [(step.lost, step.share) for step in summary.steps] == [(0, 0)] * 4
    assert all(slot.attempts == 0 and slot.good is None for slot in summary.slots)


def test_signs_differ_so_that_colour_is_not_needed() -> None:
    # WCAG 2.2, 1.4.1: colour is never the only carrier of a meaning.
    assert len({memory.sign for memory in Memory}) == len({memory.word for memory in Memory}) == len(Memory)


def test_how_a_case_holds_follows_its_card(attempt: Any) -> None:
    slug = CASES[0].slug
    met = [attempt(day=0)]
    assert memory_of(Study.of(met, at(attempt, 0)).cards[slug], at(attempt, 0)) is Memory.SETTLING
    held = [*met, attempt(day=0.01)]
    card = Study.of(held, at(attempt, 0.01)).cards[slug]
    assert memory_of(card, at(attempt, 0.01)) is Memory.STICKS
    # By its own forecast the case is slipping once the chance to remember it is under four fifths.
    slipping_day = next(day for day in range(1000) if card.chance(at(attempt, day)) < 0.8)
    assert memory_of(card, at(attempt, slipping_day)) is Memory.SLIPPING
    assert memory_of(card, at(attempt, slipping_day - 1)) is Memory.STICKS
    sure = Study.of([*held, attempt(day=8), attempt(day=40)], at(attempt, 40)).cards[slug]
    assert memory_of(sure, at(attempt, 40)) is Memory.SURE


def test_turns_over_the_fewest_and_recognition_are_of_late(attempt: Any) -> None:
    made = [attempt(day=0, turns_used=9, first_turn=9.0)]
    late = RECENT.days + 5.0
    made += [
        attempt(day=late + n, by_hand=4, turns_used=4 + extra, first_turn=first)
        for n, (extra, first) in enumerate([(0, 1.0), (1, 2.0), (4, 6.0)])
    ]
    now = at(attempt, late + 3)
    first, other = summarise(Study.of(made, now), now).cases[:2]
    assert first.attempts == 4
    assert first.extra == pytest.approx(mean([0, 1, 4]))
    assert first.recognition == pytest.approx(median([1.0, 2.0, 6.0]))
    assert (other.attempts, other.extra, other.recognition, other.next) == (0, None, None, None)


def test_late_reaches_back_thirty_days_to_the_moment(attempt: Any) -> None:
    now = at(attempt, RECENT.days + 1)
    moment = timedelta(microseconds=1)
    made = [
        attempt(time=now - RECENT - moment, first_turn=9.0),
        attempt(time=now - RECENT, first_turn=2.0),
    ]
    case = summarise(Study.of(made, now), now).cases[0]
    assert case.recognition == 2.0


def test_turns_over_the_fewest_are_by_hand_where_that_was_kept(attempt: Any) -> None:
    # Six turns: two over four by hand; three over three at all, where by hand was not kept yet.
    made = [attempt(by_hand=4, at_all=3, turns_used=6), attempt(by_hand=None, at_all=3, turns_used=6)]
    now = at(attempt, 1)
    assert summarise(Study.of(made, now), now).cases[0].extra == mean([2, 3])


def test_steps_tell_where_turns_are_lost(attempt: Any) -> None:
    part = (
        TurnMade(Turn.F, 1.0, Verdict.DETOUR, 2, Step.PART),
        TurnMade(Turn.R, 2.0, Verdict.ACCEPTABLE, 1, Step.PART),
    )
    made = [attempt(turns=part, turns_used=6), attempt(day=0.1), attempt(day=0.2), attempt(day=0.3)]
    steps = {each.step: each for each in summarise(Study.of(made, at(attempt, 1)), at(attempt, 1)).steps}
    assert tuple(steps) == TURNING_STEPS
    assert (steps[Step.PART].lost, steps[Step.PART].share) == (3 / 4, 1 / 4)
    assert (steps[Step.INSERT].lost, steps[Step.INSERT].share) == (0, 0)


def test_slots_are_told_apart(attempt: Any) -> None:
    made = [attempt(slot=Slot.BL), attempt.detour(day=0.1, slot=Slot.BL), attempt(day=0.2, slot=Slot.FR)]
    slots = {each.slot: each for each in summarise(Study.of(made, at(attempt, 1)), at(attempt, 1)).slots}
    assert tuple(slots) == SLOTS
    assert (slots[Slot.BL].attempts, slots[Slot.BL].good, slots[Slot.BL].extra) == (2, 0.5, 1.0)
    assert (slots[Slot.FR].attempts, slots[Slot.FR].good) == (1, 1.0)
    assert slots[Slot.BR].attempts == 0


def test_flashes_and_demonstrations_are_no_turning(attempt: Any) -> None:
    made = [
        attempt(mode=Mode.GLANCE, outcome=Outcome.NAMED, first_turn=0.1),
        attempt(day=0.1, outcome=Outcome.WATCHED, turns=(), turns_used=0, first_turn=None),
    ]
    summary = summarise(Study.of(made, at(attempt, 1)), at(attempt, 1))
    assert summary.series == ()
    assert summary.cases[0].attempts == 2
    assert summary.cases[0].recognition is None


def test_a_point_of_the_series_is_a_day_where_the_learner_is(attempt: Any) -> None:
    # 18:30 and 23:30 UTC are one day in UTC and two in a zone two hours east.
    hints = (HintTaken(1, 1.0), HintTaken(2, 2.0))
    study = Study.of([attempt(day=0, hints=hints), attempt(day=5 / 24, turns_used=5)], at(attempt, 1))
    (whole,) = summarise(study, at(attempt, 1)).series
    assert (whole.day, whole.attempts, whole.extra, whole.hints) == (date(2026, 3, 3), 2, 1.0, 1.0)
    points = summarise(study, at(attempt, 1), timezone(timedelta(hours=2))).series
    assert [(point.day.day, point.attempts) for point in points] == [(3, 1), (4, 1)]


@pytest.mark.parametrize("days", [1, 59, 60, 61, 420, 421, 2000])
def test_a_long_series_has_few_points_and_loses_no_attempt(attempt: Any, days: int) -> None:
    made = [attempt(CASES[day % 41].slug, day=day) for day in range(days)]
    now = at(attempt, days)
    series = summarise(Study.of(made, now), now).series
    assert len(series) <= MOST_POINTS
    assert sum(point.attempts for point in series) == days
    assert [point.day for point in series] == sorted({point.day for point in series})


def test_the_forecast_falls_as_the_cards_say(attempt: Any) -> None:
    made = [attempt(case.slug, day=day) for case in CASES[:3] for day in (0, 0.01)]
    now = at(attempt, 0.02)
    study = Study.of(made, now)
    forecast = summarise(study, now).forecast
    assert [each.days for each in forecast] == list(range(FORECAST_DAYS + 1))
    assert forecast[0].remember == 1.0
    assert forecast[0].likely == 3
    chances = [each.remember for each in forecast]
    assert chances == sorted(chances, reverse=True)
    last = [card.chance(now + timedelta(days=FORECAST_DAYS)) for card in study.cards.values()]
    assert chances[-1] == pytest.approx(mean(last))


def test_a_chance_shown_as_90_percent_counts_as_90_percent(attempt: Any) -> None:
    made = [attempt(CASES[0].slug, day=day) for day in (0, 1, 4, 12, 30, 70)]
    (card,) = Study.of(made, at(attempt, 70)).cards.values()
    days = (at(attempt, day) for day in range(71, 400))
    now = next(day for day in days if f"{card.chance(day):.0%}" == "90%" and card.chance(day) < 0.9)
    assert summarise(Study.of(made, now), now).forecast[0].likely == 1


def test_the_week_tells_what_is_due_and_takes_what_is_overdue_for_today(attempt: Any) -> None:
    overdue, soon = CASES[0].slug, CASES[1].slug
    made = [
        attempt(overdue, day=0),
        attempt(overdue, day=0.01),
        attempt(soon, day=18),
        attempt(soon, day=18.01),
    ]
    now = at(attempt, 19)
    study = Study.of(made, now)
    week = summarise(study, now).week
    assert len(week) == 7
    assert week[0].day == now.date()
    assert week[0].slugs == (overdue,)
    days = {slug: day.day for day in week for slug in day.slugs}
    assert days[soon] - now.date() in {timedelta(days=n) for n in range(1, 4)}


def test_the_table_has_a_row_for_each_case(attempt: Any) -> None:
    now = at(attempt, 1)
    rows = list(csv.DictReader(format_standing(summarise(Study.of([attempt()], now), now))))
    assert [row["case"] for row in rows] == [case.slug for case in CASES]
    assert (rows[0]["sign"], rows[0]["memory"], rows[0]["attempts"]) == ("Se", "settling", "1")
    assert rows[0]["next"] == "2026-03-03T18:40:00Z"
    assert (rows[1]["sign"], rows[1]["remember"], rows[1]["lasts_days"], rows[1]["next"]) == (
        "Nm",
        "",
        "",
        "",
    )
    assert [row["number"] for row in rows] == [str(number) for number in range(1, 42)]
