"""How maps of small cubes, their badges, plots and slips look."""

from __future__ import annotations

from itertools import pairwise

from render.layout.boxes import Box, Ink, Rect
from render.paint.painter import CLEAR, Painter
from render.theme import Colour

TINGE = 0.22
"""How strongly a badge that is not solid is tinged with its tone."""
_LINE, _DOT = 2.0, 3.0
_CLOSE = 6.0
"""Dots nearer to each other than this, in the mean, are left out: the line alone is read."""


def paint_badge(box: Box, painter: Painter) -> None:
    """The ground of a badge's letter."""
    if box.band is not None:
        _paint_ground(box.band, box.ink, painter, solid=box.primary)


def _paint_ground(band: Rect, ink: Ink, painter: Painter, *, solid: bool) -> None:
    """Full of its tone, tinged with it, or just an outline."""
    tone = painter.ink(ink)
    plain = ink in (Ink.MUTED, Ink.TEXT)
    fill = tone if solid else CLEAR if plain else tone.with_alpha(TINGE)
    painter.rect(band, fill, painter.theme.edge if plain else tone, 1.0, 4.0)


def paint_cell(box: Box, painter: Painter) -> Colour:
    """A cell of a map: the cube on its ground, the badge beneath."""
    theme = painter.theme
    held = box.action and painter.pointer.pressed == box.action
    over = box.action and painter.pointer.hover == box.action
    fill = theme.pressed if held else theme.hover if over else theme.raised
    painter.rect(box.rect, fill, theme.line, 1.0)
    if box.picture and box.stage:
        painter.picture(box.picture, box.stage)
    paint_badge(box, painter)
    if box.dot:
        _paint_dot(box.dot, painter)
    return fill


def _paint_dot(dot: Rect, painter: Painter) -> None:
    painter.disc(dot.x + dot.width / 2, dot.y + dot.height / 2, dot.width / 2, painter.theme.accent)


def paint_column(box: Box, painter: Painter) -> Colour:
    """A column of a map: framed when it is chosen, with its chips."""
    theme = painter.theme
    over = box.action and painter.pointer.hover == box.action
    fill = theme.accent_soft if box.selected else theme.hover if over else CLEAR
    painter.rect(box.rect, fill, theme.accent if box.selected else CLEAR, 2.0 if box.selected else 0.0)
    for chip in box.chips:
        _paint_ground(chip.rect, chip.ink, painter, solid=chip.solid)
        if chip.dot:
            _paint_dot(chip.dot, painter)
    return fill


def paint_chip(box: Box, painter: Painter) -> Colour:
    """A badge of a legend."""
    paint_badge(box, painter)
    return CLEAR


def paint_plot(box: Box, painter: Painter) -> Colour:
    """A plot on its own ground."""
    theme, drawing = painter.theme, box.drawing
    painter.rect(box.rect, theme.raised, theme.line, 1.0, 8.0)
    if drawing is None:
        return theme.raised
    for index, rule in enumerate(drawing.rules):
        painter.rect(rule, theme.edge if index == 0 else theme.line, radius=0.0)
    for bar in drawing.bars:
        painter.rect(bar, theme.accent, radius=2.0)
    dots = drawing.dots
    for before, after in pairwise(dots):
        painter.segment(*before, *after, _LINE, theme.accent)
    spread = (dots[-1][0] - dots[0][0]) / len(dots) if dots else 0.0
    if dots and (len(dots) == 1 or spread >= _CLOSE):
        for x, y in dots:
            painter.disc(x, y, _DOT, theme.accent)
    return theme.raised


def paint_tip(box: Box, painter: Painter) -> None:
    """A slip with its words, over everything near."""
    theme = painter.theme
    painter.rect(box.rect.inset(-3.0).moved(0, 3), theme.shadow, radius=10.0, softness=8.0)
    painter.rect(box.rect, theme.raised, theme.edge, 1.0)
    for line in box.lines:
        painter.text(line)


def tip_in_sight(tip: Box, beside: Rect, lowest: float) -> Box:
    """The tip, above its box instead of under it where it would reach below ``lowest``."""
    if tip.rect.bottom <= lowest:
        return tip
    return tip.moved(0, beside.y - 4 - tip.rect.bottom)
