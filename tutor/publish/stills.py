"""A picture of a cube as a PNG file."""

from __future__ import annotations

from io import BytesIO

import numpy as np
from PIL import Image

from tutor.cube.faces import Turn
from tutor.publish.subject import Draw, Pixels, Shot, Subject, stage_of
from tutor.session.timeline import Pose
from tutor.ui.view import Stage

_BLACK, _WHITE = (0, 0, 0), (255, 255, 255)
_WEBP_QUALITY, _SMALL = 60, 6
"""At this quality nobody sees a difference, and a page of all cases stays under 6 MB."""


def still(draw: Draw, subject: Subject, shot: Shot, arrow: Turn | None, *, transparent: bool) -> Pixels:
    """The subject at rest; ``arrow`` shows a coming turn. Raises ValueError when the size is not possible."""
    stage = stage_of(subject, Pose(subject.cube), shot, arrow)
    if transparent:
        return _without_ground(draw, stage, shot)
    return draw(stage, shot.look, shot.size, None)


def png_bytes(pixels: Pixels) -> bytes:
    """A picture as a PNG file; without alpha when it is opaque. The same pixels give the same bytes."""
    image = Image.fromarray(pixels)
    if (pixels[..., 3] == 255).all():
        image = image.convert("RGB")
    written = BytesIO()
    image.save(written, "PNG", compress_level=9)
    return written.getvalue()


def webp_bytes(pixels: Pixels) -> bytes:
    """A picture as a WebP file, which is small enough for many on a page."""
    written = BytesIO()
    Image.fromarray(pixels).convert("RGB").save(written, "WEBP", quality=_WEBP_QUALITY, method=_SMALL)
    return written.getvalue()


def _without_ground(draw: Draw, stage: Stage, shot: Shot) -> Pixels:
    """The stage with nothing behind it: what differs between a black and a white ground is see-through.

    A pixel of colour c and opacity a is a*c on black and a*c + (1 - a) on white (Porter and Duff,
    Compositing Digital Images, 1984), so both follow from the two pictures.
    """
    on_black = draw(stage, shot.look, shot.size, _BLACK).astype(np.float64)[..., :3]
    on_white = draw(stage, shot.look, shot.size, _WHITE).astype(np.float64)[..., :3]
    alpha = 1.0 - np.clip((on_white - on_black).mean(axis=2) / 255.0, 0.0, 1.0)
    colour = on_black / np.maximum(alpha, 1.0 / 255.0)[..., None]
    pixels = np.empty((*alpha.shape, 4), dtype=np.uint8)
    pixels[..., :3] = np.clip(np.rint(colour), 0, 255)
    pixels[..., 3] = np.rint(255.0 * alpha)
    return pixels
