"""The typefaces of the interface: metrics in parts of the em, and glyphs as coverage pictures.

The faces come from font packages, so text looks alike on every machine and can be measured with no window.
"""

from __future__ import annotations

from enum import Enum
from functools import cache, lru_cache
from importlib.resources import files
from io import BytesIO

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray
from PIL import ImageFont

from render.errors import no_typefaces
from render.text.font_tables import FontTables

_EM = 1000
"""Units of the em in both faces; at this size a measure in pixels is one in font units."""
_FINE = 4
"""Glyphs are drawn this many times finer than the screen and averaged, which allows fractions of a pixel."""
PHASES = 4
"""A glyph is kept for this many positions inside a pixel."""
REPLACEMENT = "\ufffd"
"""Drawn, as a box with a cross, for every character that a face lacks."""


class Typeface(Enum):
    """A face by its use; the value names its package and file."""

    BODY = ("font_source_sans_pro", "SourceSansPro-Regular.ttf")
    STRONG = ("font_source_sans_pro", "SourceSansPro-Semibold.ttf")
    TITLE = ("font_source_serif_pro", "SourceSerifPro-Semibold.ttf")

    # Each face is there once. The usual hash, of its name, is looked up thousands of times for a screen.
    __hash__ = object.__hash__


class Glyph(Struct, frozen=True, eq=False):
    """Coverage of one character in pixels, ``uint8`` of shape (height, width), and where it sits.

    ``left`` and ``top`` are from the pen's whole pixel to the picture's first column and row, y downwards.
    """

    coverage: NDArray[np.uint8]
    left: int
    top: int


@cache
def _file(face: Typeface) -> bytes:
    package, name = face.value
    return files(package).joinpath("files", name).read_bytes()


@cache
def _tables(face: Typeface) -> FontTables:
    return FontTables(_file(face))


# Each size has a third of a MiB of its own, and a window that changes its size or its letters asks for many.
@lru_cache(maxsize=32)
def _face(face: Typeface, size: float) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(BytesIO(_file(face)), size, layout_engine=ImageFont.Layout.BASIC)


@cache
def has_glyph(face: Typeface, character: str) -> bool:
    """Whether the face can draw the character; spaces count as drawn."""
    if character.isspace():
        return True
    small = _face(face, 48)
    lacking, mask = small.getmask("\uffff"), small.getmask(character)
    return mask.size != lacking.size or bytes(mask) != bytes(lacking)


@cache
def advance(face: Typeface, character: str) -> float:
    """How far the pen moves for the character, in parts of the em."""
    if character.isspace():
        character = " "
    if character == REPLACEMENT or not has_glyph(face, character):
        return 0.6
    return _tables(face).advance(character)


@cache
def ascent(face: Typeface) -> float:
    """Height of the tallest letters above the base line, in parts of the em."""
    return -float(_face(face, _EM).getbbox("d", anchor="ls")[1]) / _EM


@cache
def descent(face: Typeface) -> float:
    """Depth of the lowest letters below the base line, in parts of the em."""
    return float(_face(face, _EM).getbbox("p", anchor="ls")[3]) / _EM


@cache
def x_height(face: Typeface) -> float:
    """Height of the letter x, in parts of the em."""
    return -float(_face(face, _EM).getbbox("x", anchor="ls")[1]) / _EM


def check_typefaces() -> None:
    """Raise NoWindow, which says how to mend it, when one of the faces cannot be drawn with."""
    try:
        for face in Typeface:
            ascent(face), advance(face, "a")
    except (ImportError, OSError, ValueError) as error:
        raise no_typefaces(str(error)) from error


def crisp_size(face: Typeface, pixels: float) -> float:
    """The size nearest to ``pixels`` at which the letter x is a whole number of pixels high.

    With base lines on whole pixels this keeps both edges of small letters sharp without hinting.
    """
    height = x_height(face)
    return max(1.0, round(pixels * height)) / height


def _missing(pixels: float) -> Glyph:
    """A box with a cross, as high as a capital."""
    height, width = max(5, round(0.66 * pixels)), max(5, round(0.5 * pixels))
    coverage = np.zeros((height, width), np.uint8)
    coverage[[0, -1], :] = coverage[:, [0, -1]] = 255
    steps = np.linspace(0, 1, 4 * height)
    rows, columns = np.rint(steps * (height - 1)).astype(int), np.rint(steps * (width - 1)).astype(int)
    coverage[rows, columns] = coverage[rows, width - 1 - columns] = 255
    return Glyph(coverage, max(1, round(0.05 * pixels)), -height)


@lru_cache(maxsize=512)
def _fine(face: Typeface, pixels: float, character: str) -> tuple[NDArray[np.uint8], int, int]:
    """The character so many times as large as ``_FINE`` says, and where it sits; the same for all phases."""
    mask, (left, top) = _face(face, _FINE * pixels).getmask2(character, mode="L", anchor="ls")
    width, height = mask.size
    return np.frombuffer(bytes(mask), np.uint8).reshape(height, width), int(left), int(top)


def rasterise(face: Typeface, pixels: float, character: str, phase: int = 0) -> Glyph | None:
    """The character at a size in pixels, moved right by ``phase / PHASES`` of a pixel; None for a space."""
    if character.isspace():
        return None
    if character == REPLACEMENT or not has_glyph(face, character):
        return _missing(pixels)
    letter, fine_left, fine_top = _fine(face, pixels, character)
    height, width = letter.shape
    if not width or not height:
        return None
    fine_left += phase * _FINE // PHASES
    left, top = fine_left // _FINE, fine_top // _FINE
    right, bottom = -(-(fine_left + width) // _FINE), -(-(fine_top + height) // _FINE)
    fine = np.zeros(((bottom - top) * _FINE, (right - left) * _FINE), np.float32)
    row, column = fine_top - top * _FINE, fine_left - left * _FINE
    fine[row : row + height, column : column + width] = letter
    # The mean of each pixel; an array's own ``mean`` takes twice as long for arrays as small as these.
    coverage = np.add.reduce(fine.reshape(bottom - top, _FINE, right - left, _FINE), (1, 3)) / _FINE**2
    return Glyph(np.rint(coverage).astype(np.uint8), int(left), int(top))
