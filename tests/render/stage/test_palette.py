from itertools import combinations

import numpy as np
import pytest

from render.stage.palette import PaletteError, load_palette, palette_names, parse_palette, to_linear, to_srgb
from render.theme import parse_colour

ROWS = [f'{name} = "#10203{digit}"' for digit, name in enumerate((*"UDLRFB", "letter_dark", "letter_light"))]


def test_the_three_palettes_are_shipped() -> None:
    assert palette_names() == ("colour-blind", "high-contrast", "usual")


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
    with pytest.raises(PaletteError, match=r"'neon'.*colour-blind, high-contrast, usual"):
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
