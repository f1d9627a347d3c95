"""Coverage is held against Pillow's drawing of the same files, advances against fontTools' reading."""

from __future__ import annotations

from importlib.resources import files

import numpy as np
import pytest
from fontTools.ttLib import TTFont
from PIL import ImageFont

from render.text import typefaces
from render.text.typefaces import PHASES, Typeface, advance, crisp_size, has_glyph, rasterise, x_height

FACES = tuple(Typeface)


def pillow_font(face: Typeface, size: float) -> ImageFont.FreeTypeFont:
    package, name = face.value
    path = files(package).joinpath("files", name)
    return ImageFont.truetype(str(path), size, layout_engine=ImageFont.Layout.BASIC)


@pytest.mark.parametrize("face", FACES)
def test_advances_are_those_of_the_font(face: Typeface) -> None:
    package, name = face.value
    read = TTFont(str(files(package).joinpath("files", name)))
    glyphs, widths, em = read.getBestCmap(), read["hmtx"], read["head"].unitsPerEm
    compared = 0
    for code, glyph in glyphs.items():
        if code < 65536 and not chr(code).isspace() and has_glyph(face, chr(code)):
            assert advance(face, chr(code)) == pytest.approx(widths[glyph][0] / em, abs=1e-9), chr(code)
            compared += 1
    assert compared > 500


@pytest.mark.parametrize("face", FACES)
def test_no_sign_of_the_interface_is_drawn_wider_than_it_is_measured(face: Typeface) -> None:
    for character in "…“”‘’%—–7RUF×":
        glyph = rasterise(face, 40, character)
        assert glyph is not None
        assert glyph.left + glyph.coverage.shape[1] <= 40 * advance(face, character) + 4, character


@pytest.mark.parametrize("face", FACES)
@pytest.mark.parametrize("character", ["R", "g", "@", "′"])
def test_a_glyph_covers_as_much_as_pillow_draws_many_times_larger(face: Typeface, character: str) -> None:
    glyph = rasterise(face, 20, character)
    assert glyph is not None
    mask = pillow_font(face, 320).getmask(character, mode="L", anchor="ls")
    area = sum(bytes(mask)) / 255 / 16**2
    assert glyph.coverage.sum() / 255 == pytest.approx(area, rel=0.08, abs=0.4)


@pytest.mark.parametrize("phase", range(PHASES))
def test_a_phase_moves_a_glyph_by_a_part_of_a_pixel(phase: int) -> None:
    def middle(at: int) -> float:
        glyph = rasterise(Typeface.BODY, 17.3, "o", at)
        assert glyph is not None
        columns = glyph.coverage.astype(float).sum(axis=0)
        return float(glyph.left + (columns * np.arange(len(columns))).sum() / columns.sum())

    assert middle(phase) - middle(0) == pytest.approx(phase / PHASES, abs=0.06)


@pytest.mark.parametrize("face", FACES)
def test_small_letters_are_a_whole_number_of_pixels_high(face: Typeface) -> None:
    for pixels in (12.0, 16.0, 17.5, 20.0, 32.0):
        size = crisp_size(face, pixels)
        assert size * x_height(face) == pytest.approx(round(size * x_height(face)))
        assert size == pytest.approx(pixels, rel=0.1)


def test_the_signs_that_the_interface_uses_are_in_the_body_face() -> None:
    for character in "RUFLDB2'′’“”–—…·×←→↑↓°%½":
        assert has_glyph(Typeface.BODY, character), character


def test_a_missing_character_is_seen() -> None:
    assert not has_glyph(Typeface.BODY, "\u4e2d")
    glyph = rasterise(Typeface.BODY, 16, "\u4e2d")
    assert glyph is not None
    assert glyph.coverage[0].min() == 255
    assert glyph.coverage[:, 0].min() == 255
    assert advance(Typeface.BODY, "\u4e2d") > 0.4


def test_a_space_has_no_picture_but_moves_the_pen() -> None:
    assert rasterise(Typeface.BODY, 16, " ") is None
    assert advance(Typeface.BODY, " ") == advance(Typeface.BODY, "\u00a0") > 0


def test_letters_of_very_many_sizes_do_not_keep_a_font_for_each() -> None:
    # A font of one size holds a third of a MiB.
    for size in range(300, 500):
        rasterise(Typeface.BODY, size / 20, "R")
    assert typefaces._face.cache_info().currsize < 50
