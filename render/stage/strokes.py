"""Flat lines on and before the cube, as meshes in the format of render.stage.mark_mesh."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from render.stage.linear import Array
from render.stage.mark_mesh import painted
from render.stage.mesh import Indices, Mesh, grid_indices, merged
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
    along = np.diff(points, axis=0)
    there = along.any(axis=1)
    starts, ends = points[:-1][there], points[1:][there]
    sides = half_width * rows_of_length_one(np.cross(along[there], outward[:-1][there]))
    corners = np.stack([starts - sides, ends - sides, starts + sides, ends + sides], axis=1)
    bands = painted(
        corners.reshape(-1, 3), None, colour, cubie, _repeated(grid_indices(2, 2), 4, len(corners))
    )
    return merged([bands, _caps(points, outward, half_width, colour, cubie)])


def _caps(centres: Array, outward: Array, radius: float, colour: Colour, cubie: int) -> Mesh:
    """A disc round each point."""
    helpers = np.eye(3)[np.abs(outward).argmin(axis=1)]
    right = rows_of_length_one(np.cross(helpers, outward))
    up = np.cross(outward, right) / np.linalg.norm(outward, axis=1, keepdims=True)
    angles = np.linspace(0.0, 2 * np.pi, CAP_CORNERS, endpoint=False)[:, None]
    rims = centres[:, None] + radius * (np.cos(angles) * right[:, None] + np.sin(angles) * up[:, None])
    steps = np.arange(1, CAP_CORNERS - 1)
    disc = np.stack([np.zeros_like(steps), steps, steps + 1], axis=1).ravel()
    indices = _repeated(disc, CAP_CORNERS, len(centres))
    return painted(rims.reshape(-1, 3), None, colour, cubie, indices)


def _repeated(indices: NDArray[np.integer[Any]], vertices: int, times: int) -> Indices:
    """The triangles of a shape of so many vertices, for that many of them one after the other."""
    return (indices + vertices * np.arange(times)[:, None]).ravel().astype(np.uint32)
