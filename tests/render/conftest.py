"""What the tests of the renderer share: a solved cube, and pictures of the stage drawn without a display."""

from __future__ import annotations

import pytest

from tutor.ui.view import Stage

SOLVED = tuple(face for face in range(6) for _ in range(9))


@pytest.fixture
def solved() -> Stage:
    """The solved cube at rest."""
    return Stage(SOLVED)
