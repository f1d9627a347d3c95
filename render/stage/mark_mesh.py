"""The format of the meshes of marks.

A vertex is a row of floats: position (3), normal (3, zero where the mark shines by itself), colour in linear
light (3) and opacity, number of the cubie it travels with (or STAYS).
"""

from __future__ import annotations

import numpy as np

from render.stage.linear import Array, vector
from render.stage.mesh import Indices, Mesh
from render.stage.palette import to_linear
from render.theme import Colour

MARK_WIDTHS = (3, 3, 4, 1)
STAYS = -1
EMPTY = Mesh(np.zeros((0, sum(MARK_WIDTHS)), dtype=np.float32), np.zeros(0, dtype=np.uint32))


def painted(positions: Array, normals: Array | None, colour: Colour, cubie: int, indices: Indices) -> Mesh:
    """Rows of one colour; without normals the mark shines by itself."""
    vertices = np.zeros((len(positions), sum(MARK_WIDTHS)), dtype=np.float32)
    vertices[:, :3] = positions
    if normals is not None:
        vertices[:, 3:6] = normals
    vertices[:, 6:9] = to_linear(vector(colour.rgb))
    vertices[:, 9] = colour[3]
    vertices[:, 10] = cubie
    return Mesh(vertices, indices)
