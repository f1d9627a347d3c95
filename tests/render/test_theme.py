"""Contrast figures follow WCAG 2.2: 1.4.3 (text 4.5:1) and 1.4.11 (graphics and focus marks 3:1)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import fields

from render.layout.boxes import Ink
from render.stage.palette import load_palette, palette_names
from render.theme import (
    Colour,
    Theme,
    ThemeError,
    load_theme,
    parse_colour,
    parse_theme,
    theme_names,
)

TEXT = 4.5
GRAPHICS = 3.0


def luminance(colour: Colour) -> float:
    """Relative luminance as WCAG 2.2 defines it."""
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in colour.rgb]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(first: Colour, second: Colour) -> float:
    light, dark = sorted((luminance(first), luminance(second)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_contrast_of_black_and_white_is_21() -> None:
    # WCAG 2.2, definition of contrast ratio: it ranges from 1 to 21.
    assert contrast(parse_colour("#000000"), parse_colour("#ffffff")) == pytest.approx(21)


def test_light_and_dark_are_shipped() -> None:
    assert theme_names() == ("dark", "light")


@pytest.fixture(params=["light", "dark"])
def theme(request: pytest.FixtureRequest) -> Theme:
    return load_theme(request.param)


def test_every_ink_has_its_colour_in_a_theme() -> None:
    # The painter looks an ink's colour up by its name.
    colours = {each.name for each in fields(Theme) if each.type is Colour}
    assert {ink.value for ink in Ink} <= colours


def test_text_reaches_its_contrast_on_every_ground_it_stands_on(theme: Theme) -> None:
    grounds = (theme.ground, theme.raised, theme.hover, theme.pressed, theme.accent_soft)
    for name in ("text", "muted"):
        for ground in grounds:
            assert contrast(getattr(theme, name), ground) >= TEXT, (name, ground)
    for name in ("good", "neutral", "warning", "accent"):
        for ground in (theme.ground, theme.raised):
            assert contrast(getattr(theme, name), ground) >= TEXT, (name, ground)
    assert contrast(theme.accent_text, theme.accent) >= TEXT
    assert contrast(theme.accent_text, theme.accent_hover) >= TEXT
    assert contrast(theme.stage.label, theme.stage.background) >= TEXT


def test_edges_marks_and_focus_reach_the_contrast_of_graphics(theme: Theme) -> None:
    for name in ("edge", "focus", "disabled", "accent", "good", "neutral", "warning"):
        for ground in (theme.ground, theme.raised, theme.accent_soft):
            assert contrast(getattr(theme, name), ground) >= (GRAPHICS), (name, ground)
    assert contrast(theme.stage.mirror_rim, theme.stage.background) >= GRAPHICS
    for name in ("ring", "frame", "arrow"):
        casing = getattr(theme.stage, f"{name}_casing")
        assert contrast(getattr(theme.stage, name), casing) >= 6.9, name


@pytest.mark.parametrize("palette", palette_names())
def test_on_any_sticker_an_arrow_a_ring_or_its_casing_stands_out(theme: Theme, palette: str) -> None:
    for sticker in load_palette(palette).stickers:
        for name in ("ring", "arrow"):
            pair = getattr(theme.stage, name), getattr(theme.stage, f"{name}_casing")
            assert max(contrast(colour, sticker) for colour in pair) >= 4.2, (name, sticker)


@given(st.tuples(*[st.integers(0, 255)] * 4))
def test_a_colour_is_read_from_its_text(channels: tuple[int, int, int, int]) -> None:
    written = "".join(f"{channel:02x}" for channel in channels)
    red, green, blue, alpha = (channel / 255 for channel in channels)
    assert parse_colour(f"#{written}") == Colour((red, green, blue, alpha))
    assert parse_colour(f"#{written[:6]}") == Colour((red, green, blue, 1.0))


@pytest.mark.parametrize("text", ["", "red", "#12345", "#1234567", "#12345g", "#123456 "])
def test_anything_else_is_no_colour(text: str) -> None:
    with pytest.raises(ThemeError, match="#rrggbb"):
        parse_colour(text)


def test_an_unknown_theme_is_named_with_those_there_are() -> None:
    with pytest.raises(ThemeError, match=r"'sepia'.*dark, light"):
        load_theme("sepia")
    with pytest.raises(ThemeError):
        load_theme("../themes/light")


def test_a_wrong_entry_is_named() -> None:
    with pytest.raises(ThemeError, match="ground"):
        parse_theme("raised = '#ffffff'")
    with pytest.raises(ThemeError, match=r"blue.*\$\.ground"):
        parse_theme("ground = 'blue'")
