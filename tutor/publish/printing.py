"""How cubes look on paper, from where they are seen, and how a picture of one is made."""

from __future__ import annotations

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray

from tutor.cube.position import Slot
from tutor.cube.sticker_text import COLOUR_LETTERS
from tutor.cube.stickers import COLOUR_NAMES
from tutor.publish import words
from tutor.publish.document import ColourKey, CubePicture
from tutor.publish.subject import Draw, Pixels, cubies_seen
from tutor.ui.view import REST_CAMERA, Camera, Look, Stage

PAPER = "paper"
"""The palette whose colours differ in grey print, too."""
ZOOM, FADED = 1.12, 0.06
"""Without mirrors: how large the cube is, and the share of the width in which its shadow fades."""
_WHITE = (255, 255, 255)
_LUMA = (0.2126, 0.7152, 0.0722)
"""Weights of red, green and blue in lightness (ITU-R BT.709)."""
_PALE = 0.45
"""How much of its darkness a dimmed piece keeps in black and white."""
_LIGHTER = 0.7
"""Exponent that lifts the dark tones of a black-and-white picture: it takes less ink and reads better."""

StickerInks = tuple[tuple[int, int, int], ...]
"""Colours in the order of Face, 0 to 255."""


class Print(Struct, frozen=True):
    """How a sheet is printed; ``inks`` are the colours of the stickers in its key."""

    inks: StickerInks
    palette: str = PAPER
    letters: bool = False
    grey: bool = False
    """Black and white; the letters then say what the colours would."""

    def look(self, *, mirrors: bool = False) -> Look:
        """How the cubes look."""
        return Look("light", self.palette, mirrors=mirrors, letters=self.letters or self.grey)

    @property
    def key(self) -> ColourKey:
        """The colours of the stickers by name, and by letter where they have letters."""
        inks = tuple(map(_drained, self.inks)) if self.grey else self.inks
        letters = COLOUR_LETTERS if self.letters or self.grey else ("",) * len(COLOUR_NAMES)
        return ColourKey(words.COLOURS, tuple(zip(inks, letters, COLOUR_NAMES, strict=True)))


def usual_view(slot: Slot | None) -> Camera:
    """The view in which a slot at the front is seen; for one at the back, the view behind shows it."""
    return replace(REST_CAMERA, yaw=-REST_CAMERA.yaw) if slot in (Slot.FL, Slot.BR) else REST_CAMERA


def pictures_of(stage: Stage, slot: Slot | None, how: Print, alt: str) -> tuple[CubePicture, ...]:
    """A cube as it is held and, when the slot or one of the pieces marked is at its back, from behind too."""
    look, camera = how.look(), replace(stage.camera, zoom=ZOOM * stage.camera.zoom)
    seen = CubePicture(replace(stage, camera=camera), look, alt)
    if slot not in (Slot.BL, Slot.BR) and not _hidden(stage):
        return (seen,)
    behind = replace(stage, camera=replace(camera, yaw=(camera.yaw + 360) % 360 - 180))
    named = f"{alt}: {words.FROM_BEHIND}"
    return (
        replace(seen, caption=words.AS_YOU_HOLD_IT),
        CubePicture(behind, look, named, words.FROM_BEHIND),
    )


def _hidden(stage: Stage) -> bool:
    """Whether a marked piece shows none of its stickers."""
    return not (stage.outlined | stage.framed | stage.glowing) <= cubies_seen(stage.camera)


def mirrored_picture(stage: Stage, how: Print, alt: str) -> CubePicture:
    """A cube with the mirrors behind and below it, as in the window."""
    return CubePicture(stage, how.look(mirrors=True), alt, words.IN_THE_MIRRORS)


def printed(picture: CubePicture, draw: Draw, *, grey: bool) -> Pixels:
    """The picture on white paper."""
    stage, look, size = picture.stage, picture.look, picture.size
    pixels = draw(stage, look, size, _WHITE)
    if grey:
        full = draw(replace(stage, dimmed=frozenset()), look, size, _WHITE)
        _drain(pixels, (full != pixels).any(axis=2))
    if not look.mirrors:
        _fade_edges(pixels)
    return pixels


def _drained(ink: tuple[int, int, int]) -> tuple[int, int, int]:
    """A colour as it is in black and white."""
    pixel = np.array([[(*ink, 255)]], dtype=np.uint8)
    _drain(pixel, np.zeros((1, 1), dtype=np.bool_))
    grey = int(pixel[0, 0, 0])
    return grey, grey, grey


def _drain(pixels: Pixels, dimmed: NDArray[np.bool_]) -> None:
    """Take the colour away; what does not matter, told from the rest by hue until now, becomes pale."""
    lightness = ((pixels[..., :3] @ _LUMA) / 255.0).clip(0.0, 1.0) ** _LIGHTER
    lightness[dimmed] = 1.0 - _PALE * (1.0 - lightness[dimmed])
    pixels[..., :3] = np.rint(255.0 * lightness)[..., None]


def _fade_edges(pixels: Pixels) -> None:
    """Let the shadow end in white paper before the picture does."""
    height, width = pixels.shape[:2]
    rows, columns = (np.minimum(np.arange(side), np.arange(side)[::-1]) for side in (height, width))
    paper = 1.0 - np.clip(np.minimum(rows[:, None], columns[None, :]) / (FADED * width), 0.0, 1.0)
    pixels[..., :3] = np.rint(pixels[..., :3] + (255.0 - pixels[..., :3]) * paper[..., None])
