"""The arrow of a coming turn, as a mesh in the format of render.stage.mark_mesh."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from render.stage.camera import camera_direction
from render.stage.geometry import FRAMES
from render.stage.linear import Array, vector
from render.stage.mark_mesh import STAYS, painted
from render.stage.mesh import Mesh, grid_indices
from render.theme import Colour
from tutor.ui.view import Camera, Turn

ARROW_HALF_WIDTH = 0.12
ARROW_HEAD_HALF_WIDTH = 0.33
ARROW_HALF_THICKNESS = 0.03
ARROW_DISTANCE = 1.66
"""From the layer's axis to the arrow, where it crosses the middle of a side."""
QUARTER_SPAN, HALF_SPAN = 1.72, 2.55
"""Radians that the arrow of a quarter and of a half turn runs round its layer."""
HEAD_SPAN = 0.36

ROUNDING = 7.0
"""Power of the superellipse that the arrow follows."""


def _swept(
    centres: Array, across: Array, outward: Array, widths: Array, thickness: float
) -> tuple[Array, Array]:
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
    """Where the arrow starts and ends round its layer, as angles counter-clockwise from its right.

    Its middle lies on the edge or side of the layer that is nearest to the eye.
    """
    frame = FRAMES[turn.face]
    towards = camera_direction(camera)
    angle = np.arctan2(-towards @ vector(frame.down), towards @ vector(frame.right))
    middle = np.round(float(angle) / (np.pi / 4)) * (np.pi / 4)
    half = (HALF_SPAN if turn.quarters == 2 else QUARTER_SPAN) / 2
    sign = -1.0 if turn.quarters == 3 else 1.0
    return float(middle + sign * half), float(middle - sign * half)


def _outline(turn: Turn, start: float, end: float) -> tuple[Array, Array]:
    """Angles along the arrow and half its width there."""
    head = HEAD_SPAN * np.sign(end - start)
    corners = [(start, ARROW_HALF_WIDTH)]
    if turn.quarters == 2:
        inner = end - 1.25 * head
        corners += [(inner - head, ARROW_HALF_WIDTH), (inner - head, ARROW_HEAD_HALF_WIDTH)]
        corners += [(inner - 0.36 * head, ARROW_HALF_WIDTH)]
    corners += [(end - head, ARROW_HALF_WIDTH), (end - head, ARROW_HEAD_HALF_WIDTH), (end, 0.004)]
    angles, widths = [], []
    for (from_angle, from_width), (to_angle, to_width) in pairwise(corners):
        count = max(2, int(abs(to_angle - from_angle) / 0.06))
        angles.append(np.linspace(from_angle, to_angle, count))
        widths.append(np.linspace(from_width, to_width, count))
    return np.concatenate(angles), np.concatenate(widths)


def turn_arrow(turn: Turn, camera: Camera, colour: Colour) -> Mesh:
    """An arrow that hugs the layer of a turn: one head for a quarter turn, two and longer for a half."""
    frame = FRAMES[turn.face]
    right, up, out = vector(frame.right), -vector(frame.down), vector(frame.normal)
    angles, widths = _outline(turn, *arrow_angles(turn, camera))
    cosine, sine = np.cos(angles)[:, None], np.sin(angles)[:, None]
    # A superellipse runs close to the sides and still clears the layer's corners.
    reach = (np.abs(cosine) ** ROUNDING + np.abs(sine) ** ROUNDING) ** (-1.0 / ROUNDING)
    centres = out + ARROW_DISTANCE * reach * (cosine * right + sine * up)
    steepness = [np.sign(part) * np.abs(part) ** (ROUNDING - 1.0) for part in (cosine, sine)]
    outward = normalised_rows(steepness[0] * right + steepness[1] * up)
    across = np.broadcast_to(out, centres.shape)
    positions, normals = _swept(centres, across, outward, widths, ARROW_HALF_THICKNESS)
    return painted(positions, normals, colour, STAYS, grid_indices(len(angles), 4, closed=True))
