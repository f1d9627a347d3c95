from __future__ import annotations

import pytest

from tests.coach.table import Table
from tutor.coach.guidance import (
    FAILURES_TO_EASIER,
    FAILURES_TO_SEE_IT,
    Guidance,
    Help,
    Remedy,
    Run,
    after_run,
    easier_done,
    easier_than,
    turns_shown,
    watched,
)
from tutor.cube.position import SLOTS, Slot
from tutor.method.cases import CASES, Case
from tutor.method.routes import routes
from tutor.method.steps import Step
from tutor.method.terms import ALIGNMENTS
from tutor.solver.task import Task

CLEAN = Run(finished=True, deepest_hint=1, whole=False)
GIVEN_UP = Run(finished=False)


def after(*runs: Run, easier: bool = False) -> Guidance:
    guidance = Guidance(Help.LAST_TURN)
    for run in runs:
        guidance = after_run(guidance, run, easier)
    return guidance


def test_help_fades_one_step_a_clean_run() -> None:
    reached = [after(*[CLEAN] * runs).help for runs in range(5)]
    assert reached == [Help.LAST_TURN, Help.LAST_STEP, Help.WITH_HINTS, Help.ALONE, Help.ALONE]


def test_a_case_begins_with_trying_it_whole_with_hints() -> None:
    # The issue: no rounds of watching before; watching is offered, and changes nothing about that.
    assert Guidance().help is Help.WITH_HINTS
    assert watched(Guidance()).help is Help.WITH_HINTS
    assert after_run(Guidance(), CLEAN).help is Help.ALONE
    assert after_run(Guidance(), GIVEN_UP).help is Help.LAST_STEP


def test_a_first_whole_run_that_is_optimal_and_unaided_skips_ahead() -> None:
    guidance = after_run(Guidance(), Run(finished=True))
    assert guidance.help is Help.ALONE
    assert guidance.known


def test_an_optimal_last_turn_alone_does_not_skip_ahead() -> None:
    assert after(Run(finished=True, whole=False)).help is Help.LAST_STEP


def test_a_run_with_a_hint_or_an_extra_turn_does_not_skip_ahead() -> None:
    assert after(Run(finished=True, deepest_hint=2)).help is Help.LAST_STEP
    assert after(Run(finished=True, extra=1)).help is Help.LAST_STEP


def test_a_run_with_detours_stays_where_it_is() -> None:
    assert after(CLEAN, Run(finished=True, extra=2, slips=1)).help is Help.LAST_STEP


def test_a_shown_turn_counts_as_shown_not_as_known() -> None:
    guidance = after(CLEAN, CLEAN, CLEAN, Run(finished=True, deepest_hint=3))
    assert guidance.help is Help.WITH_HINTS
    assert not guidance.known


def test_failing_again_and_again_brings_another_remedy() -> None:
    guidance = after(CLEAN, CLEAN, *[GIVEN_UP] * FAILURES_TO_SEE_IT)
    assert guidance.remedy is Remedy.SEE_IT
    assert guidance.help is Help.WATCH
    assert watched(guidance).remedy is Remedy.NONE
    longer = after(*[GIVEN_UP] * FAILURES_TO_EASIER, easier=True)
    assert longer.remedy is Remedy.EASIER_CASE
    assert easier_done(longer).failures == 0
    assert after(*[GIVEN_UP] * FAILURES_TO_EASIER, easier=False).remedy is Remedy.SEE_IT


def test_a_clean_run_ends_the_row_of_failures() -> None:
    assert after(GIVEN_UP, CLEAN).failures == 0


def test_what_is_shown_leaves_just_what_the_learner_is_to_do(table: Table) -> None:
    start = table.at("R U' R' U2")
    turns = start.routes[0].turns
    last = sum(step is Step.INSERT for step in start.routes[0].steps)
    assert turns_shown(start, Help.WATCH) == turns
    assert turns_shown(start, Help.LAST_TURN) == turns[:-1]
    assert turns_shown(start, Help.LAST_STEP) == turns[:-last]
    assert 0 < last < len(turns)
    assert turns_shown(start, Help.ALONE) == turns_shown(start, Help.WITH_HINTS) == ()


def turns_of(case: Case) -> int:
    """Turns of the route of a case, the top layer turned as is best."""
    task = Task(Slot.FR, frozenset(SLOTS) - {Slot.FR})
    starts = (case.position(Slot.FR, each) for each in ALIGNMENTS)
    return min(len(routes(start, task, 1).routes[0].turns) for start in starts)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.slug)
def test_an_easier_case_has_a_shorter_route(case: Case) -> None:
    easier = easier_than(case)
    assert easier is None or turns_of(easier.case) < turns_of(case)


def test_most_long_cases_have_an_easier_one_and_those_of_three_turns_have_none() -> None:
    has = {case: easier_than(case) is not None for case in CASES}
    assert not any(has[case] for case in CASES if turns_of(case) == 3)
    long = [has[case] for case in CASES if turns_of(case) > 3]
    assert sum(long) > len(long) / 2
