from __future__ import annotations

import pytest

from tutor.coach.hints import hint
from tutor.cube.faces import Turn
from tutor.cube.notation import parse_turns
from tutor.cube.position import SLOTS, SOLVED, Slot
from tutor.cube.stickers import COLOUR_NAMES
from tutor.method.answer import answer
from tutor.method.cases import CASES, Case
from tutor.solver.search import Solver
from tutor.solver.task import Task

TASK = Task(Slot.FR, frozenset(SLOTS) - {Slot.FR})


@pytest.fixture(scope="module")
def solver() -> Solver:
    return Solver.open()


@pytest.mark.parametrize("case", CASES[::4])
@pytest.mark.parametrize("deviation", ["", "D", "L2 B"])
def test_each_rung_says_more_and_the_last_gives_a_turn_that_is_optimal(
    solver: Solver, case: Case, deviation: str
) -> None:
    found = answer(solver, case.position().after(parse_turns(deviation)), TASK)
    look, idea, turn = (hint(found, COLOUR_NAMES, rung) for rung in (1, 2, 3))
    assert look.glowing
    assert look.turn is None
    assert idea.turn is None
    assert turn.turn is not None
    assert found.continuations[turn.turn].cost == 0
    assert turn.turn.notation in turn.text
    assert len({look.text, idea.text, turn.text}) == 3


def test_the_hint_is_for_the_position_now_on_the_cube(solver: Solver) -> None:
    lifted = SOLVED.after(parse_turns("R U R'"))
    assert hint(answer(solver, lifted, TASK), COLOUR_NAMES, 3).turn is Turn.R
    astray = lifted.turned(Turn.L)
    assert hint(answer(solver, astray, TASK), COLOUR_NAMES, 3).turn is Turn.L_PRIME


def test_with_the_pair_at_home_there_is_nothing_to_hint_at(solver: Solver) -> None:
    found = hint(answer(solver, SOLVED, TASK), COLOUR_NAMES, 3)
    assert found.turn is None
    assert found.text
