"""What an attempt keeps of its turns: both figures, what each cost by hand, and the step it belongs to."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.screens.practice.sitting import finish, on_disk, run_of, sits_down
from tests.session.pilot import Pilot
from tutor.coach.guidance import Help
from tutor.cube.notation import format_moves, parse_turns
from tutor.cube.position import SLOTS, Slot
from tutor.method.cases import parse_case
from tutor.method.continuations import Verdict
from tutor.method.cutting import cut
from tutor.method.steps import Step
from tutor.progress.attempt import AttemptRecord
from tutor.progress.cards import grades
from tutor.progress.forgetting import AGAIN, GOOD, HARD
from tutor.progress.results import results_of
from tutor.progress.study import guidance_of
from tutor.screens.practice.commands import TryCase
from tutor.solver.search import Solver
from tutor.solver.task import Task

CASE = parse_case("corner-right-edge-in-straight")
BY_HAND = "U R U R' U2 R U R'"
"""Its route, as short as can be by hand; the tests of the solver hold the eight against a plain search."""
AT_ALL = "L D' L' U L D L'"
"""One turn shorter, with far layers."""
STEPS = (Step.RAISE,) * 4 + (Step.JOIN,) * 2 + (Step.INSERT,) * 2


@pytest.fixture
def learner(solver: Solver, tmp_path: Path) -> Pilot:
    """Alone with the case, so that every turn is the learner's."""
    pilot = sits_down(solver, tmp_path)
    pilot.application.give(TryCase(CASE.slug, Slot.FR, 0, Help.ALONE))
    pilot.settle()
    return pilot


def kept(pilot: Pilot, folder: Path) -> AttemptRecord:
    pilot.settle()
    assert run_of(pilot).finished
    (attempt,) = on_disk(folder)
    return attempt


def grade(attempt: AttemptRecord) -> int:
    return int(grades(results_of([attempt]))[0])


def notation(attempt: AttemptRecord) -> str:
    return format_moves([each.turn for each in attempt.turns])


def test_the_fewest_by_hand_is_as_good_as_can_be_though_at_all_it_is_less(
    learner: Pilot, tmp_path: Path
) -> None:
    learner.turn(BY_HAND)
    attempt = kept(learner, tmp_path)
    assert (attempt.by_hand, attempt.at_all, attempt.turns_used) == (8, 7, 8)
    assert [each.cost for each in attempt.turns] == [0] * 8
    assert [each.step for each in attempt.turns] == list(STEPS)
    assert grade(attempt) == GOOD
    # At once and as read back: a case done whole, without help, in the fewest turns is known.
    assert dict(learner.session.guidance)[CASE.slug].known
    assert guidance_of(results_of([attempt]))[CASE.slug].known


def test_a_shorter_way_over_far_layers_is_no_worse(learner: Pilot, tmp_path: Path) -> None:
    learner.turn(AT_ALL)
    attempt = kept(learner, tmp_path)
    assert (attempt.by_hand, attempt.at_all, attempt.turns_used) == (8, 7, 7)
    assert [(each.verdict, each.cost) for each in attempt.turns] == [(Verdict.OPTIMAL, 0)] * 7
    assert grade(attempt) == GOOD


def test_a_turn_made_in_quarters_is_counted_once(learner: Pilot, tmp_path: Path) -> None:
    learner.turn("U R U R' U U R R R R R U R'")
    attempt = kept(learner, tmp_path)
    assert notation(attempt) == BY_HAND
    assert (attempt.turns_used, run_of(learner).attempt.turns_made) == (8, 8)
    assert grade(attempt) == GOOD


def test_steps_are_those_of_the_cut_though_the_cube_is_turned_round(learner: Pilot, tmp_path: Path) -> None:
    # Turned round by y what was at the right is in front; by y2 after it, at the back.
    learner.turn("U R y U F' U2 y2 B U B'")
    attempt = kept(learner, tmp_path)
    assert notation(attempt) == "U R U F' U2 B U B'"
    assert [each.step for each in attempt.turns] == list(STEPS)
    assert attempt.turns_used == 8


def test_a_turn_taken_back_costs_the_step_that_was_under_way(learner: Pilot, tmp_path: Path) -> None:
    learner.turn("U R U R' D")
    learner.key("backspace")
    learner.turn("U2 R U R'")
    attempt = kept(learner, tmp_path)
    assert notation(attempt) == "U R U R' D U2 R U R'"
    assert [each.step for each in attempt.turns] == [*STEPS[:4], Step.JOIN, *STEPS[4:]]
    assert [each.cost for each in attempt.turns] == [0, 0, 0, 0, 2, 0, 0, 0, 0]
    assert attempt.turns[4].verdict is Verdict.DETOUR
    assert attempt.turns_used == 8
    assert results_of([attempt])["step_cost"].tolist() == [[0, 0, 2, 0]]


@pytest.mark.parametrize(("own", "expected"), [("F U", HARD), ("R2 U", AGAIN)])
def test_turns_of_a_way_of_ones_own_belong_to_the_steps_of_the_whole_way(
    learner: Pilot, tmp_path: Path, own: str, expected: int
) -> None:
    learner.turn(own)
    finish(learner)
    attempt = kept(learner, tmp_path)
    way = parse_turns(notation(attempt))
    task = Task(Slot.FR, frozenset(SLOTS) - {Slot.FR})
    assert [each.step for each in attempt.turns] == list(cut(CASE.position(Slot.FR, 0), task, way))
    assert attempt.by_hand == 8
    # With working faces alone, what the turns cost together is how much longer than the fewest the way is.
    assert attempt.turns_used - attempt.by_hand == sum(each.cost or 0 for each in attempt.turns) > 0
    assert grade(attempt) == expected
