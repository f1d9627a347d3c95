"""Pictures that come again are drawn once, and look the same."""

from __future__ import annotations

import numpy as np

from tests.publish.conftest import plain_draw
from tutor.publish.remembered import RememberedDrawing
from tutor.publish.subject import Ground, Pixels
from tutor.ui.view import Camera, Look, Stage

STAGES = [Stage(tuple((first + place) % 6 for place in range(54))) for first in range(3)]


def test_each_picture_is_drawn_once_as_long_as_there_is_room() -> None:
    drawn: list[tuple[Stage, tuple[int, int]]] = []

    def draw(stage: Stage, look: Look, size: tuple[int, int], ground: Ground | None) -> Pixels:
        drawn.append((stage, size))
        return plain_draw(stage, look, size, ground)

    roomy, full = RememberedDrawing(draw), RememberedDrawing(draw, room=0)
    for drawing, count in ((roomy, 4), (full, 8)):
        drawn.clear()
        for _ in range(2):
            for stage, size in ((STAGES[0], (90, 60)), (STAGES[1], (90, 60)), (STAGES[1], (60, 90))):
                picture = drawing(stage, Look(), size, None)
                assert np.array_equal(picture, plain_draw(stage, Look(), size, None))
            drawing(Stage(STAGES[0].colours, camera=Camera(yaw=-32.0)), Look(), (90, 60), None)
        assert len(drawn) == count
