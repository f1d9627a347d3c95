from itertools import combinations

import numpy as np
import pytest

from render.stage.linear import Array, vector
from render.stage.palette import PaletteError, load_palette, palette_names, parse_palette, to_linear, to_srgb
from render.stage.scene_block import dimmed_greys
from render.theme import load_theme, parse_colour

ROWS = [f'{name} = "#10203{digit}"' for digit, name in enumerate((*"UDLRFB", "letter_dark", "letter_light"))]


def test_the_four_palettes_are_shipped() -> None:
    assert palette_names() == ("colour-blind", "high-contrast", "paper", "usual")


@pytest.mark.parametrize("name", palette_names())
def test_the_six_colours_of_a_palette_are_clearly_distinct(name: str) -> None:
    # WCA Regulations 3a3: each face has its own clearly distinct colour.
    for one, other in combinations(load_palette(name).stickers, 2):
        assert np.linalg.norm(np.array(one.rgb) - np.array(other.rgb)) > 0.2


def test_the_usual_cube_has_white_down_green_in_front_and_orange_on_the_right() -> None:
    palette = load_palette("usual")
    assert min(palette.D.rgb) > 0.9
    red, green, blue = palette.F.rgb
    assert green > max(red, blue)
    red, green, blue = palette.R.rgb
    assert red > green > blue


def test_the_colour_blind_palette_is_that_of_okabe_and_ito() -> None:
    # Okabe and Ito, Color Universal Design, 2008: yellow, vermilion, orange, bluish green, blue.
    palette = load_palette("colour-blind")
    named = ("#f0e442", "#d55e00", "#e69f00", "#009e73", "#0072b2")
    found = (palette.U, palette.L, palette.R, palette.F, palette.B)
    assert found == tuple(parse_colour(name) for name in named)


def test_an_unknown_palette_is_refused_with_the_names_there_are() -> None:
    with pytest.raises(PaletteError, match=r"'neon'.*colour-blind, high-contrast, paper, usual"):
        load_palette("neon")


def test_a_missing_colour_is_named() -> None:
    with pytest.raises(PaletteError, match="`B`"):
        parse_palette("\n".join(row for row in ROWS if not row.startswith("B ")))


def test_a_wrong_colour_is_quoted() -> None:
    with pytest.raises(PaletteError, match="greenish"):
        parse_palette("\n".join(ROWS).replace("#102034", "greenish"))


def test_srgb_conversion_agrees_with_the_standard() -> None:
    # IEC 61966-2-1: mid grey 0.5 is 0.21404 in linear light; 0.04045 is where the two branches meet.
    assert to_linear(np.array(0.5)) == pytest.approx(0.21404, abs=1e-5)
    assert to_linear(np.array(0.04045)) == pytest.approx(0.0031308, abs=1e-6)
    values = np.linspace(0.0, 1.0, 101)
    assert np.allclose(to_srgb(to_linear(values)), values, atol=1e-6)


def lab(linear: Array) -> Array:
    """CIE 1976 L*a*b* of linear sRGB light under D65 (CIE 15; the matrix of IEC 61966-2-1)."""
    matrix = vector([(0.4124, 0.3576, 0.1805), (0.2126, 0.7152, 0.0722), (0.0193, 0.1192, 0.9505)])
    white = matrix.sum(axis=1)
    ratio = linear @ matrix.T / white
    root = np.where(ratio > (6 / 29) ** 3, np.cbrt(ratio), ratio / (3 * (6 / 29) ** 2) + 4 / 29)
    return np.stack([
        116 * root[:, 1] - 16, 500 * (root[:, 0] - root[:, 1]), 200 * (root[:, 1] - root[:, 2])
    ], axis=1)  # fmt: skip


@pytest.mark.parametrize("theme", ["light", "dark"])
@pytest.mark.parametrize("name", palette_names())
def test_a_dimmed_sticker_is_nearer_to_the_dimmed_grey_than_to_any_sticker(name: str, theme: str) -> None:
    stage = load_theme(theme).stage
    colours = to_linear(vector([colour.rgb for colour in load_palette(name).stickers]))
    dimmed = lab(dimmed_greys(colours, stage))
    grey = lab(to_linear(vector([stage.dimmed_sticker.rgb])))[0]
    from_grey = np.linalg.norm(dimmed - grey, axis=1)
    from_stickers = np.linalg.norm(dimmed[:, None] - lab(colours)[None], axis=2).min(axis=1)
    assert (from_grey < 0.5 * from_stickers).all()
    # Without hue: as little chroma as the warm grey of the theme itself.
    assert (np.hypot(*dimmed[:, 1:].T) < 6.0).all()
