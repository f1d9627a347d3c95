from __future__ import annotations

import pytest

from tutor.coach.scene import Scene
from tutor.coach.why import Question, why
from tutor.cube.position import SLOTS, Position, Slot
from tutor.cube.stickers import COLOUR_NAMES
from tutor.method.answer import Answer, answer
from tutor.method.cases import CASES
from tutor.solver.search import Solver
from tutor.solver.task import Task

TASK = Task(Slot.FR, frozenset(SLOTS) - {Slot.FR})


@pytest.fixture(scope="module")
def asked() -> list[tuple[Answer, Question]]:
    """A question on every case that has one."""
    solver = Solver.open()
    found = [answer(solver, case.position(), TASK) for case in CASES]
    questions = [(each, why(each, each.lines[0][0], COLOUR_NAMES, seed=1)) for each in found]
    return [(each, question) for each, question in questions if question is not None]


def test_most_cases_have_a_question(asked: list[tuple[Answer, Question]]) -> None:
    assert len(asked) >= 30


def test_exactly_one_of_three_or_four_answers_is_true(asked: list[tuple[Answer, Question]]) -> None:
    for found, question in asked:
        assert 3 <= len(question.choices) <= 4
        assert sum(choice.true for choice in question.choices) == 1
        assert len({choice.text for choice in question.choices}) == len(question.choices)
        after = found.position.turned(question.turn)
        scene = Scene(found.position, after, TASK, _no_distance, question.turn)
        for choice in question.choices:
            assert all(claim.holds(scene) for claim in choice.claims) == choice.true


def test_every_answer_is_explained(asked: list[tuple[Answer, Question]]) -> None:
    assert all(choice.reply for _, question in asked for choice in question.choices)


def test_the_same_seed_asks_the_same_question(asked: list[tuple[Answer, Question]]) -> None:
    for found, question in asked[:6]:
        assert why(found, question.turn, COLOUR_NAMES, seed=1) == question


def test_a_turn_that_is_not_optimal_is_not_asked_about(asked: list[tuple[Answer, Question]]) -> None:
    found, _ = asked[0]
    worse = next(entry.turn for entry in found.continuations if entry.cost)
    assert why(found, worse, COLOUR_NAMES, seed=1) is None


def _no_distance(position: Position) -> int:
    raise AssertionError(f"no claim here is about distances: {position}")
