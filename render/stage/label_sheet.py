"""A small sheet with the labels of the mirrors, one below the other."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from io import BytesIO

import numpy as np
import numpy.typing as npt
from PIL import Image, ImageDraw, ImageFont

from render import words
from tutor.ui.view import Face

ROW = 64
"""Pixels to the height of a row."""
WIDEST = 6.0
"""Width of the sheet in heights of a row."""
LABEL_ROWS: dict[Face, int] = {face: int(face) for face in Face}
SLOT_ROW = len(Face)
ROWS = len(Face) + 1
_BASELINE, _SIZE = 0.72, 0.62


@cache
def _drawn() -> tuple[npt.NDArray[np.uint8], tuple[float, ...]]:
    """The sheet, and the width of each row in heights of a row."""
    sheet = Image.new("L", (round(ROW * WIDEST), ROW * ROWS), 0)
    draw = ImageDraw.Draw(sheet)
    semibold, regular = (_font(weight) for weight in ("Semibold", "Regular"))
    widths = []
    for face in Face:
        widths.append(_write(draw, int(face), ((face.name, semibold), (f" {words.FACES[face]}", regular))))
    widths.append(_write(draw, SLOT_ROW, ((words.SLOT_HERE, semibold),)))
    return np.array(sheet), tuple(widths)


def _font(weight: str) -> ImageFont.FreeTypeFont:
    font_file = files("font_source_sans_pro").joinpath("files", f"SourceSansPro-{weight}.ttf")
    with font_file.open("rb") as stream:
        return ImageFont.truetype(BytesIO(stream.read()), round(ROW * _SIZE))


def _write(
    draw: ImageDraw.ImageDraw, row: int, parts: tuple[tuple[str, ImageFont.FreeTypeFont], ...]
) -> float:
    """Write the parts one after the other; how wide they are in heights of a row."""
    x = 0.0
    for text, font in parts:
        draw.text((x, ROW * (row + _BASELINE)), text, fill=255, font=font, anchor="ls")
        x += font.getlength(text)
    return x / ROW


def label_sheet() -> npt.NDArray[np.uint8]:
    """How much of each pixel is covered by ink, shape (ROWS * ROW, WIDEST * ROW), first row at the top."""
    return _drawn()[0]


def label_width(row: int) -> float:
    """The width of what is written in a row, in heights of a row."""
    return _drawn()[1][row]
