from __future__ import annotations

import pytest

from tutor.coach.guidance import (
    FAILURES_TO_EASIER,
    Guidance,
    Help,
    Remedy,
    Run,
    after_run,
    builds_on,
    easier_done,
    judges_turns,
    turns_shown,
    watched,
)
from tutor.cube.position import SLOTS, Slot
from tutor.method.answer import answer
from tutor.method.cases import CASES, Case
from tutor.method.steps import Step
from tutor.solver.search import Solver
from tutor.solver.task import Task

TASK = Task(Slot.FR, frozenset(SLOTS) - {Slot.FR})
CLEAN = Run(finished=True, whole=False)
FAILED = Run(finished=False)


def test_help_fades_from_watching_to_alone_one_clean_run_at_a_time() -> None:
    guidance = watched(Guidance())
    levels = [guidance.help]
    for _ in range(4):
        guidance = after_run(guidance, CLEAN)
        levels.append(guidance.help)
    assert levels == [Help.LAST_TURN, Help.LAST_STEP, Help.WITH_HINTS, Help.ALONE, Help.ALONE]
    assert guidance.known


def test_a_whole_run_without_any_help_in_the_fewest_turns_skips_ahead() -> None:
    guidance = after_run(Guidance(Help.LAST_TURN), Run(finished=True))
    assert (guidance.help, guidance.known) == (Help.ALONE, True)


@pytest.mark.parametrize("run", [Run(True, extra=1), Run(True, deepest_hint=1), Run(True, whole=False)])
def test_nothing_less_skips_ahead(run: Run) -> None:
    assert after_run(Guidance(Help.LAST_TURN), run).help is not Help.ALONE


def test_a_turn_that_was_shown_counts_as_shown_and_not_as_known() -> None:
    guidance = after_run(Guidance(Help.WITH_HINTS), Run(finished=True, deepest_hint=3))
    assert guidance.failures == 1
    assert not guidance.known


def test_failing_again_and_again_brings_another_remedy_each_time() -> None:
    guidance, remedies = Guidance(Help.WITH_HINTS), []
    for _ in range(FAILURES_TO_EASIER):
        guidance = after_run(guidance, FAILED, easier=True)
        remedies.append(guidance.remedy)
    assert remedies == [Remedy.NONE, Remedy.SEE_IT, Remedy.SEE_IT, Remedy.EASIER_CASE]
    assert easier_done(guidance).failures == 0


def test_alone_means_no_verdicts_until_it_is_over() -> None:
    assert not judges_turns(Guidance(Help.ALONE), over=False)
    assert judges_turns(Guidance(Help.ALONE), over=True)
    assert judges_turns(Guidance(Help.WITH_HINTS), over=False)


@pytest.mark.parametrize("case", CASES[::6])
def test_what_is_shown_first_leaves_the_learner_the_end(case: Case) -> None:
    solver = Solver.open()
    found = answer(solver, case.position(), TASK)
    route = found.routes[0]
    assert turns_shown(found, Help.WATCH) == route.turns
    assert turns_shown(found, Help.LAST_TURN) == route.turns[:-1]
    last_step = turns_shown(found, Help.LAST_STEP)
    assert all(step is Step.INSERT for step in route.steps[len(last_step) :])
    assert turns_shown(found, Help.ALONE) == ()
    easier = builds_on(found)
    assert easier is None or easier.case != found.case
