"""The solver and pilots for tests of the session."""

from __future__ import annotations

import pytest

from tests.session.pilot import Pilot, Reading
from tests.workers.direct import answers_of
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import load_lesson
from tutor.lesson.scenes import Lesson
from tutor.solver.search import Solver


@pytest.fixture
def pilot(solver: Solver) -> Pilot:
    return Pilot(solver)


@pytest.fixture(scope="session")
def made_pair(solver: Solver) -> Lesson:
    """The first lesson, which has a scene of every kind but Find."""
    return load_lesson("made-pair", LessonSetting(answers_of(solver)))


@pytest.fixture
def pupil(solver: Solver, made_pair: Lesson) -> Pilot:
    """A pilot that can take the first lesson."""
    return Pilot(solver, {made_pair.name: made_pair})


@pytest.fixture
def painter(pilot: Pilot) -> Pilot:
    """A pilot who has gone to paint a cube, by the button of the Solve screen."""
    pilot.press("open:SOLVE")
    pilot.press(Reading(pilot.view).button("Paint your cube").action)
    return pilot
