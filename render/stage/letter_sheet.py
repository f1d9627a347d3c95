"""A small sheet with the six face letters for stickers."""

from __future__ import annotations

from functools import cache
from importlib.resources import files
from io import BytesIO

import numpy as np
import numpy.typing as npt
from PIL import Image, ImageDraw, ImageFont

from tutor.ui.view import Face

CELL = 128
"""Pixels to a side of a letter's cell."""


@cache
def letter_sheet() -> npt.NDArray[np.uint8]:
    """How much of each pixel is covered by ink, shape (CELL, 6 * CELL), first row at the top."""
    font_file = files("font_source_sans_pro").joinpath("files", "SourceSansPro-Semibold.ttf")
    sheet = Image.new("L", (CELL * len(Face), CELL), 0)
    draw = ImageDraw.Draw(sheet)
    with font_file.open("rb") as stream:
        font = ImageFont.truetype(BytesIO(stream.read()), round(CELL * 0.72))
        for face in Face:
            middle = (CELL * (int(face) + 0.5), CELL * 0.5 + CELL * 0.235)
            draw.text(middle, face.name, fill=255, font=font, anchor="ms")
    return np.array(sheet)
