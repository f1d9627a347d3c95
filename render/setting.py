"""What stands round the cube: the floor with its shadow, and the mirrors' panes, rims and labels.

A vertex is a row of floats: position (3), offset in the plane of the picture (2), colour in linear light
(3) and opacity, place in the letter sheet (2), kind (0 plain, 1 floor, 2 letter). See SETTING_WIDTHS.
"""

from __future__ import annotations

import numpy as np

from render.letters import letter_cell
from render.linear import Array, vector
from render.mesh import Mesh, grid_indices, merged, rounded_square
from render.mirrors import Mirror, mirrors
from render.palette import to_linear
from render.theme import Colour, StageTheme

SETTING_WIDTHS = (3, 2, 4, 3)
PLAIN, FLOOR, LETTER = 0.0, 1.0, 2.0

FLOOR_REACH = 7.0
FLOOR_HEIGHT = -2.2
RIM_WIDTH = 0.07
RIM_CORNER = 0.16
LABEL_HALF = 0.36
_QUAD = np.array([0, 1, 2, 0, 2, 3], dtype=np.uint32)


def setting_mesh(theme: StageTheme, with_mirrors: bool) -> Mesh:
    """The floor and, if wanted, the mirrors; in the order in which they must be drawn."""
    parts = [_floor(theme.ground)]
    if with_mirrors:
        for mirror in mirrors():
            parts += [_pane(mirror, theme), _rim(mirror, theme.mirror_rim), _label(mirror, theme.label)]
    return merged(parts)


def _rows(positions: Array, colour: Colour, kind: float) -> Array:
    rows = np.zeros((len(positions), sum(SETTING_WIDTHS)))
    rows[:, :3] = positions
    rows[:, 5:8] = to_linear(vector(colour.rgb))
    rows[:, 8] = colour[3]
    rows[:, 11] = kind
    return rows


def _floor(colour: Colour) -> Mesh:
    corners = FLOOR_REACH * vector([(-1, 0, 1), (1, 0, 1), (1, 0, -1), (-1, 0, -1)])
    corners[:, 1] = FLOOR_HEIGHT
    return Mesh(_rows(corners, colour, FLOOR).astype(np.float32), _QUAD)


def _pane(mirror: Mirror, theme: StageTheme) -> Mesh:
    """The glass: what an empty room would show in it, lighter towards the top."""
    rows = _rows(mirror.corners(), theme.mirror_tint.with_alpha(1.0), PLAIN)
    rows[:2, 5:8] *= 0.86
    rows[2:, 5:8] *= 0.97
    return Mesh(rows.astype(np.float32), _QUAD)


def _rim(mirror: Mirror, colour: Colour) -> Mesh:
    """A thin rim with rounded corners round the pane."""
    size = vector((mirror.half_width, mirror.half_height))
    outer = rounded_square(1.0, 0.0, 4)
    signs = np.sign(outer)
    round_outer = signs * (size + RIM_WIDTH - RIM_CORNER) + rounded_square(RIM_CORNER, RIM_CORNER, 4)
    inner = signs * (size - 0.02)
    plane = np.concatenate([inner, round_outer])
    positions = mirror.centre + plane[:, :1] * mirror.right + plane[:, 1:] * mirror.up
    return Mesh(_rows(positions, colour, PLAIN).astype(np.float32), grid_indices(2, len(signs), closed=True))


def _label(mirror: Mirror, colour: Colour) -> Mesh:
    """The letter of the face that the mirror shows, beyond one of its corners."""
    corner = mirror.corners(RIM_WIDTH)
    anchor = (corner[2] + corner[3]) / 2
    rows = _rows(np.tile(anchor, (4, 1)), colour, LETTER)
    square = vector([(-1, -1), (1, -1), (1, 1), (-1, 1)])
    rows[:, 3:5] = square * LABEL_HALF + vector((0.0, LABEL_HALF))
    left, right = letter_cell(mirror.face)
    rows[:, 9:11] = vector([(left, 1.0), (right, 1.0), (right, 0.0), (left, 0.0)])
    return Mesh(rows.astype(np.float32), _QUAD)
