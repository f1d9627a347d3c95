"""What stands round the cube: the floor with its shadow, and the mirrors' panes, rims and labels.

All of it is drawn in its final colours, as sRGB, behind everything else. A vertex of the setting is a row of
floats: position (3), colour (3). A vertex of a label: position (3), offset in the
plane of the picture (2), colour (3), place in the label sheet (2).
"""

from __future__ import annotations

import numpy as np

from render.stage.camera import EYE_DISTANCE, eye_position
from render.stage.geometry import STICKERS_OF_CUBIE, normal, sticker_centre, sticker_face
from render.stage.label_sheet import LABEL_ROWS, ROWS, SLOT_ROW, WIDEST, label_width
from render.stage.linear import Array, vector
from render.stage.mesh import Mesh, grid_indices, merged, rounded_square
from render.stage.mirrors import PLACINGS, Mirror, mirrors
from render.theme import Colour, StageTheme
from tutor.ui.view import Camera, Face, Stage

SETTING_WIDTHS = (3, 3)
LABEL_WIDTHS = (3, 2, 3, 2)

FLOOR_REACH = 4.3
FLOOR_RINGS, FLOOR_SPOKES = 15, 32
FLOOR_HEIGHT, FLOOR_HEIGHT_ALONE = -2.66, -1.9
"""How high the floor lies with and without mirrors."""
SHADOW_HALF, SHADOW_CORNER, SHADOW_SOFTNESS, SHADOW_STRENGTH = 1.55, 0.62, 1.2, 0.2
SHADOW_PLACE = (0.45, -0.25)
"""The light comes from the left and the front, so the shadow lies a little to the right and back."""
RIM_WIDTH = 0.07
RIM_CORNER = 0.16
LABEL_HEIGHT = 0.34
"""Height of a line of a label, in cubies as they look at the cube's own distance."""
LABEL_PLACES = ((0, 0.0, (0.0, -0.30)), (1, 1.0, (0.0, -0.30)), (1, 0.0, (0.16, 0.12)))
"""For each mirror: the lower corner of its pane where the label is (0 left, 1 right), the share of the label
that lies to the left of it, and how far the label's middle is from it, to the right and up."""
_QUAD = np.array([0, 1, 2, 0, 2, 3], dtype=np.uint32)


def setting_mesh(theme: StageTheme, camera: Camera, with_mirrors: bool, below: bool = True) -> Mesh:
    """The floor and, if wanted, the mirrors before the eye of this camera; what is nearer comes last."""
    parts = [_floor(theme, FLOOR_HEIGHT if with_mirrors and below else FLOOR_HEIGHT_ALONE)]
    if with_mirrors:
        for mirror in mirrors(camera, below):
            parts += [_pane(mirror, theme.mirror_tint), _rim(mirror, theme.mirror_rim)]
    return merged(parts)


def label_mesh(
    theme: StageTheme,
    camera: Camera,
    slot_faces: frozenset[Face],
    text_scale: float = 1.0,
    *,
    below: bool = True,
) -> Mesh:
    """What each mirror shows, in words, and that the slot is there where it shows one of ``slot_faces``."""
    labels, high = [], text_scale * LABEL_HEIGHT
    for mirror, placing, place in zip(mirrors(camera, below), PLACINGS, LABEL_PLACES, strict=False):
        nearer = (EYE_DISTANCE + placing.behind / 2) / EYE_DISTANCE
        labels.append(_label(mirror, place, LABEL_ROWS[mirror.face], theme.label, high, 0.0, nearer))
        if mirror.face in slot_faces:
            labels.append(_label(mirror, place, SLOT_ROW, theme.frame, high, -high, nearer))
    return merged(labels)


def faces_of_hidden_slot(stage: Stage) -> frozenset[Face]:
    """The side faces of a framed slot of which the eye sees nothing; none for one that it sees."""
    stickers = [sticker for cubie in stage.framed for sticker in STICKERS_OF_CUBIE[cubie]]
    eye = eye_position(stage.camera)
    faces = frozenset(sticker_face(sticker) for sticker in stickers)
    if any((eye - sticker_centre(sticker)) @ normal(sticker_face(sticker)) > 0.0 for sticker in stickers):
        return frozenset()
    return faces - {Face.U, Face.D}


def _rows(positions: Array, colour: Colour) -> Array:
    rows = np.empty((len(positions), sum(SETTING_WIDTHS)))
    rows[:, :3] = positions
    rows[:, 3:6] = colour.rgb
    return rows


def _smooth(low: float, high: float, values: Array) -> Array:
    """0 up to ``low``, 1 from ``high`` on, and a smooth cubic between."""
    share = np.clip((values - low) / (high - low), 0.0, 1.0)
    return np.asarray(share * share * (3.0 - 2.0 * share))


def _floor(theme: StageTheme, height: float) -> Mesh:
    """A disc of floor that fades into the background, under a soft rounded shadow."""
    radii = np.linspace(0.0, FLOOR_REACH, FLOOR_RINGS)
    angles = np.linspace(0.0, 2.0 * np.pi, FLOOR_SPOKES, endpoint=False)
    x, z = np.outer(radii, np.cos(angles)).ravel(), np.outer(radii, -np.sin(angles)).ravel()
    rows = _rows(np.stack([x, np.full_like(x, height), z], axis=1), theme.ground)
    fade = _smooth(0.3, 0.97, np.hypot(x, z) / FLOOR_REACH)[:, None]
    beyond = np.abs(np.stack([x, z], axis=1) - vector(SHADOW_PLACE)) - (SHADOW_HALF - SHADOW_CORNER)
    away = np.linalg.norm(np.maximum(beyond, 0.0), axis=1) + np.minimum(beyond.max(axis=1), 0.0)
    dark = SHADOW_STRENGTH * (1.0 - _smooth(-SHADOW_SOFTNESS, SHADOW_SOFTNESS, away - SHADOW_CORNER))
    colour = rows[:, 3:6] * (1.0 - fade) + vector(theme.background.rgb) * fade
    rows[:, 3:6] = colour * (1.0 - dark[:, None])
    return Mesh(rows.astype(np.float32), grid_indices(FLOOR_RINGS, FLOOR_SPOKES, closed=True))


def _pane(mirror: Mirror, colour: Colour) -> Mesh:
    """The glass: what an empty room would show in it, lighter towards the top."""
    rows = _rows(mirror.corners(), colour)
    rows[:2, 3:6] *= 0.93
    rows[2:, 3:6] *= 0.985
    return Mesh(rows.astype(np.float32), _QUAD)


def _rim(mirror: Mirror, colour: Colour) -> Mesh:
    """A thin rim with rounded corners round the pane."""
    size = vector((mirror.half_width, mirror.half_height))
    corner = rounded_square(RIM_CORNER, RIM_CORNER, 4)
    signs = np.repeat(vector([(1, 1), (-1, 1), (-1, -1), (1, -1)]), len(corner) // 4, axis=0)
    plane = np.concatenate([signs * (size - 0.02), signs * (size + RIM_WIDTH - RIM_CORNER) + corner])
    positions = mirror.centre + plane[:, :1] * mirror.right + plane[:, 1:] * mirror.up
    rows = _rows(positions, colour)
    return Mesh(rows.astype(np.float32), grid_indices(2, len(signs), closed=True))


def _label(
    mirror: Mirror,
    place: tuple[int, float, tuple[float, float]],
    row: int,
    colour: Colour,
    high: float,
    lower: float,
    nearer: float,
) -> Mesh:
    """A line of the label sheet at a mirror; ``nearer`` makes it as large as if at the cube's distance."""
    corner, before, (aside, above) = place
    width = high * label_width(row)
    # The edge of the line keeps its distance from the pane.
    above += (high - LABEL_HEIGHT) / 2 * (1.0 if above > 0.0 else -1.0)
    rows = np.empty((4, sum(LABEL_WIDTHS)), dtype=np.float32)
    rows[:, :3] = mirror.corners(RIM_WIDTH)[corner]
    across = vector([(-before, -0.5), (1.0 - before, -0.5), (1.0 - before, 0.5), (-before, 0.5)])
    sizes = vector((width, high))
    rows[:, 3:5] = nearer * (across * sizes + vector((aside, above + lower)))
    rows[:, 5:8] = colour.rgb
    top, bottom = row / ROWS, (row + 1) / ROWS
    right = label_width(row) / WIDEST
    rows[:, 8:10] = [(0.0, bottom), (right, bottom), (right, top), (0.0, top)]
    return Mesh(rows, _QUAD)
