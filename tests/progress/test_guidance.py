"""What a run is worth: every combination of how it ended, how long it was, and the help that was taken."""

from __future__ import annotations

from itertools import product

import pytest

from tests.progress.conftest import AttemptMaker
from tutor.coach.guidance import (
    FAILURES_TO_EASIER,
    Guidance,
    Help,
    Remedy,
    Run,
    easier_than,
    guided,
    watched,
    worth,
)
from tutor.cube.faces import Turn
from tutor.method.cases import CASES, Case
from tutor.method.continuations import Verdict
from tutor.method.steps import TURNING_STEPS
from tutor.progress.attempt import AttemptRecord, HintTaken, Outcome, TurnMade
from tutor.progress.results import results_of
from tutor.progress.study import guidance_of

SHORTEST = 3
COMBINATIONS = tuple(
    given
    for given in product((True, False), (0, 1, 2), (0, 2), (0, 1, 2, 3), (0, 1), (0, 2))
    if given[1] or given[2] or not given[4]
)
"""Home, turns more on the way kept, turns taken back, deepest hint, detours, turns played before.

A detour makes the way longer or is taken back.
"""
GIVEN_UP = worth(home=False, used=0, made=0, fewest=SHORTEST, deepest_hint=0, detours=0, shown=0)


def run_of(home: bool, longer: int, back: int, hint: int, detours: int, shown: int) -> Run:
    used = SHORTEST + longer
    return worth(
        home=home,
        used=used,
        made=used + back,
        fewest=SHORTEST,
        deepest_hint=hint,
        detours=detours,
        shown=shown,
    )


def kept(
    attempt: AttemptMaker, home: bool, longer: int, back: int, hint: int, detours: int, shown: int
) -> AttemptRecord:
    """The same run as the store keeps it."""
    used = SHORTEST + longer
    verdicts = [Verdict.DETOUR] * detours + [Verdict.OPTIMAL] * (used + back - detours)
    return attempt(
        outcome=Outcome.SOLVED if home else Outcome.GIVEN_UP,
        turns=tuple(TurnMade(Turn.R, 1.0, each, 0, TURNING_STEPS[0]) for each in verdicts),
        hints=(HintTaken(hint, 1.0),) if hint else (),
        turns_used=used,
        by_hand=SHORTEST,
        shown=shown,
    )


@pytest.mark.parametrize("given", COMBINATIONS)
def test_only_the_whole_case_home_in_the_fewest_turns_without_a_hint_is_optimal(
    given: tuple[bool, int, int, int, int, int],
) -> None:
    assert run_of(*given).optimal_unaided == (given == (True, 0, 0, 0, 0, 0))


@pytest.mark.parametrize("given", COMBINATIONS)
def test_a_run_is_clean_when_it_is_home_without_a_detour_and_no_turn_was_shown(
    given: tuple[bool, int, int, int, int, int],
) -> None:
    home, _, _, hint, detours, _ = given
    assert run_of(*given).clean == (home and hint < 3 and not detours)


@pytest.mark.parametrize("given", COMBINATIONS)
def test_a_run_that_was_kept_leaves_the_guidance_that_it_left_when_it_was_over(
    given: tuple[bool, int, int, int, int, int], attempt: AttemptMaker
) -> None:
    case = CASES[0]
    kept_runs = [kept(attempt, *given) for _ in range(FAILURES_TO_EASIER)]
    at_once = Guidance()
    for _ in kept_runs:
        at_once = guided(at_once, case, run_of(*given))
    assert guidance_of(results_of(kept_runs)) == {case.slug: at_once}


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.slug)
def test_after_failure_upon_failure_the_easier_case_comes_where_there_is_one(
    case: Case, attempt: AttemptMaker
) -> None:
    guidance = watched(Guidance())
    for _ in range(FAILURES_TO_EASIER):
        guidance = guided(guidance, case, GIVEN_UP)
    wanted = (Remedy.EASIER_CASE, Help.LAST_TURN) if easier_than(case) else (Remedy.SEE_IT, Help.WATCH)
    assert (guidance.remedy, guidance.help) == wanted
    failed = [attempt(case.slug, outcome=Outcome.WATCHED)]
    failed += [attempt(case.slug, 1 + day, outcome=Outcome.GIVEN_UP) for day in range(FAILURES_TO_EASIER)]
    assert guidance_of(results_of(failed))[case.slug] == guidance
