"""Exact answers and small scripts for the tests of lessons."""

from collections.abc import Callable

import pytest

from tests.workers.direct import answers_of
from tutor.lesson.checker import check_script
from tutor.lesson.problems import LessonError, Problem
from tutor.lesson.questions import Answerer
from tutor.lesson.reading import read_script
from tutor.solver.search import Solver

HEAD = 'title = "A title"\ngoal = "A goal."\n'
"""The first two lines of a script; its scenes begin in line 3."""


@pytest.fixture(scope="session")
def answers(solver: Solver) -> Answerer:
    """Exact answers, each worked out once."""
    return answers_of(solver)


@pytest.fixture
def check(answers: Answerer) -> Callable[[str], list[Problem]]:
    """What is wrong with a script whose scenes are given."""

    def run(scenes: str) -> list[Problem]:
        try:
            return list(check_script(read_script(HEAD + scenes, "file.toml"), answers))
        except LessonError as error:
            return list(error.problems)

    return run
