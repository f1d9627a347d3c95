"""Meshes of what is marked on the cube: rings of the pair, the slot's frame, glow, a turn's arrow."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from msgspec import Struct

from render.stage.arrows import arrow_angles, turn_arrow
from render.stage.geometry import FRAMES, STICKERS_OF_CUBIE, sticker_centre, sticker_face
from render.stage.linear import Array, vector
from render.stage.mark_mesh import EMPTY, STAYS, painted
from render.stage.mesh import Mesh, grid_indices, merged, rounded_square
from render.stage.strokes import ribbon, rows_of_length_one
from render.theme import Colour, StageTheme
from tutor.ui.view import Face, Stage

RING_HALF, RING_CORNER, RING_RISE = 0.462, 0.15, 0.030
RING_CASING, RING_CORE = 0.0462, 0.0238
"""Half widths in cubies: 7.4 and 3.8 px across where a cubie has 80."""
FRAME_HALF, FRAME_CORNER, FRAME_RISE = 0.470, 0.14, 0.044
FRAME_CASING, FRAME_CORE = 0.0531, 0.0313
"""Half widths of the slot's frame: 8.5 and 5 px across."""
SMALL_BOLD = 2.0
"""How much bolder it is on a picture of an inch, where it would be a hair line."""
DASH, GAP = 0.1125, 0.0813
"""Lengths of the frame's dashes and of what is between them: 9 and 6.5 px."""
HALO, HALO_STRENGTH = 0.16, 0.55
"""How far the soft light round a filled slot reaches, and how opaque it begins."""
OVER = 0.005
"""How far the core of a line lies over its casing."""
GLOW_RISE = 0.03
GLOW_RINGS = ((0.43, 0.10, 0.0), (0.45, 0.11, 0.95), (0.515, 0.14, 0.95), (0.72, 0.30, 0.0))
"""Half the side, rounding and opacity: a bright line in the gap round a sticker that fades outwards.

A dark line is left between it and the sticker, so that it is seen round a white one, too, and it fades soon
enough to leave the neighbours their colours.
"""


class Marks(Struct, frozen=True, eq=False):
    """All marks as one mesh: first ``glow`` indices of soft light, then ``solid`` marks, then ``arrow``."""

    mesh: Mesh
    glow: int
    solid: int
    arrow: int


def marks_key(stage: Stage) -> tuple[object, ...]:
    """What the meshes depend on: as long as it is the same, so are they."""
    arrow = None if stage.arrow is None else (stage.arrow, *arrow_angles(stage.arrow.turn, stage.camera))
    upright = stage.camera if stage.arrow is not None and stage.arrow.turn.quarters == 2 else None
    return stage.outlined, stage.framed, stage.filled, stage.glowing, arrow, upright


def marks_of(stage: Stage, theme: StageTheme, *, small: bool = False) -> Marks:
    """The meshes of everything that ``stage`` marks; for a small picture the slot's frame is bolder."""
    glow = [_glow(cubie, theme.glow) for cubie in sorted(stage.glowing)]
    solid = [_rings(cubie, theme.ring_casing, theme.ring) for cubie in sorted(stage.outlined)]
    if stage.framed:
        if stage.filled:
            glow.append(_halo(stage.framed, theme.frame))
        bold = SMALL_BOLD if small else 1.0
        solid.append(slot_frame(stage.framed, stage.filled, theme.frame_casing, theme.frame, bold))
    arrow = []
    if stage.arrow is not None:
        arrow.append(turn_arrow(stage.arrow.turn, stage.camera, theme.arrow, theme.arrow_casing))
    counts = (sum(len(mesh.indices) for mesh in part) for part in (glow, solid, arrow))
    return Marks(merged([EMPTY, *glow, *solid, *arrow]), *counts)


# ------------------------------------------------------------------------------------------- on the cube


class _Loop(Struct, frozen=True, eq=False):
    """A closed line on a face: its points, and from each the direction outwards in the face; both (n, 3)."""

    points: Array
    sideways: Array

    def raised(self, face: Face, height: float) -> _Loop:
        """The same line, so far above the face."""
        return _Loop(self.points + height * vector(FRAMES[face].normal), self.sideways)

    def line(self, half_width: float, colour: Colour, cubie: int) -> Mesh:
        """A band along the whole line."""
        return ribbon(self.points, half_width * self.sideways, colour, cubie, closed=True)


def _loop(face: Face, low: Array, high: Array, corner: float) -> _Loop:
    """A rounded rectangle on a face, from ``low`` to ``high`` in the face's plane (right, up)."""
    frame = FRAMES[face]
    right, up, out = vector(frame.right), -vector(frame.down), vector(frame.normal)
    middle, half = (low + high) / 2, (high - low) / 2
    unit = rounded_square(corner, corner, 4)
    signs = np.repeat(vector([(1, 1), (-1, 1), (-1, -1), (1, -1)]), len(unit) // 4, axis=0)
    plane = middle + signs * (half - corner) + unit
    outward = rows_of_length_one(unit)
    return _Loop(1.5 * out + plane @ np.stack([right, up]), outward @ np.stack([right, up]))


def _cell(sticker: int, half: float) -> tuple[Array, Array]:
    """The lower left and upper right corner of a sticker's cell in the plane of its face."""
    frame = FRAMES[sticker_face(sticker)]
    centre = vector(
        (sticker_centre(sticker) @ vector(frame.right), -sticker_centre(sticker) @ vector(frame.down))
    )
    return centre - half, centre + half


@lru_cache(maxsize=64)
def _rings(cubie: int, casing: Colour, core: Colour) -> Mesh:
    """A ring round each sticker of a cubie."""
    meshes = []
    for sticker in STICKERS_OF_CUBIE[cubie]:
        face = sticker_face(sticker)
        loop = _loop(face, *_cell(sticker, RING_HALF), RING_CORNER)
        meshes.append(loop.raised(face, RING_RISE).line(RING_CASING, casing, cubie))
        meshes.append(loop.raised(face, RING_RISE + OVER).line(RING_CORE, core, cubie))
    return merged(meshes)


def _slot_loops(places: frozenset[int]) -> list[tuple[Face, _Loop]]:
    """The line round what a slot's places fill of each face."""
    stickers = [sticker for cubie in sorted(places) for sticker in STICKERS_OF_CUBIE[cubie]]
    loops = []
    for face in dict.fromkeys(sticker_face(sticker) for sticker in stickers):
        cells = [_cell(sticker, FRAME_HALF) for sticker in stickers if sticker_face(sticker) is face]
        low = np.min([low for low, _ in cells], axis=0)
        high = np.max([high for _, high in cells], axis=0)
        loops.append((face, _loop(face, low, high, FRAME_CORNER)))
    return loops


@lru_cache(maxsize=32)
def slot_frame(places: frozenset[int], filled: bool, casing: Colour, core: Colour, bold: float = 1.0) -> Mesh:
    """The frame round the places of a slot, dashed until it is filled; it stays when layers turn."""
    meshes = []
    for face, loop in _slot_loops(places):
        over, above = loop.raised(face, FRAME_RISE), loop.raised(face, FRAME_RISE + OVER)
        if filled:
            lines = (over, FRAME_CASING, casing), (above, FRAME_CORE, core)
            meshes += [line.line(bold * half, colour, STAYS) for line, half, colour in lines]
        else:
            meshes += _dashes(over, FRAME_CASING, FRAME_CASING - FRAME_CORE, casing)
            meshes += _dashes(above, FRAME_CORE, 0.0, core)
    return merged(meshes)


def _dashes(loop: _Loop, half_width: float, longer: float, colour: Colour) -> list[Mesh]:
    """Dashes along a line, each ``longer`` at both ends."""
    points = np.concatenate([loop.points, loop.points[:1]])
    sideways = np.concatenate([loop.sideways, loop.sideways[:1]])
    ways = np.append(0.0, np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1)))
    count = round(ways[-1] / (DASH + GAP))
    period = ways[-1] / count
    meshes = []
    for number in range(count):
        middle, half = (number + 0.5) * period, DASH / 2 + longer
        between = ways[(ways > middle - half) & (ways < middle + half)]
        at = np.concatenate([[middle - half], between, [middle + half]])
        along, out = (
            np.stack([np.interp(at, ways, rows[:, axis]) for axis in range(3)], axis=1)
            for rows in (points, sideways)
        )
        meshes.append(ribbon(along, half_width * rows_of_length_one(out), colour, STAYS))
    return meshes


@lru_cache(maxsize=32)
def _halo(places: frozenset[int], colour: Colour) -> Mesh:
    """Soft light outside the frame of a filled slot."""
    meshes = []
    for face, loop in _slot_loops(places):
        ring = loop.raised(face, FRAME_RISE - OVER)
        inner, outer = (ring.points + reach * ring.sideways for reach in (0.0, FRAME_CASING + HALO))
        mesh = painted(
            np.concatenate([inner, outer]), None, colour, STAYS, grid_indices(2, len(inner), closed=True)
        )
        mesh.vertices[:, 9] = np.repeat([HALO_STRENGTH, 0.0], len(inner))
        meshes.append(mesh)
    return merged(meshes)


@lru_cache(maxsize=64)
def _glow(cubie: int, colour: Colour) -> Mesh:
    """Light around each sticker of the cubie, fading outwards."""
    meshes = []
    for sticker in STICKERS_OF_CUBIE[cubie]:
        frame = FRAMES[sticker_face(sticker)]
        right, up, outward = vector(frame.right), -vector(frame.down), vector(frame.normal)
        plane = np.concatenate([rounded_square(half, corner, 5) for half, corner, _ in GLOW_RINGS])
        middle = sticker_centre(sticker) + GLOW_RISE * outward
        positions = middle + plane[:, :1] * right + plane[:, 1:] * up
        count = len(plane) // len(GLOW_RINGS)
        mesh = painted(positions, None, colour, cubie, grid_indices(len(GLOW_RINGS), count, closed=True))
        mesh.vertices[:, 9] = np.repeat([opacity for *_, opacity in GLOW_RINGS], count)
        meshes.append(mesh)
    return merged(meshes)
