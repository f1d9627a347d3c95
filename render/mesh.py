"""Triangle meshes of the cube: rounded cubies and bevelled stickers, built once with numpy.

All 26 cubies and 54 stickers are one mesh, so that the whole cube is one draw call and each mirror one
more instance of it. A vertex is a row of VERTEX_FLOATS floats: position (3), normal (3), number of the cubie,
number of the sticker (-1 on the body), light left by its neighbours (0 to 1), letter coordinates (2).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from render.geometry import CUBIE_PLACES, FRAMES, STICKER_CUBIES, sticker_centre, sticker_face
from render.linear import Array, vector
from tutor.session.view import Face

Floats = npt.NDArray[np.float32]
Indices = npt.NDArray[np.uint32]

VERTEX_FLOATS = 11
BODY_HALF = 0.49
BODY_RADIUS = 0.085
STICKER_HALF = 0.405
STICKER_CORNER = 0.10
STICKER_RISE = 0.022
STICKER_BEVEL = 0.026
NO_STICKER = -1.0


@dataclass(frozen=True, slots=True)
class Mesh:
    """Vertices, shape (n, k) float32, and triangles, flat uint32; counter-clockwise seen from outside."""

    vertices: Floats
    indices: Indices


def merged(meshes: list[Mesh]) -> Mesh:
    """The meshes as one, in order."""
    starts = np.cumsum([0, *(len(mesh.vertices) for mesh in meshes[:-1])])
    indices = [mesh.indices + np.uint32(start) for mesh, start in zip(meshes, starts, strict=True)]
    return Mesh(np.concatenate([mesh.vertices for mesh in meshes]), np.concatenate(indices))


def grid_indices(rows: int, columns: int, closed: bool = False) -> Indices:
    """Triangles of a grid of vertices, two to a cell; ``closed`` joins the last column to the first."""
    cells = columns if closed else columns - 1
    row, column = (axis.ravel() for axis in np.mgrid[: rows - 1, :cells])
    following = (column + 1) % columns
    a, b = row * columns + column, row * columns + following
    c, d = a + columns, b + columns
    return np.stack([a, c, b, b, c, d], axis=1).ravel().astype(np.uint32)


def rounded_box(half: Array, radius: float, segments: int) -> tuple[Array, Array, Indices]:
    """Positions, normals and triangles of a box with rounded edges, ``segments`` steps to half an edge.

    A point of the box is moved to the ball of ``radius`` round its nearest point of the inner box, so that
    normals run smoothly from face to face.
    """
    inner = half - radius
    steps = np.tan(np.linspace(0.0, np.pi / 4, segments + 1))
    positions, normals, indices = [], [], []
    count = 0
    for face in Face:
        frame = FRAMES[face]
        outward, right, up = vector(frame.normal), vector(frame.right), -vector(frame.down)
        across = _rounded_steps(float(abs(right) @ inner), radius, steps)
        upward = _rounded_steps(float(abs(up) @ inner), radius, steps)
        y, x = np.meshgrid(upward[::-1], across, indexing="ij")
        points = x[..., None] * right + y[..., None] * up + outward * float(abs(outward) @ half)
        points = points.reshape(-1, 3)
        core = np.clip(points, -inner, inner)
        normals.append((points - core) / np.linalg.norm(points - core, axis=1, keepdims=True))
        positions.append(core + radius * normals[-1])
        indices.append(grid_indices(len(upward), len(across)) + np.uint32(count))
        count += len(points)
    return np.concatenate(positions), np.concatenate(normals), np.concatenate(indices)


def _rounded_steps(inner: float, radius: float, steps: Array) -> Array:
    return np.concatenate([-inner - radius * steps[::-1], inner + radius * steps])


def rounded_square(half: float, corner: float, segments: int) -> Array:
    """Points round a square with rounded corners, counter-clockwise, shape (4 * (segments + 1), 2)."""
    quarter = np.linspace(0.0, np.pi / 2, segments + 1)
    angles = (np.arange(4)[:, None] * (np.pi / 2) + quarter).ravel()
    centres = np.repeat(np.array([[1, 1], [-1, 1], [-1, -1], [1, -1]]) * (half - corner), segments + 1, axis=0)
    return np.asarray(centres + corner * np.stack([np.cos(angles), np.sin(angles)], axis=1))


def cubie_mesh(cubie: int, segments: int) -> Mesh:
    """The body of a cubie. Its edges are darker than its faces: there the neighbours keep the light away."""
    positions, normals, indices = rounded_box(np.full(3, BODY_HALF), BODY_RADIUS, segments)
    flatness = np.abs(normals).max(axis=1)
    light = 0.45 + 0.55 * np.clip((flatness - 0.6) / 0.4, 0.0, 1.0)
    vertices = np.zeros((len(positions), VERTEX_FLOATS), dtype=np.float32)
    vertices[:, :3] = positions + CUBIE_PLACES[cubie]
    vertices[:, 3:6] = normals
    vertices[:, 6] = cubie
    vertices[:, 7] = NO_STICKER
    vertices[:, 8] = light
    return Mesh(vertices, indices)


def sticker_mesh(sticker: int, segments: int) -> Mesh:
    """A sticker: a flat plate with rounded corners and a bevel that runs down into the body."""
    frame = FRAMES[sticker_face(sticker)]
    outward, right, up = vector(frame.normal), vector(frame.right), -vector(frame.down)
    outer = rounded_square(STICKER_HALF, STICKER_CORNER, segments)
    inner = rounded_square(STICKER_HALF - STICKER_BEVEL, STICKER_CORNER - STICKER_BEVEL, segments)
    rim = len(outer)
    plane = np.concatenate([outer, inner, inner])
    sideways = _outward_of(outer)
    tilted = np.concatenate([sideways, sideways, np.zeros_like(inner)])
    height = np.concatenate([np.zeros(rim), np.full(2 * rim, STICKER_RISE)])
    level = sticker_centre(sticker) - (0.5 - BODY_HALF) * outward
    vertices = np.zeros((3 * rim, VERTEX_FLOATS), dtype=np.float32)
    vertices[:, :3] = level + plane[:, :1] * right + plane[:, 1:] * up + height[:, None] * outward
    normals = tilted[:, :1] * right + tilted[:, 1:] * up + outward
    vertices[:, 3:6] = normals / np.linalg.norm(normals, axis=1, keepdims=True)
    vertices[:, 6] = STICKER_CUBIES[sticker]
    vertices[:, 7] = sticker
    vertices[:, 8] = np.concatenate([np.full(rim, 0.7), np.full(rim, 0.9), np.ones(rim)])
    vertices[:, 9:11] = plane / (2 * STICKER_HALF) + 0.5
    bevel = grid_indices(2, rim, closed=True)
    middle = np.arange(1, rim - 1)
    top = np.stack([np.zeros_like(middle), middle, middle + 1], axis=1).ravel() + 2 * rim
    return Mesh(vertices, np.concatenate([_flipped(bevel), top.astype(np.uint32)]))


def _outward_of(points: Array) -> Array:
    """Directions away from the middle of a rounded square, of length 1."""
    along = np.roll(points, -1, axis=0) - np.roll(points, 1, axis=0)
    across = np.stack([along[:, 1], -along[:, 0]], axis=1)
    return np.asarray(across / np.linalg.norm(across, axis=1, keepdims=True))


def _flipped(indices: Indices) -> Indices:
    return np.asarray(indices.reshape(-1, 3)[:, ::-1].ravel())


def cube_mesh(segments: int = 2, corner_segments: int = 4) -> Mesh:
    """The whole cube at rest. More segments make rounder edges and corners."""
    bodies = [cubie_mesh(cubie, segments) for cubie in range(27) if cubie != 13]
    stickers = [sticker_mesh(sticker, corner_segments) for sticker in range(54)]
    return merged(bodies + stickers)


