from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tutor.method.cases import CASES
from tutor.progress import words
from tutor.progress.attempt import Mode, Outcome
from tutor.progress.sitting import (
    MOST,
    PAUSE,
    Goal,
    GoalError,
    GoalKind,
    begun,
    busy,
    farewell,
    goal_standing,
    rest_wanted,
    waited,
    with_attempt,
)


def test_a_goal_of_attempts_ends_with_the_last_of_them(attempt: Any) -> None:
    sitting = begun(Goal(GoalKind.ATTEMPTS, 2), 0.0)
    assert not goal_standing(sitting, more=True).reached
    sitting = with_attempt(sitting, attempt(), 10.0)
    assert goal_standing(sitting, more=False).reached is False
    sitting = with_attempt(sitting, attempt.detour(CASES[1].slug), 20.0)
    standing = goal_standing(sitting, more=True)
    assert (standing.done, standing.wanted, standing.reached) == (2, 2, True)
    assert (
        farewell(sitting)
        == "You made two tries at two cases. You got one of them right first time, without help."
    )


def test_what_was_only_watched_is_no_try(attempt: Any) -> None:
    sitting = with_attempt(
        begun(Goal(GoalKind.ATTEMPTS, 1), 0.0), attempt(outcome=Outcome.WATCHED, turns=()), 9.0
    )
    assert goal_standing(sitting, more=True).done == 0
    assert farewell(sitting) == "You did not try a case this time."


def test_a_case_named_right_at_a_glance_is_right_and_a_misnamed_one_is_not(attempt: Any) -> None:
    sitting = begun(Goal(GoalKind.ATTEMPTS, 9), 0.0)
    glance = {"mode": Mode.GLANCE, "turns": (), "turns_used": 0}
    sitting = with_attempt(sitting, attempt(outcome=Outcome.NAMED, **glance), 3.0)
    sitting = with_attempt(sitting, attempt(outcome=Outcome.MISNAMED, **glance), 6.0)
    assert (sitting.attempts, sitting.good) == (2, 1)


def test_a_goal_of_minutes_counts_time_spent_and_no_pause() -> None:
    sitting = begun(Goal(GoalKind.MINUTES, 10), 100.0)
    for second in range(130, 100 + 301, 30):
        sitting = busy(sitting, second)
    sitting = busy(sitting, 5000.0)
    assert goal_standing(sitting, more=True).done == 5
    for second in range(5030, 5301, 30):
        sitting = busy(sitting, second)
    assert goal_standing(sitting, more=True).reached


def test_a_wait_for_the_program_is_no_time_spent_and_a_long_one_rests_the_hands() -> None:
    sitting = busy(begun(Goal(), 0.0), 60.0)
    short = busy(waited(sitting, 100.0), 110.0)
    assert (short.spent, short.unrested, short.last) == (70.0, 70.0, 110.0)
    long = waited(sitting, 60.0 + PAUSE)
    assert (long.spent, long.unrested, long.last) == (60.0, 0.0, 60.0 + PAUSE)


def test_the_goal_of_todays_list_ends_when_nothing_is_proposed(attempt: Any) -> None:
    sitting = with_attempt(begun(Goal(), 0.0), attempt(), 5.0)
    assert not goal_standing(sitting, more=True).reached
    standing = goal_standing(sitting, more=False)
    assert (standing.done, standing.wanted, standing.reached) == (1, None, True)


def test_a_rest_is_suggested_once_for_every_so_many_minutes() -> None:
    sitting, told = begun(Goal(), 0.0), []
    for minute in range(1, 80):
        sitting, due = rest_wanted(sitting, 60.0 * minute, minutes=25)
        if due:
            told.append(minute)
    assert told == [25, 50, 75]


def test_after_a_pause_the_hands_are_rested() -> None:
    sitting = begun(Goal(), 0.0)
    for minute in range(1, 25):
        sitting = busy(sitting, 60.0 * minute)
    sitting, due = rest_wanted(sitting, 24 * 60 + PAUSE, minutes=25)
    assert not due
    for minute in range(1, 25):
        sitting, due = rest_wanted(sitting, 24 * 60 + PAUSE + 60.0 * minute, minutes=25)
        assert not due
    assert rest_wanted(sitting, 24 * 60 + PAUSE + 60.0 * 25, minutes=25)[1]


@given(steps=st.lists(st.integers(0, 600), max_size=40))
def test_time_spent_is_never_more_than_the_time_gone_by(steps: list[int]) -> None:
    sitting, now = begun(Goal(), 0.0), 0.0
    for step in steps:
        now += step
        sitting = busy(sitting, now)
    assert sitting.unrested <= sitting.spent <= now
    assert sitting.spent == sum(step for step in steps if step < PAUSE)


@pytest.mark.parametrize(
    ("kind", "amount", "told"),
    [
        (GoalKind.ATTEMPTS, 0, "from 1 to"),
        (GoalKind.MINUTES, MOST + 1, "from 1 to"),
        (GoalKind.TODAY, 5, "no amount"),
    ],
)
def test_a_goal_that_cannot_be_is_refused(kind: GoalKind, amount: int, told: str) -> None:
    with pytest.raises(GoalError, match=told):
        Goal(kind, amount)


@pytest.mark.parametrize(
    ("tries", "cases", "right", "said"),
    [
        (1, 1, 1, "You made one try at one case. You got it right first time, without help."),
        (1, 1, 0, "You made one try at one case."),
        (8, 5, 8, "You made eight tries at five cases. You got all of them right first time, without help."),
        (3, 1, 0, "You made three tries at one case. You got none of them right first time, without help."),
        (24, 22, 21, "You made 24 tries at 22 cases. You got 21 of them right first time, without help."),
    ],
)
def test_what_is_said_at_the_end_has_its_plurals(tries: int, cases: int, right: int, said: str) -> None:
    assert words.farewell(tries, cases, right) == said
