from __future__ import annotations

import pytest

from tutor.coach.review import review
from tutor.cube.faces import Turn
from tutor.cube.notation import parse_turns
from tutor.cube.position import SLOTS, SOLVED, Position, Slot
from tutor.method.answer import Answer, answer
from tutor.method.cases import CASES
from tutor.solver.search import Solver
from tutor.solver.task import Task

TASK = Task(Slot.FR, frozenset(SLOTS) - {Slot.FR})


@pytest.fixture(scope="module")
def solver() -> Solver:
    return Solver.open()


def answers_along(solver: Solver, start: Position, turns: tuple[Turn, ...]) -> list[Answer]:
    return [answer(solver, start.after(turns[:count]), TASK) for count in range(len(turns))]


def test_a_shortest_way_is_told_as_such(solver: Solver) -> None:
    start, turns = SOLVED.after(parse_turns("R U R'")), parse_turns("R U' R'")
    found = review(answers_along(solver, start, turns), turns)
    assert (found.parted, found.extra, found.left) == (None, 0, 0)
    assert found.line == turns


def test_where_the_ways_parted_and_what_it_cost(solver: Solver) -> None:
    start, turns = SOLVED.after(parse_turns("R U R'")), parse_turns("R D D' U' R'")
    found = review(answers_along(solver, start, turns), turns)
    assert found.parted == 1
    assert found.extra == 2
    assert "second" in found.text


def test_an_end_before_the_pair_is_home_is_told(solver: Solver) -> None:
    start, turns = SOLVED.after(parse_turns("R U R'")), parse_turns("R")
    found = review(answers_along(solver, start, turns), turns)
    assert found.left == 2


def test_the_shortcut_of_a_line_over_its_route_is_told_in_words(solver: Solver) -> None:
    told = 0
    for case in CASES:
        start = case.position()
        line = answer(solver, start, TASK).lines[0]
        found = review(answers_along(solver, start, line), line)
        assert found.shortcut is not None
        assert found.route is not None
        assert found.shortcut.saved == len(found.route.turns) - len(line)
        told += found.shortcut.saved > 0
        assert found.text
    assert told


def test_it_needs_an_answer_for_every_turn(solver: Solver) -> None:
    with pytest.raises(ValueError, match="one answer for each turn"):
        review([], parse_turns("R"))
