"""A small sheet with the letters of the six colours, for stickers."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from io import BytesIO

import numpy as np
import numpy.typing as npt
from PIL import Image, ImageDraw, ImageFont

from tutor.cube.words import COLOUR_LETTERS

CELL = 128
"""Pixels to a side of a letter's cell."""


@cache
def letter_sheet() -> npt.NDArray[np.uint8]:
    """How much of each pixel is covered by ink, shape (CELL, 6 * CELL), first row at the top."""
    font_file = files("font_source_sans_pro").joinpath("files", "SourceSansPro-Semibold.ttf")
    sheet = Image.new("L", (CELL * len(COLOUR_LETTERS), CELL), 0)
    draw = ImageDraw.Draw(sheet)
    with font_file.open("rb") as stream:
        font = ImageFont.truetype(BytesIO(stream.read()), round(CELL * 0.86))
        for colour, letter in enumerate(COLOUR_LETTERS):
            # Small letters, as in the text of a cube: turns are named by capitals, which none of these is.
            middle = (CELL * (colour + 0.5), CELL * 0.5 + CELL * 0.19)
            draw.text(middle, letter, fill=255, font=font, anchor="ms")
    return np.array(sheet)
