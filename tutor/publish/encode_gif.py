"""GIF films (Graphics Interchange Format, version 89a, CompuServe 1990), one picture in memory at a time.

All pictures share one table of 255 colours; the last place stands for "as before", so that what rests costs
next to nothing. Pillow compresses each picture; here they are strung together.
"""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from struct import pack

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from tutor.publish.projector import Projector

COLOURS = 255
AS_BEFORE = 255
"""The place in the colour table that stands for what was there before."""
_SAMPLES = 7
_HEADER = 13
_FOREVER = b"\x21\xff\x0bNETSCAPE2.0\x03\x01\x00\x00\x00"
"""The application extension that makes a film begin again at its end (common practice)."""
_END = b"\x3b"
_DISPOSE_NOT = 1


def encode_gif(path: Path, projector: Projector) -> None:
    """Write the film. Delays are in hundredths of a second and add up to the film's length."""
    palette = shared_palette(projector.samples(_SAMPLES))
    size, rate = projector.film.shot.size, projector.film.rate
    with path.open("wb") as file:
        file.write(b"GIF89a" + pack("<HHBBB", *size, 0b1111_0111, AS_BEFORE, 0))
        file.write(bytes(palette.getpalette() or ()).ljust(768, b"\0")[:768])
        file.write(_FOREVER)
        before: NDArray[np.uint8] | None = None
        shown = 0
        for image, ticks in projector.images(lambda part: part.quantize(palette=palette, dither=_PLAIN)):
            indices = np.asarray(image)
            delay = round(100 * (shown + ticks) / rate) - round(100 * shown / rate)
            shown += ticks
            for part, place, lasting in _parts(indices, before, delay):
                file.write(_control(lasting) + _block(part, place))
            before = indices
        file.write(_END)


_PLAIN = Image.Dither.NONE


def shared_palette(samples: list[Image.Image]) -> Image.Image:
    """A small picture with the colours that serve all samples best.

    A colour counts by the square root of how often it occurs, so that one sticker is not lost in the ground.
    """
    pixels = np.concatenate([np.asarray(image)[::2].reshape(-1, 3) for image in samples])
    numbers, counts = np.unique(pixels.astype(np.int32) @ (1 << 16, 1 << 8, 1), return_counts=True)
    colours = np.stack([numbers >> 16, numbers >> 8 & 255, numbers & 255], axis=1).astype(np.uint8)
    weighed = np.repeat(colours, np.ceil(np.sqrt(counts)).astype(np.int64), axis=0)
    return Image.fromarray(weighed[None]).quantize(COLOURS, method=Image.Quantize.MEDIANCUT, dither=_PLAIN)


_Part = tuple[NDArray[np.uint8], tuple[int, int], int]


def _parts(indices: NDArray[np.uint8], before: NDArray[np.uint8] | None, delay: int) -> Iterator[_Part]:
    """What changed, where, and for how long; a delay longer than the format allows is split."""
    changed, place = (indices, (0, 0)) if before is None else _changed(indices, before)
    while delay > 0xFFFF:
        yield changed, place, 0xFFFF
        changed, place, delay = changed[:1, :1], place, delay - 0xFFFF
    yield changed, place, delay


def _changed(
    indices: NDArray[np.uint8], before: NDArray[np.uint8]
) -> tuple[NDArray[np.uint8], tuple[int, int]]:
    """The rectangle that holds all changes, unchanged pixels left as before, and its left upper corner."""
    differs = indices != before
    rows, columns = np.flatnonzero(differs.any(axis=1)), np.flatnonzero(differs.any(axis=0))
    if not len(rows):
        return np.full((1, 1), AS_BEFORE, dtype=np.uint8), (0, 0)
    box = slice(rows[0], rows[-1] + 1), slice(columns[0], columns[-1] + 1)
    part = np.where(differs[box], indices[box], np.uint8(AS_BEFORE))
    return part, (int(columns[0]), int(rows[0]))


def _control(delay: int) -> bytes:
    """The graphic control extension: keep what is there, how long, which index is see-through."""
    return b"\x21\xf9\x04" + pack("<BHBB", _DISPOSE_NOT << 2 | 1, delay, AS_BEFORE, 0)


def _block(indices: NDArray[np.uint8], place: tuple[int, int]) -> bytes:
    """The image descriptor and the compressed picture, taken from a GIF that Pillow writes."""
    image = Image.fromarray(indices).convert("L")
    image.putpalette(bytes(768))
    written = BytesIO()
    image.save(written, "GIF", optimize=False, interlace=0)
    whole = written.getvalue()
    at = _HEADER + 3 * 2 ** ((whole[10] & 7) + 1) if whole[10] & 0x80 else _HEADER
    while whole[at : at + 1] == b"\x21":
        at = _after_blocks(whole, at + 2)
    end = _after_blocks(whole, at + 11)
    return b"\x2c" + pack("<HH", *place) + whole[at + 5 : end]


def _after_blocks(whole: bytes, at: int) -> int:
    """Where a chain of data blocks ends."""
    while whole[at]:
        at += whole[at] + 1
    return at + 1
