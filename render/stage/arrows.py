"""The arrow of a coming turn: a flat band of ink on the two sides of its layer that face the eye.

It is opaque and drawn last, over everything. A half turn has two heads, and a 2 at its tail.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise

import numpy as np

from render.stage.camera import camera_axes, camera_direction, eye_position
from render.stage.geometry import FRAMES, HALF_CUBE
from render.stage.linear import Array, vector
from render.stage.mark_mesh import STAYS
from render.stage.mesh import Mesh, merged
from render.stage.strokes import ribbon, rows_of_length_one, stroke
from render.theme import Colour
from tutor.ui.view import Camera, Turn

HALF_WIDTH, HEAD_HALF_WIDTH = 0.115, 0.31
CASING = 0.044
"""Width of the casing round the ink, in cubies: 3.5 px where a cubie has 80."""
DISTANCE = 1.60
"""From the layer's axis to the arrow, where it crosses the middle of a side."""
QUARTER_HALF_SPAN, HALF_HALF_SPAN = 0.80, 1.04
"""Radians from the arrow's middle to its ends, for a quarter and for a half turn."""
HEAD_SPAN = 0.34
ROUNDING = 7.0
"""Power of the superellipse that the arrow follows: close to the sides, and clear of the layer's edges."""
CLEARLY = 0.4
"""A side faces the eye when the eye is so far before it, in cubies."""
TWO_HEIGHT, TWO_HALF_WIDTH, TWO_AWAY = 0.40, 0.042, 0.30


def arrow_angles(turn: Turn, camera: Camera) -> tuple[float, float]:
    """Where the arrow starts and ends round its layer, as angles counter-clockwise from its right.

    Its middle lies on the edge between the two sides that face the eye, or on the one that does.
    """
    frame = FRAMES[turn.face]
    right, up = vector(frame.right), -vector(frame.down)
    towards, eye = camera_direction(camera), eye_position(camera)
    angle = float(np.arctan2(towards @ up, towards @ right))
    edge = (np.floor(angle / (np.pi / 2)) + 0.5) * np.pi / 2
    sides = [edge - np.pi / 4, edge + np.pi / 4]
    seen = [side for side in sides if eye @ (np.cos(side) * right + np.sin(side) * up) > HALF_CUBE + CLEARLY]
    middle = seen[0] if len(seen) == 1 else edge
    half = HALF_HALF_SPAN if turn.quarters == 2 else QUARTER_HALF_SPAN
    sign = -1.0 if turn.quarters == 3 else 1.0
    return float(middle + sign * half), float(middle - sign * half)


@lru_cache(maxsize=32)
def turn_arrow(turn: Turn, camera: Camera, ink: Colour, casing: Colour) -> Mesh:
    """The arrow of a turn as its eye sees it: the casing first, the ink over it."""
    start, end = arrow_angles(turn, camera)
    angles, widths = _outline(turn, start, end)
    middles, outward = _round_the_layer(turn, angles)
    # The way along the arrow decides on which side of it the layer's outside is.
    across = np.sign(start - end) * vector(FRAMES[turn.face].normal)
    sideways = widths[:, None] * across
    rim = np.concatenate([middles + sideways, (middles - sideways)[::-1], (middles + sideways)[:1]])
    rim_outward = np.concatenate([outward, outward[::-1], outward[:1]])
    parts = [stroke(rim, rim_outward, CASING, casing, STAYS), ribbon(middles, sideways, ink, STAYS)]
    if turn.quarters == 2:
        parts.append(_two(middles, camera, ink, casing))
    return merged(parts)


def _outline(turn: Turn, start: float, end: float) -> tuple[Array, Array]:
    """Angles along the arrow and half its width there."""
    head = HEAD_SPAN * np.sign(end - start)
    corners = [(start, HALF_WIDTH)]
    if turn.quarters == 2:
        inner = end - 1.0 * head
        corners += [
            (inner - head, HALF_WIDTH),
            (inner - head, HEAD_HALF_WIDTH),
            (inner - 0.37 * head, HALF_WIDTH),
        ]
    corners += [(end - head, HALF_WIDTH), (end - head, HEAD_HALF_WIDTH), (end, 0.004)]
    angles, widths = [], []
    for (from_angle, from_width), (to_angle, to_width) in pairwise(corners):
        count = max(2, int(abs(to_angle - from_angle) / 0.06))
        angles.append(np.linspace(from_angle, to_angle, count))
        widths.append(np.linspace(from_width, to_width, count))
    return np.concatenate(angles), np.concatenate(widths)


def _round_the_layer(turn: Turn, angles: Array) -> tuple[Array, Array]:
    """Points round a layer at these angles, and the directions out of it there; both (n, 3)."""
    frame = FRAMES[turn.face]
    right, up, out = vector(frame.right), -vector(frame.down), vector(frame.normal)
    cosine, sine = np.cos(angles)[:, None], np.sin(angles)[:, None]
    reach = (np.abs(cosine) ** ROUNDING + np.abs(sine) ** ROUNDING) ** (-1.0 / ROUNDING)
    steepness = [np.sign(part) * np.abs(part) ** (ROUNDING - 1.0) for part in (cosine, sine)]
    outward = rows_of_length_one(steepness[0] * right + steepness[1] * up)
    return out + DISTANCE * reach * (cosine * right + sine * up), outward


def _two(middles: Array, camera: Camera, ink: Colour, casing: Colour) -> Mesh:
    """The figure 2 behind the arrow's tail, upright in the picture."""
    right, up = camera_axes(camera)
    tail = rows_of_length_one((middles[0] - middles[1])[None])[0]
    bow = np.radians(np.linspace(165.0, -35.0, 9))
    drawn = np.concatenate([
        np.stack([0.27 * np.cos(bow), 0.23 + 0.27 * np.sin(bow)], axis=1), [(-0.28, -0.5), (0.3, -0.5)]
    ])  # fmt: skip
    points = middles[0] + TWO_AWAY * tail + TWO_HEIGHT * (drawn[:, :1] * right + drawn[:, 1:] * up)
    towards = camera_direction(camera)
    widths = ((TWO_HALF_WIDTH + CASING, casing), (TWO_HALF_WIDTH, ink))
    return merged([stroke(points, towards, width, colour, STAYS) for width, colour in widths])
