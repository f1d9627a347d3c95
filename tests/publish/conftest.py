"""What the tests of handouts share: a stand-in for the renderer, colours, a solver."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from tests.workers.direct import answers_of
from tutor.cube.position import Position
from tutor.method.answer import Answer
from tutor.publish.lettering import Inks
from tutor.publish.subject import Ground, Pixels
from tutor.solver.search import Solver
from tutor.solver.task import Task
from tutor.ui.view import Look, Stage

COLOURS = np.array(
    [[250, 200, 60], [250, 250, 250], [190, 40, 40], [240, 120, 30], [40, 150, 90], [40, 90, 170]],
    dtype=np.uint8,
)


def plain_draw(stage: Stage, look: Look, size: tuple[int, int], ground: Ground | None) -> Pixels:
    """54 fields of colour, and a bar as long as the layer has turned."""
    width, height = size
    field = COLOURS[np.array(stage.colours).reshape(6, 9)]
    rows, columns = np.arange(height) * 6 // height, np.arange(width) * 9 // width
    pixels = np.full((height, width, 4), 255, dtype=np.uint8)
    pixels[..., :3] = field[rows[:, None], columns[None, :]]
    if stage.turning is not None:
        pixels[:4, : int(abs(stage.turning.angle) / 3.2 * width), :3] = 0
    return pixels


INKS = Inks(*[(20 * shade, 20 * shade, 20 * shade) for shade in range(1, 10)])


@pytest.fixture(scope="session")
def answers(solver: Solver) -> Callable[[Position, Task], Answer]:
    return answers_of(solver)
