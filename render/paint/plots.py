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
    """The ground of a badge's letter: full of its tone, tinged with it, or just an outline."""
    if box.band is None:
        return
    tone = painter.ink(box.ink)
    plain = box.ink in (Ink.MUTED, Ink.TEXT)
    fill = tone if box.primary else CLEAR if plain else tone.with_alpha(TINGE)
    painter.rect(box.band, fill, painter.theme.edge if plain else tone, 1.0, 4.0)


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
        x, y = box.dot.x + box.dot.width / 2, box.dot.y + box.dot.height / 2
        painter.disc(x, y, box.dot.width / 2, theme.accent)
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
