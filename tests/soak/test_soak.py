"""A short piece of the soak in every run of the tests; ``python -m tests.soak`` does it for long."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.soak.walk import MOST_GROWTH, Walk, all_lessons
from tests.soak.window import Pressing
from tests.virtual_screen import virtual_screen
from tutor.lesson.scenes import Lesson
from tutor.screens.table import SCREENS
from tutor.solver.search import Solver

COMMANDS = 2000


@pytest.fixture(scope="module")
def lessons(solver: Solver) -> dict[str, Lesson]:
    return all_lessons(solver)


def test_no_command_breaks_session_history_timeline_or_store(
    solver: Solver, lessons: dict[str, Lesson], tmp_path: Path
) -> None:
    attempts = 0
    for seed in (1, 2):
        walk = Walk(solver, lessons, tmp_path / str(seed), seed)
        walk.go(COMMANDS)
        walk.close()
        assert set(walk.screens) == {room.name for room in SCREENS}
        assert walk.growth() < MOST_GROWTH
        attempts += walk.attempts
    # By chance a case is seldom brought to its end.
    assert attempts > 0


def test_real_input_at_random_leaves_no_exception_behind(tmp_path: Path) -> None:
    pressing = Pressing(tmp_path, seed=1)
    with virtual_screen() as screen:
        pressing.go(screen, 12.0, least=40)
    assert pressing.done >= 40
    assert len(pressing.screens) > 1
