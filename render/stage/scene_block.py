"""The block of values that all stage shaders share, packed from a stage; laid out as in scene.glsl."""

from __future__ import annotations

from functools import lru_cache
from typing import Any

import numpy as np
import numpy.typing as npt
from msgspec.structs import replace

from render.stage.camera import camera_axes
from render.stage.geometry import STICKER_CUBIES, turned_cubies, turning_matrix
from render.stage.linear import Array, homogeneous, normalised, rotation, vector
from render.stage.mirrors import mirrors
from render.stage.palette import StickerPalette, to_linear
from render.stage.sight import Sight
from render.theme import StageTheme
from tutor.ui.view import Camera, Stage

SCENE: np.dtype[Any] = np.dtype(
    [
        ("matrix", "f4", (4, 4)),
        ("turn", "f4", (4, 4)),
        ("reflections", "f4", (3, 4, 4)),
        ("eye", "f4", 4),
        ("screen_right", "f4", 4),
        ("screen_up", "f4", 4),
        ("key", "f4", 4),
        ("fill", "f4", 4),
        ("sky", "f4", 4),
        ("floor_light", "f4", 4),
        ("tint", "f4", 4),
        ("letter_dark", "f4", 4),
        ("letter_light", "f4", 4),
        ("stickers", "f4", (54, 4)),
        ("bodies", "f4", (27, 4)),
    ]
)

KEY_LIGHT, KEY_STRENGTH = (-0.22, 0.78, 0.64), 0.62
FILL_LIGHT, FILL_STRENGTH = (0.90, 0.20, 0.40), 0.34
SKY, FLOOR_LIGHT = (0.53, 0.525, 0.515), (0.42, 0.41, 0.395)
LUMINANCE = (0.2126, 0.7152, 0.0722)
"""Shares of linear red, green and blue in relative luminance (IEC 61966-2-1)."""
DIMMED_SPREAD, DIMMED_MIDDLE = 0.16, 0.35
"""How far a dimmed sticker's grey follows its own luminance, and the luminance at which it does not."""
NO_LETTER = -1.0

_CUBIES = np.array(STICKER_CUBIES)


def _mask(cubies: frozenset[int]) -> npt.NDArray[np.bool_]:
    mask = np.zeros(27, dtype=bool)
    mask[list(cubies)] = True
    return mask


def bare_plastic(theme: StageTheme) -> Array:
    """The linear colour of a sticker without one: plastic, a little lighter than the body; shape (3,)."""
    return np.asarray(0.9 * to_linear(vector(theme.plastic.rgb)) + 0.06)


def _sticker_colours(numbers: tuple[int, ...], palette: StickerPalette, theme: StageTheme) -> Array:
    """Linear colours (54, 3); hidden stickers are bare plastic."""
    table = np.concatenate([to_linear(vector([c.rgb for c in palette.stickers])), [bare_plastic(theme)]])
    return np.asarray(table[np.array(numbers)])


def sticker_rows(stage: Stage, palette: StickerPalette, theme: StageTheme) -> Array:
    """Colour and letter of the 54 stickers, shape (54, 4): linear light, and the letter's number or -1.

    A dimmed sticker stands for that of any piece, so it has no letter.
    """
    colours = _sticker_colours(stage.colours, palette, theme)
    letters = _letters(stage.colours, palette)
    if stage.crossfade is not None:
        mix = float(np.clip(stage.crossfade_mix, 0.0, 1.0))
        colours = (1.0 - mix) * _sticker_colours(stage.crossfade, palette, theme) + mix * colours
        letters = letters if mix >= 0.5 else _letters(stage.crossfade, palette)
    dimmed = _mask(stage.dimmed)[_CUBIES, None]
    colours = np.where(dimmed, dimmed_greys(colours, theme), colours)
    return np.concatenate([colours, np.where(dimmed, NO_LETTER, letters[:, None])], axis=1)


def _letters(numbers: tuple[int, ...], palette: StickerPalette) -> Array:
    """The number of each sticker's letter, that of its colour; hidden stickers have none."""
    table = np.array([*palette.letters, NO_LETTER], dtype=np.float64)
    return np.asarray(table[np.array(numbers)])


def dimmed_greys(colours: Array, theme: StageTheme) -> Array:
    """The greys of dimmed stickers of these linear colours, shape (n, 3): all but one, and without hue."""
    luminance = colours @ vector(LUMINANCE)
    grey = to_linear(vector(theme.dimmed_sticker.rgb))
    return np.asarray(grey * (1.0 + DIMMED_SPREAD * (luminance - DIMMED_MIDDLE))[:, None])


def body_rows(stage: Stage, theme: StageTheme) -> Array:
    """Colour of the 27 bodies in linear light, and 0 for one that rests, shape (27, 4)."""
    rows = np.zeros((27, 4))
    plastic, quiet = (to_linear(vector(colour.rgb)) for colour in (theme.plastic, theme.dimmed_body))
    rows[:, :3] = np.where(_mask(stage.dimmed)[:, None], quiet, plastic)
    return rows


def _light(direction: tuple[float, float, float], strength: float, camera: Camera) -> Array:
    """A light that goes round with the eye, so that every view is lit alike."""
    turned = rotation((0.0, 1.0, 0.0), np.radians(camera.yaw)) @ normalised(direction)
    return np.append(turned, strength)


@lru_cache(maxsize=4)
def _seen_from(camera: Camera, view: Sight, mirrored: bool) -> npt.NDArray[Any]:
    """The block with what follows from the camera alone, worked out once while it rests."""
    block = np.zeros((), dtype=SCENE)
    block["matrix"] = view.matrix.T
    for index, mirror in enumerate(mirrors(camera) if mirrored else ()):
        block["reflections"][index] = mirror.matrix.T
    block["eye"][:3] = view.eye
    right, up = camera_axes(camera)
    block["screen_right"][:3], block["screen_up"][:3] = right, up
    block["key"] = _light(KEY_LIGHT, KEY_STRENGTH, camera)
    block["fill"] = _light(FILL_LIGHT, FILL_STRENGTH, camera)
    block["sky"][:3], block["floor_light"][:3] = SKY, FLOOR_LIGHT
    return block


@lru_cache(maxsize=4)
def _painted(rest: Stage, palette: StickerPalette, theme: StageTheme) -> npt.NDArray[Any]:
    """The block with all colours of a stage on which nothing turns."""
    block = np.zeros((), dtype=SCENE)
    block["tint"] = theme.mirror_tint
    block["letter_dark"][:3] = to_linear(vector(palette.letter_dark.rgb))
    block["letter_light"][:3] = to_linear(vector(palette.letter_light.rgb))
    block["stickers"] = sticker_rows(rest, palette, theme)
    block["bodies"] = body_rows(rest, theme)
    return block


def pack(
    stage: Stage, palette: StickerPalette, theme: StageTheme, view: Sight, mirrored: bool
) -> npt.NDArray[Any]:
    """The whole block, ready to be uploaded; with reflections if it is ``mirrored``."""
    block = _seen_from(stage.camera, view, mirrored).copy()
    painted = _painted(replace(stage, turning=None), palette, theme)
    for name in ("tint", "letter_dark", "letter_light", "stickers", "bodies"):
        block[name] = painted[name]
    block["turn"] = homogeneous(turning_matrix(stage.turning)).T
    if stage.turning is not None:
        block["bodies"][:, 3] = turned_cubies(stage.turning)
    return block
