"""Triangle meshes of the cube: rounded cubies and bevelled stickers, built once with numpy.

All 26 cubies and 54 stickers are one mesh, so that the whole cube is one draw call and each mirror one
more instance of it. A vertex is a row of VERTEX_FLOATS floats: position (3), normal (3), number of the cubie,
number of the sticker (-1 on the body), light left by its neighbours (0 to 1), letter coordinates (2).
"""

from __future__ import annotations

from functools import lru_cache
from itertools import product

import numpy as np
import numpy.typing as npt
from msgspec import Struct

from render.stage.geometry import CUBIE_PLACES, FRAMES, STICKER_CUBIES, sticker_centre, sticker_face
from render.stage.linear import Array, vector
from tutor.ui.view import Face, Turning

Floats = npt.NDArray[np.float32]
Indices = npt.NDArray[np.uint32]

VERTEX_FLOATS = 11
ALWAYS = -1
BODY_HALF = 0.5
"""Neighbours touch, so that no light falls through between them."""
BODY_RADIUS = 0.09
STICKER_HALF = 0.41
STICKER_CORNER = 0.10
STICKER_RISE = 0.022
STICKER_BEVEL = 0.026
NO_STICKER = -1.0


class Mesh(Struct, frozen=True, eq=False):
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


@lru_cache(maxsize=2)
def _unit_box(segments: int) -> tuple[Array, Array, Indices]:
    """The body that all cubies share, about the middle of the cube."""
    return rounded_box(np.full(3, BODY_HALF), BODY_RADIUS, segments)


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
    centres = np.repeat(
        np.array([[1, 1], [-1, 1], [-1, -1], [1, -1]]) * (half - corner), segments + 1, axis=0
    )
    return np.asarray(centres + corner * np.stack([np.cos(angles), np.sin(angles)], axis=1))


def cubie_mesh(cubie: int, segments: int) -> tuple[Mesh, npt.NDArray[np.int64]]:
    """The body of a cubie, and for each triangle when it can be seen: ALWAYS, or with the cut at its face.

    Always to be seen are the sides on the cube's surface and the rounded edges next to them; the other sides
    show only while a layer turns past them. A body's edges are darker than its sides, as its neighbours keep
    the light away.
    """
    place = CUBIE_PLACES[cubie]
    positions, normals, indices = _unit_box(segments)
    flatness = np.abs(normals).max(axis=1)
    vertices = np.zeros((len(positions), VERTEX_FLOATS), dtype=np.float32)
    vertices[:, :3] = positions + place
    vertices[:, 3:6] = normals
    vertices[:, 6] = cubie
    vertices[:, 7] = NO_STICKER
    vertices[:, 8] = 0.45 + 0.55 * np.clip((flatness - 0.6) / 0.4, 0.0, 1.0)
    plugs = _plugs(cubie)
    middles = positions[indices].reshape(-1, 3, 3).mean(axis=1)
    rounded_towards = np.sign(middles) * (np.abs(middles) > BODY_HALF - BODY_RADIUS + 1e-6)
    shown = (rounded_towards * place > 0).any(axis=1)
    axes = np.abs(middles).argmax(axis=1)
    sides = np.take_along_axis(np.sign(middles), axes[:, None], axis=1)[:, 0] > 0
    cuts = np.array([[Face.L, Face.R], [Face.D, Face.U], [Face.B, Face.F]])
    inner_side = np.where(place[axes] == 0, sides, place[axes] > 0)
    visible = np.where(shown, ALWAYS, cuts[axes, inner_side.astype(int)])
    return merged([Mesh(vertices, indices), plugs]), np.append(
        visible, np.full(len(plugs.indices) // 3, ALWAYS)
    )


def _plugs(cubie: int) -> Mesh:
    """Small dark squares that close the gap where four rounded corners meet on a side of the cube."""
    place = CUBIE_PLACES[cubie]
    meshes = [Mesh(np.zeros((0, VERTEX_FLOATS), dtype=np.float32), np.zeros(0, dtype=np.uint32))]
    for face in Face:
        frame = FRAMES[face]
        outward, right, up = vector(frame.normal), vector(frame.right), -vector(frame.down)
        if place @ outward < 0.5:
            continue
        for x, y in product((-1.0, 1.0), repeat=2):
            if x * (place @ right) > 0.5 or y * (place @ up) > 0.5:
                continue
            square = vector([(-1, -1), (1, -1), (1, 1), (-1, 1)]) * BODY_RADIUS / 2
            plane = square + vector((x, y)) * (BODY_HALF - BODY_RADIUS / 2)
            vertices = np.zeros((4, VERTEX_FLOATS), dtype=np.float32)
            depth = (BODY_HALF - BODY_RADIUS) * outward
            vertices[:, :3] = place + depth + plane[:, :1] * right + plane[:, 1:] * up
            vertices[:, 3:6] = outward
            vertices[:, 6:9] = cubie, NO_STICKER, 0.45
            meshes.append(Mesh(vertices, np.array([0, 1, 2, 0, 2, 3], dtype=np.uint32)))
    return merged(meshes)


@lru_cache(maxsize=2)
def _plate(segments: int) -> tuple[Array, Array, Array, Mesh]:
    """What stickers share: points in the plate, slopes, heights, and a mesh without positions and normals."""
    outer = rounded_square(STICKER_HALF, STICKER_CORNER, segments)
    inner = rounded_square(STICKER_HALF - STICKER_BEVEL, STICKER_CORNER - STICKER_BEVEL, segments)
    rim = len(outer)
    plane = np.concatenate([outer, inner, inner])
    sideways = _outward_of(outer)
    tilted = np.concatenate([sideways, sideways, np.zeros_like(inner)])
    height = np.concatenate([np.zeros(rim), np.full(2 * rim, STICKER_RISE)])
    vertices = np.zeros((3 * rim, VERTEX_FLOATS), dtype=np.float32)
    vertices[:, 8] = np.concatenate([np.full(rim, 0.7), np.full(rim, 0.9), np.ones(rim)])
    vertices[:, 9:11] = plane / (2 * STICKER_HALF) + 0.5
    bevel = grid_indices(2, rim, closed=True)
    top = _plate_indices(segments + 1) + np.uint32(2 * rim)
    return plane, tilted, height, Mesh(vertices, np.concatenate([top, _flipped(bevel)]))


def sticker_mesh(sticker: int, segments: int) -> Mesh:
    """A sticker: a flat plate with rounded corners and a bevel that runs down into the body."""
    frame = FRAMES[sticker_face(sticker)]
    outward, right, up = vector(frame.normal), vector(frame.right), -vector(frame.down)
    plane, tilted, height, shared = _plate(segments)
    level = sticker_centre(sticker) - (0.5 - BODY_HALF) * outward
    vertices = shared.vertices.copy()
    vertices[:, :3] = level + plane[:, :1] * right + plane[:, 1:] * up + height[:, None] * outward
    normals = tilted[:, :1] * right + tilted[:, 1:] * up + outward
    vertices[:, 3:6] = normals / np.linalg.norm(normals, axis=1, keepdims=True)
    vertices[:, 6] = STICKER_CUBIES[sticker]
    vertices[:, 7] = sticker
    return Mesh(vertices, shared.indices)


def _plate_indices(points: int) -> Indices:
    """Triangles of a rounded square: its corners, the sides between them and the middle.

    There are ``points`` to a corner. Few large triangles and small ones in the corners are drawn faster than
    a fan of slivers.
    """
    first = points * np.arange(4)
    last = first + points - 1
    steps = np.arange(points - 2)
    corners = np.stack(
        np.broadcast_arrays(first[:, None], first[:, None] + steps + 1, first[:, None] + steps + 2)
    )
    ends = np.stack([first, last, np.roll(first, -1)], axis=1)
    middle = first[[0, 1, 2, 0, 2, 3]]
    return np.concatenate([middle, ends.ravel(), corners.reshape(3, -1).T.ravel()]).astype(np.uint32)


def _outward_of(points: Array) -> Array:
    """Directions away from the middle of a rounded square, of length 1."""
    along = np.roll(points, -1, axis=0) - np.roll(points, 1, axis=0)
    across = np.stack([along[:, 1], -along[:, 0]], axis=1)
    return np.asarray(across / np.linalg.norm(across, axis=1, keepdims=True))


def _flipped(indices: Indices) -> Indices:
    return np.asarray(indices.reshape(-1, 3)[:, ::-1].ravel())


Range = tuple[int, int]
"""The first of a run of indices, and how many there are."""


class CubeMesh(Struct, frozen=True, eq=False):
    """The whole cube at rest, with a list of triangles for each layer that may turn."""

    mesh: Mesh
    ranges: dict[Face | None, Range]
    """For None the closed cube, for a face the cube cut behind that face's layer."""


def cube_mesh(segments: int = 2, corner_segments: int = 4) -> CubeMesh:
    """The whole cube. More segments make rounder edges and corners.

    What covers the rest comes first, so that the covered pixels are never shaded: the stickers, then the
    bodies from the corner that is nearest in the rest view to the one that is farthest.
    """
    stickers = merged([sticker_mesh(sticker, corner_segments) for sticker in range(54)])
    nearest_first = sorted(range(27), key=lambda cubie: -float(CUBIE_PLACES[cubie].sum()))
    cubies = [cubie_mesh(cubie, segments) for cubie in nearest_first if cubie != 13]
    whole = merged([stickers, *(mesh for mesh, _ in cubies)])
    cuts = np.concatenate([np.full(len(stickers.indices) // 3, ALWAYS), *(cut for _, cut in cubies)])
    triangles = whole.indices.reshape(-1, 3)
    closed = triangles[cuts == ALWAYS]
    lists = [closed]
    ranges: dict[Face | None, Range] = {None: (0, closed.size)}
    first = closed.size
    for face in Face:
        lists.append(triangles[(cuts == ALWAYS) | (cuts == face)])
        ranges[face] = first, lists[-1].size
        first += lists[-1].size
    return CubeMesh(Mesh(whole.vertices, np.concatenate(lists).ravel()), ranges)


def cut_behind(turning: Turning | None) -> Face | None:
    """The face behind whose layer the turning cuts the cube, or None for no cut."""
    if turning is None or turning.layers == 3:
        return None
    return turning.face if turning.layers == 1 else turning.face.opposite
