"""The lessons of the program, and a pilot that plays them."""

from __future__ import annotations

import pytest

from tests.session.pilot import Pilot
from tests.workers.direct import answers_of
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import curriculum_names, load_lesson
from tutor.lesson.scenes import Lesson
from tutor.solver.search import Solver


@pytest.fixture(scope="session")
def lessons(solver: Solver) -> dict[str, Lesson]:
    setting = LessonSetting(answers_of(solver))
    return {name: load_lesson(name, setting) for name in curriculum_names()}


@pytest.fixture
def pilot(solver: Solver, lessons: dict[str, Lesson]) -> Pilot:
    return Pilot(solver, lessons)
