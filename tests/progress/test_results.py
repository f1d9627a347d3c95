"""Attempts in brief."""

from typing import Any

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from tutor.cube.faces import Turn
from tutor.method.cases import CASES
from tutor.method.continuations import Verdict
from tutor.method.steps import Step
from tutor.progress.attempt import HintTaken, TurnMade
from tutor.progress.results import (
    CASE_PLACES,
    MODES,
    OUTCOMES,
    RESULT,
    VERDICTS,
    microseconds,
    moment,
    results_of,
)


@given(data=st.data())
def test_a_brief_says_what_the_attempt_says(data: st.DataObject, any_attempt: Any) -> None:
    attempt = data.draw(any_attempt)
    (result,) = results_of([attempt])
    assert moment(int(result["time"])) == attempt.time
    assert CASES[int(result["case"])].slug == attempt.case
    assert MODES[result["mode"]] is attempt.mode
    assert OUTCOMES[result["outcome"]] is attempt.outcome
    assert result["seconds"] == np.float32(attempt.seconds)
    assert np.isnan(result["first_turn"]) == (attempt.first_turn is None)
    numbers = ("slot", "mirror", "used", "fewest", "taught", "shown", "made", "rung", "hints")
    said = (
        attempt.slot,
        attempt.mirror,
        attempt.turns_used,
        attempt.at_all if attempt.by_hand is None else attempt.by_hand,
        max(attempt.route or 0, attempt.at_all if attempt.by_hand is None else attempt.by_hand),
        attempt.shown,
        len(attempt.turns),
        attempt.deepest_hint,
        len(attempt.hints),
    )
    assert tuple(int(result[name]) for name in numbers) == said


def test_lost_turns_are_counted_for_the_step_they_were_lost_in(attempt: Any) -> None:
    turns = (
        TurnMade(Turn.R, 1.0, Verdict.ACCEPTABLE, 1, Step.RAISE),
        TurnMade(Turn.U, 2.0, Verdict.OPTIMAL, 0, Step.PART),
        TurnMade(Turn.F, 3.0, Verdict.DETOUR, 2, Step.JOIN),
        TurnMade(Turn.F, 4.0, Verdict.DETOUR, 2, Step.JOIN),
        TurnMade(Turn.D, 5.0),
    )
    (result,) = results_of([attempt(turns=turns, hints=(HintTaken(1, 0.5),))])
    assert result["step_cost"].tolist() == [1, 0, 4, 0]
    assert VERDICTS[result["worst"]] is Verdict.DETOUR


def test_results_come_in_the_order_of_time_and_then_of_their_numbers(attempt: Any) -> None:
    later, earlier, same = attempt(day=2), attempt(day=1), attempt(day=2, case=CASES[3].slug)
    results = results_of([later, same, earlier])
    assert results.dtype == RESULT
    assert results["time"].tolist() == sorted(microseconds(each.time) for each in (later, earlier, same))
    assert results_of([same, earlier, later]).tobytes() == results.tobytes()


def test_every_case_has_a_place_of_its_own() -> None:
    assert len(CASE_PLACES) == 41
    assert all(CASES[CASE_PLACES[case.slug]] is case for case in CASES)
    assert results_of([]).shape == (0,)
