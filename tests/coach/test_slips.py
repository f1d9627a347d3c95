"""Each slip with a position where it is made and one where it is not."""

from __future__ import annotations

import pytest

from tutor.coach.change import Change
from tutor.coach.feedback import feedback
from tutor.coach.slips import Made, SlipKind, slips
from tutor.cube.faces import Turn
from tutor.cube.notation import parse_turns
from tutor.cube.position import SLOTS, Slot
from tutor.cube.stickers import COLOUR_NAMES
from tutor.method.answer import Answer, answer
from tutor.method.cases import parse_case
from tutor.solver.continuations import Verdict
from tutor.solver.search import Solver
from tutor.solver.task import Task

TASK = Task(Slot.FR, frozenset(SLOTS) - {Slot.FR})
TOUCHING = "corner-up-edge-front-front-up"
APART = "corner-up-edge-left-front-up"


@pytest.fixture(scope="module")
def solver() -> Solver:
    return Solver.open()


def reached(solver: Solver, case: str, before: str) -> tuple[Answer, Turn | None]:
    """The answer after the turns ``before`` from a case, and the last of them."""
    turns = parse_turns(before)
    position = parse_case(case).position().after(turns)
    return answer(solver, position, TASK), turns[-1] if turns else None


def kinds(solver: Solver, case: str, before: str, turn: str) -> set[SlipKind]:
    found, previous = reached(solver, case, before)
    (made,) = parse_turns(turn)
    change = Change(found.position, TASK, made, COLOUR_NAMES, None)
    return {slip.kind for slip in slips(Made(found, change, previous))}


EXAMPLES = [
    (SlipKind.TOOK_BACK, TOUCHING, "U2", "U2"),
    (SlipKind.WRONG_WAY, TOUCHING, "U2", "R'"),
    (SlipKind.LEFT_LIFTED, TOUCHING, "D", "L"),
    (SlipKind.TOO_EARLY, "corner-up-edge-back-front-up", "", "R"),
    (SlipKind.BOTH_LIFTED, TOUCHING, "", "F2"),
    (SlipKind.WRONG_JOIN, APART, "", "F'"),
    (SlipKind.PUT_OUT, TOUCHING, "", "D"),
    (SlipKind.SAME_FACE, TOUCHING, "U", "U"),
]
COUNTER_EXAMPLES = [
    # Taking back a turn that had led away is no slip.
    (SlipKind.TOOK_BACK, TOUCHING, "D", "D'"),
    # The other way round it is the right way.
    (SlipKind.WRONG_WAY, TOUCHING, "U2", "R"),
    # Nothing was lifted before.
    (SlipKind.LEFT_LIFTED, TOUCHING, "", "L"),
    # With the top set first, the lift comes in time.
    (SlipKind.TOO_EARLY, TOUCHING, "U2", "R"),
    # The two lie apart, so they are not carried along together.
    (SlipKind.BOTH_LIFTED, APART, "", "F2"),
    # The top alone does not bring these two together.
    (SlipKind.WRONG_JOIN, APART, "", "U"),
    # The top holds no kept pair.
    (SlipKind.PUT_OUT, TOUCHING, "", "U"),
    # Two faces, two turns.
    (SlipKind.SAME_FACE, TOUCHING, "U", "R"),
]


@pytest.mark.parametrize(("kind", "case", "before", "turn"), EXAMPLES)
def test_the_slip_is_recognised_and_explained(
    solver: Solver, kind: SlipKind, case: str, before: str, turn: str
) -> None:
    assert kind in kinds(solver, case, before, turn)
    found, previous = reached(solver, case, before)
    (made,) = parse_turns(turn)
    remark = feedback(found, made, COLOUR_NAMES, previous=previous)
    assert remark.slip is not None
    assert remark.text


@pytest.mark.parametrize(("kind", "case", "before", "turn"), COUNTER_EXAMPLES)
def test_where_it_is_not_made_it_is_not_told(
    solver: Solver, kind: SlipKind, case: str, before: str, turn: str
) -> None:
    assert kind not in kinds(solver, case, before, turn)


def test_every_kind_has_an_example_and_a_counter_example() -> None:
    assert {each[0] for each in EXAMPLES} == {each[0] for each in COUNTER_EXAMPLES} == set(SlipKind)


@pytest.mark.parametrize(("kind", "case", "before", "turn"), EXAMPLES)
def test_a_replay_shows_turns_that_can_be_made_and_marks_one_of_them(
    solver: Solver, kind: SlipKind, case: str, before: str, turn: str
) -> None:
    found, previous = reached(solver, case, before)
    (made,) = parse_turns(turn)
    change = Change(found.position, TASK, made, COLOUR_NAMES, None)
    for slip in slips(Made(found, change, previous)):
        if slip.replay:
            assert slip.marked is not None
            assert 0 <= slip.marked < len(slip.replay)


def test_the_replay_of_a_turn_made_the_wrong_way_is_the_right_turn(solver: Solver) -> None:
    found, previous = reached(solver, TOUCHING, "U2")
    remark = feedback(found, Turn.R_PRIME, COLOUR_NAMES, previous=previous)
    assert remark.slip is not None
    assert remark.slip.kind is SlipKind.WRONG_WAY
    assert found.continuations[remark.slip.replay[0]].verdict is Verdict.OPTIMAL


def test_an_optimal_turn_is_praised_and_never_called_a_slip_of_judgement(solver: Solver) -> None:
    for case in (TOUCHING, APART):
        found, _ = reached(solver, case, "")
        for turn in found.turns(Verdict.OPTIMAL):
            remark = feedback(found, turn, COLOUR_NAMES)
            assert remark.verdict is Verdict.OPTIMAL
            assert remark.slip is None
