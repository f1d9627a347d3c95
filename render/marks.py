"""Meshes of what is marked on the cube: outlines, the slot's frame, glow, the arrow of a coming turn, a trail.

A vertex is a row of floats: position (3), normal (3, zero where the mark shines by itself), colour in linear
light (3) and opacity, number of the cubie it travels with (or -1). See MARK_WIDTHS.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from render.camera import camera_direction, eye_position
from render.geometry import (
    CUBIE_PLACES,
    FRAMES,
    STICKERS_OF_CUBIE,
    normal,
    sticker_centre,
    sticker_face,
    turned_cubies,
    turning_matrix,
)
from render.linear import Array, rotation, vector
from render.mesh import Mesh, grid_indices, merged, rounded_box, rounded_square
from render.palette import to_linear
from render.theme import Colour, StageTheme
from tutor.session.view import Camera, Stage, Trail, Turn, Turning

MARK_WIDTHS = (3, 3, 4, 1)
STAYS = -1

OUTLINE_HALF_WIDTH = 0.042
FRAME_GAP = 0.075
FRAME_HALF_WIDTH = 0.05
GLOW_REACH = 0.42
GLOW_RISE = 0.03
GLOW_OPACITY = 0.55
ARROW_HALF_WIDTH = 0.12
ARROW_HEAD_HALF_WIDTH = 0.33
ARROW_HALF_THICKNESS = 0.03
ARROW_DISTANCE = 1.66
"""From the layer's axis to the arrow, where it crosses the middle of a side."""
QUARTER_SPAN, HALF_SPAN = 1.72, 2.55
"""Radians that the arrow of a quarter and of a half turn runs round its layer."""
HEAD_SPAN = 0.36
TRAIL_HALF_WIDTH = 0.06
TRAIL_SCALE = 1.62


@dataclass(frozen=True, slots=True, eq=False)
class Marks:
    """All marks as one mesh. The first ``glow`` indices are glow, then ``solid`` marks, then ``ghost``."""

    mesh: Mesh
    glow: int
    solid: int
    ghost: int


EMPTY = Mesh(np.zeros((0, sum(MARK_WIDTHS)), dtype=np.float32), np.zeros(0, dtype=np.uint32))


def marks_key(stage: Stage) -> tuple[object, ...]:
    """What the meshes depend on: as long as it is the same, so are they."""
    covered = covered_cubies(stage.outlined, stage.turning, stage.camera)
    framed = covered_cubies(stage.framed, None, stage.camera)
    arrow = None if stage.arrow is None else (stage.arrow, *arrow_angles(stage.arrow.turn, stage.camera))
    return stage.outlined, covered, stage.framed, framed, stage.glowing, arrow, stage.trail


def marks_of(stage: Stage, theme: StageTheme) -> Marks:
    """The meshes of everything that ``stage`` marks."""
    glow = [_glow(cubie, theme.glow) for cubie in sorted(stage.glowing)]
    solid = [_cage([cubie], theme.outline, cubie) for cubie in sorted(stage.outlined)]
    if stage.framed:
        solid.append(slot_frame(stage.framed, theme.frame))
    if stage.arrow is not None:
        solid.append(turn_arrow(stage.arrow.turn, stage.camera, theme.arrow))
    if stage.trail is not None:
        solid.append(trail_tube(stage.trail, theme.arrow))
    covered = sorted(covered_cubies(stage.outlined, stage.turning, stage.camera))
    ghost = [_cage([cubie], theme.outline, cubie) for cubie in covered]
    if stage.framed and covered_cubies(stage.framed, None, stage.camera) == stage.framed:
        ghost.append(slot_frame(stage.framed, theme.frame))
    counts = [sum(len(mesh.indices) for mesh in part) for part in (glow, solid, ghost)]
    return Marks(merged([EMPTY, *glow, *solid, *ghost]), *counts)


def covered_cubies(cubies: frozenset[int], turning: Turning | None, camera: Camera) -> frozenset[int]:
    """Those of the cubies none of whose stickers faces the eye."""
    eye = eye_position(camera)
    moved = turned_cubies(turning) if turning is not None else np.zeros(27, dtype=bool)
    turn = turning_matrix(turning)

    def faces_eye(cubie: int, sticker: int) -> bool:
        matrix = turn if moved[cubie] else np.eye(3)
        outward = matrix @ normal(sticker_face(sticker))
        return bool(outward @ (eye - matrix @ sticker_centre(sticker)) > 0.0)

    return frozenset(c for c in cubies if not any(faces_eye(c, s) for s in STICKERS_OF_CUBIE[c]))


def _painted(
    positions: Array, normals: Array | None, colour: Colour, cubie: int, indices: Array | object
) -> Mesh:
    """Rows of one colour; without normals the mark shines by itself."""
    vertices = np.zeros((len(positions), sum(MARK_WIDTHS)), dtype=np.float32)
    vertices[:, :3] = positions
    if normals is not None:
        vertices[:, 3:6] = normals
    vertices[:, 6:9] = to_linear(vector(colour.rgb))
    vertices[:, 9] = colour[3]
    vertices[:, 10] = cubie
    return Mesh(vertices, np.asarray(indices, dtype=np.uint32))


def _bars(low: Array, high: Array, half_width: float) -> list[tuple[Array, Array]]:
    """Middles and half sizes of the twelve bars along the edges of a box."""
    bars = []
    for axis in range(3):
        others = [other for other in range(3) if other != axis]
        for corner in range(4):
            middle = (low + high) / 2
            for bit, other in enumerate(others):
                middle[other] = (high if corner >> bit & 1 else low)[other]
            half = np.full(3, half_width)
            half[axis] += (high - low)[axis] / 2
            bars.append((middle, half))
    return bars


def _cage(cubies: list[int], colour: Colour, travels_with: int, gap: float = 0.0) -> Mesh:
    """Bars along the edges of the box that holds the cubies, ``gap`` away from them."""
    places = CUBIE_PLACES[cubies]
    low, high = places.min(axis=0) - 0.49 - gap, places.max(axis=0) + 0.49 + gap
    width = FRAME_HALF_WIDTH if gap else OUTLINE_HALF_WIDTH
    meshes = []
    for middle, half in _bars(low, high, width):
        positions, normals, indices = rounded_box(half, width * 0.9, 1)
        meshes.append(_painted(positions + middle, normals if gap else None, colour, travels_with, indices))
    return merged(meshes)


def slot_frame(places: frozenset[int], colour: Colour) -> Mesh:
    """The frame round the places of a slot; it stays when layers turn."""
    return _cage(sorted(places), colour, STAYS, FRAME_GAP)


def _glow(cubie: int, colour: Colour) -> Mesh:
    """Light on and around each sticker of the cubie, fading outwards."""
    meshes = []
    for sticker in STICKERS_OF_CUBIE[cubie]:
        frame = FRAMES[sticker_face(sticker)]
        right, up, outward = vector(frame.right), -vector(frame.down), vector(frame.normal)
        rings = [rounded_square(half, corner, 5) for half, corner in ((0.36, 0.08), (0.5, 0.1))]
        rings.append(rounded_square(0.5 + GLOW_REACH, 0.1 + GLOW_REACH, 5))
        plane = np.concatenate(rings)
        middle = sticker_centre(sticker) + GLOW_RISE * outward
        positions = middle + plane[:, :1] * right + plane[:, 1:] * up
        count = len(rings[0])
        mesh = _painted(positions, None, colour, cubie, grid_indices(3, count, closed=True))
        mesh.vertices[:, 9] = np.repeat([0.1, GLOW_OPACITY, 0.0], count)
        meshes.append(mesh)
    return merged(meshes)


def _swept(centres: Array, across: Array, outward: Array, widths: Array, thickness: float) -> tuple[Array, Array]:
    """Positions and normals of a band with four-cornered sections along ``centres``."""
    corners = [(1, 1), (1, -1), (-1, -1), (-1, 1)]
    positions = [
        centres + side * widths[:, None] * across + height * thickness * outward for side, height in corners
    ]
    normals = [normalised_rows(0.5 * side * across + height * outward) for side, height in corners]
    return np.stack(positions, axis=1).reshape(-1, 3), np.stack(normals, axis=1).reshape(-1, 3)


def normalised_rows(rows: Array) -> Array:
    """Each row scaled to length 1."""
    return np.asarray(rows / np.linalg.norm(rows, axis=-1, keepdims=True))


def arrow_angles(turn: Turn, camera: Camera) -> tuple[float, float]:
    """Where the arrow starts and ends round its layer, as angles counter-clockwise from ``right`` seen outside.

    Its middle lies on the edge or side of the layer that is nearest to the eye.
    """
    frame = FRAMES[turn.face]
    towards = camera_direction(camera)
    angle = np.arctan2(-towards @ vector(frame.down), towards @ vector(frame.right))
    middle = np.round(float(angle) / (np.pi / 4)) * (np.pi / 4)
    half = (HALF_SPAN if turn.quarters == 2 else QUARTER_SPAN) / 2
    sign = -1.0 if turn.quarters == 3 else 1.0
    return float(middle + sign * half), float(middle - sign * half)


def turn_arrow(turn: Turn, camera: Camera, colour: Colour) -> Mesh:
    """An arrow that hugs the layer of a coming turn: one head for a quarter turn, two and longer for a half."""
    frame = FRAMES[turn.face]
    right, up, out = vector(frame.right), -vector(frame.down), vector(frame.normal)
    start, end = arrow_angles(turn, camera)
    head = HEAD_SPAN * np.sign(end - start)
    marks = [(start, ARROW_HALF_WIDTH), (end - head, ARROW_HALF_WIDTH)]
    if turn.quarters == 2:
        inner = end - 1.25 * head
        marks[1:] = [(inner - head, ARROW_HALF_WIDTH), (inner - head, ARROW_HEAD_HALF_WIDTH)]
        marks += [(inner - 0.36 * head, ARROW_HALF_WIDTH), (end - head, ARROW_HALF_WIDTH)]
    marks += [(end - head, ARROW_HEAD_HALF_WIDTH), (end, 0.004)]
    pieces = [
        (np.linspace(a, b, max(2, int(abs(b - a) / 0.06))), (w, v)) for (a, w), (b, v) in zip(marks, marks[1:], strict=False)
    ]
    angles = np.concatenate([angles for angles, _ in pieces])
    widths = np.concatenate([np.linspace(*ends, len(angles)) for angles, ends in pieces])
    circle = np.cos(angles)[:, None] * right + np.sin(angles)[:, None] * up
    # A superellipse runs close to the sides and still clears the layer's corners.
    power = 7.0
    reach = (np.abs(np.cos(angles)) ** power + np.abs(np.sin(angles)) ** power) ** (-1.0 / power)
    centres = out + ARROW_DISTANCE * reach[:, None] * circle
    steep = [np.sign(f(angles)) * np.abs(f(angles)) ** (power - 1.0) for f in (np.cos, np.sin)]
    outward = normalised_rows(steep[0][:, None] * right + steep[1][:, None] * up)
    across = np.broadcast_to(out, centres.shape)
    positions, normals = _swept(centres, across, outward, widths, ARROW_HALF_THICKNESS)
    return _painted(positions, normals, colour, STAYS, grid_indices(len(angles), 4, closed=True))


def trail_points(trail: Trail) -> Array:
    """Points along the way of the trail's cubie, lifted off the cube, shape (n, 3)."""
    place = TRAIL_SCALE * vector(trail.start)
    points = [place]
    for turn in trail.arcs:
        quarters = turn.quarters - 4 if turn.quarters == 3 else turn.quarters
        angle = -quarters * np.pi / 2
        steps = 12 * abs(quarters)
        points += [rotation(normal(turn.face), angle * (step + 1) / steps) @ place for step in range(steps)]
        place = points[-1]
    return np.stack(points)


def trail_tube(trail: Trail, colour: Colour) -> Mesh:
    """A tube along the cubie's way that grows stronger towards its end, with a pointed tip."""
    points = trail_points(trail)
    if len(points) < 2:
        return EMPTY
    along = normalised_rows(np.gradient(points, axis=0))
    outward = normalised_rows(points)
    across = normalised_rows(np.cross(along, outward))
    widths = np.full(len(points), TRAIL_HALF_WIDTH)
    tip = min(5, len(points) - 1)
    widths[-tip:] = np.linspace(3.6 * TRAIL_HALF_WIDTH, 0.01, tip)
    positions, normals = _swept(points, across, outward, widths, TRAIL_HALF_WIDTH)
    mesh = _painted(positions, normals, colour, STAYS, grid_indices(len(points), 4, closed=True))
    mesh.vertices[:, 9] *= np.repeat(np.linspace(0.45, 1.0, len(points)), 4)
    return mesh


