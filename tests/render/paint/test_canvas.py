from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from numpy.typing import NDArray

from render.layout.boxes import Ink, Line, Rect, Sign
from render.offscreen import shared_context
from render.paint.glyph_atlas import Atlas
from render.paint.painter import Painter
from render.text.typesetting import TextSetting, font
from render.theme import Colour, load_theme, parse_colour

LIGHT = load_theme("light")
RED, BLUE = parse_colour("#c02010"), parse_colour("#1030c0")
PAPER = parse_colour("#ffffff")
SIZE = 64, 48


def drawn(paint: Callable[[Painter], None], ratio: float = 1.0) -> NDArray[np.uint8]:
    """What the canvas makes of some shapes on white paper, RGB."""

    def draw() -> None:
        from render.paint.canvas import Canvas

        canvas = Canvas()
        painter = Painter(LIGHT, canvas.atlas, ratio)
        painter.rect(Rect(0, 0, 1000, 1000), PAPER, radius=0.0)
        paint(painter)
        canvas.draw(painter.shapes(), *SIZE)
        canvas.delete()

    return shared_context().picture(SIZE, draw)[:, :, :3]


def rgb(colour: Colour) -> tuple[int, ...]:
    return tuple(round(255 * channel) for channel in colour.rgb)


def test_a_rectangle_covers_exactly_its_pixels() -> None:
    picture = drawn(lambda painter: painter.rect(Rect(10, 8, 20, 16), RED, radius=0.0))
    inside = np.zeros((48, 64), bool)
    inside[8:24, 10:30] = True
    assert (picture[inside] == rgb(RED)).all()
    assert (picture[~inside] == 255).all()


def test_edges_lie_on_whole_pixels_at_any_pixel_ratio() -> None:
    picture = drawn(lambda painter: painter.rect(Rect(5, 5, 20, 9), RED, BLUE, 1.0, radius=0.0), 1.25)
    assert {tuple(colour) for colour in picture.reshape(-1, 3)} == {rgb(RED), rgb(BLUE), (255, 255, 255)}


def test_round_corners_are_smooth_and_leave_the_right_area() -> None:
    picture = drawn(lambda painter: painter.rect(Rect(8, 8, 32, 32), BLUE, radius=10.0))
    coverage = (255.0 - picture[:, :, 0]) / (255 - rgb(BLUE)[0])
    # The four corners are quarters of a disc: area w h - (4 - pi) r^2.
    assert coverage.sum() == pytest.approx(32 * 32 - (4 - np.pi) * 100, rel=0.01)
    assert ((coverage > 0.1) & (coverage < 0.9)).any()
    assert coverage[8, 8] == 0
    assert coverage[24, 8] == 1


def test_a_border_lies_inside_the_edge() -> None:
    picture = drawn(lambda painter: painter.rect(Rect(8, 8, 30, 30), RED, BLUE, 2.0, radius=0.0))
    assert [tuple(picture[20, x]) for x in (7, 8, 9, 10)] == [(255,) * 3, rgb(BLUE), rgb(BLUE), rgb(RED)]


def test_a_line_has_round_ends() -> None:
    picture = drawn(lambda painter: painter.segment(20, 24, 44, 24, 8.0, RED))
    coverage = (255.0 - picture[:, :, 2]) / (255 - rgb(RED)[2])
    assert coverage.sum() == pytest.approx(24 * 8 + np.pi * 16, rel=0.02)


def test_text_shows_the_coverage_of_its_glyphs() -> None:
    style, atlas = font(TextSetting.STRONG), Atlas()
    line = Line(6, 30, "R'", style, Ink.TEXT)
    picture = drawn(lambda painter: painter.text(line, RED))
    x, y, width, height, column, row = atlas.run(style, "R'", 1.0)[0].astype(int)
    coverage = atlas.coverage[row : row + height, column : column + width].astype(float) / 255
    expected = 255 + (np.array(rgb(RED)) - 255) * coverage[:, :, None]
    assert np.abs(picture[30 + y : 30 + y + height, 6 + x : 6 + x + width] - expected).max() <= 1


def test_nothing_is_drawn_outside_the_clip_and_scrolling_moves_up() -> None:
    def paint(painter: Painter) -> None:
        painter.within(Rect(0, 10, 64, 20), scroll=6.0)
        painter.rect(Rect(4, 0, 40, 30), RED, radius=0.0)

    picture = drawn(paint)
    reds = np.flatnonzero((picture == rgb(RED)).all(axis=2).any(axis=1))
    assert reds.min() == 10
    assert reds.max() == 23


def test_translucent_colours_mix_as_usual() -> None:
    picture = drawn(lambda painter: painter.rect(Rect(0, 0, 64, 48), RED.with_alpha(0.5), radius=0.0))
    assert np.abs(picture[5, 5].astype(float) - (255 + np.array(rgb(RED))) / 2).max() <= 1


def test_what_is_cut_out_of_a_sign_shows_the_ground() -> None:
    sign = Sign(Rect(8, 8, 32, 32), "optimal", Ink.GOOD)
    picture = drawn(lambda painter: painter.sign(sign, RED))
    colours = {tuple(colour) for colour in picture.reshape(-1, 3)}
    assert {rgb(LIGHT.good), rgb(RED), (255, 255, 255)} <= colours
