"""Flat lines on and before the cube, as meshes in the format of render.stage.mark_mesh."""

from __future__ import annotations

import numpy as np

from render.stage.linear import Array
from render.stage.mark_mesh import painted
from render.stage.mesh import Mesh, grid_indices, merged
from render.theme import Colour

CAP_CORNERS = 10


def rows_of_length_one(rows: Array) -> Array:
    """Each row scaled to length 1."""
    return np.asarray(rows / np.linalg.norm(rows, axis=-1, keepdims=True))


def ribbon(middles: Array, sideways: Array, colour: Colour, cubie: int, *, closed: bool = False) -> Mesh:
    """A flat band: ``sideways`` leads from each of its middles, shape (n, 3), to its right edge.

    It is seen from the side on which ``sideways`` is to the right of the way along the band.
    """
    positions = np.concatenate([middles - sideways, middles + sideways])
    return painted(positions, None, colour, cubie, grid_indices(2, len(middles), closed=closed))


def stroke(points: Array, outward: Array, half_width: float, colour: Colour, cubie: int) -> Mesh:
    """A line with round joints and ends; ``outward`` (n, 3) is the side from which each point is seen."""
    outward = np.broadcast_to(outward, points.shape)
    parts = []
    for start, end, out in zip(points[:-1], points[1:], outward[:-1], strict=True):
        along = end - start
        if not along.any():
            continue
        side = half_width * rows_of_length_one(np.cross(along, out)[None])[0]
        parts.append(ribbon(np.stack([start, end]), np.stack([side, side]), colour, cubie))
    parts += [_cap(point, out, half_width, colour, cubie) for point, out in zip(points, outward, strict=True)]
    return merged(parts)


def _cap(centre: Array, outward: Array, radius: float, colour: Colour, cubie: int) -> Mesh:
    """A disc round a point."""
    helper = np.eye(3)[int(np.abs(outward).argmin())]
    right = rows_of_length_one(np.cross(helper, outward)[None])[0]
    up = np.cross(outward, right) / np.linalg.norm(outward)
    angles = np.linspace(0.0, 2 * np.pi, CAP_CORNERS, endpoint=False)[:, None]
    rim = centre + radius * (np.cos(angles) * right + np.sin(angles) * up)
    steps = np.arange(1, CAP_CORNERS - 1)
    indices = np.stack([np.zeros_like(steps), steps, steps + 1], axis=1).ravel().astype(np.uint32)
    return painted(rim, None, colour, cubie, indices)
