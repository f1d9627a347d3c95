"""How stickers of a net and the colours of a palette look in each of their states."""

from __future__ import annotations

from render.layout.boxes import Box, Ink, Line, Rect, Sign
from render.paint.painter import CLEAR, Painter
from render.text.typesetting import TextSetting, font, width
from render.theme import Colour
from tutor.cube.words import COLOUR_LETTERS
from tutor.ui.view import HIDDEN

_LIGHT = 0.18
"""Stickers lighter than this (relative luminance) have dark letters, as on the stage."""
_PALE = Colour((1.0, 1.0, 1.0, 1.0))
_LETTER = 0.62
"""Height of a letter's line in parts of the sticker."""


def _ground(painter: Painter, colour: int) -> tuple[Colour, Colour]:
    """The colour of a sticker and that of what is written on it."""
    # Only where stickers are drawn flat are the palettes needed.
    from render.stage.linear import vector
    from render.stage.palette import load_palette, to_linear, to_srgb
    from render.stage.scene_block import bare_plastic

    if colour == HIDDEN:
        red, green, blue = (float(channel) for channel in to_srgb(bare_plastic(painter.theme.stage)))
        return Colour((red, green, blue, 1.0)), CLEAR
    palette = load_palette(painter.look.palette).arranged(painter.look.arrangement)
    shown = palette.stickers[colour]
    light = float(to_linear(vector(shown.rgb)) @ vector((0.2126, 0.7152, 0.0722)))
    return shown, palette.letter_dark if light > _LIGHT else palette.letter_light


def _letter(painter: Painter, rect: Rect, colour: int, ink: Colour) -> None:
    if colour == HIDDEN or not painter.look.letters:
        return
    style = font(TextSetting.STRONG, _LETTER * rect.height / 16.0, painter.ratio)
    name = COLOUR_LETTERS[painter.look.arrangement[colour]]
    x = rect.x + (rect.width - width(style, name)) / 2
    y = rect.y + (rect.height - style.line_height) / 2 + style.baseline
    painter.text(Line(x, y, name, style), ink)


def paint_sticker(box: Box, painter: Painter) -> Colour:
    """A sticker of a net; the middles, which are fixed, are round."""
    theme, rect = painter.theme, box.rect.inset(1.0)
    fill, ink = _ground(painter, HIDDEN if box.colour is None else box.colour)
    over = bool(box.action) and box.action == painter.pointer.hover
    radius = 3.0 if box.action else rect.width / 2
    painter.rect(rect, fill, theme.text if over else theme.edge, 2.0 if over else 1.0, radius)
    wrong = box.ink is Ink.WARNING
    free = Rect(rect.x, rect.y, 0.72 * rect.width, 0.72 * rect.height) if wrong else rect
    _letter(painter, free, HIDDEN if box.colour is None else box.colour, ink)
    if wrong:
        # On a ground of its own, for no one ink is seen on all six colours.
        side = 0.5 * rect.width
        spot = Rect(rect.right - side, rect.bottom - side, side, side)
        painter.rect(spot, theme.raised, theme.warning, 1.0, 3.0)
        painter.sign(Sign(spot.inset(2.0), "warning", Ink.WARNING), theme.raised)
    if box.selected:
        painter.rect(box.rect.inset(-4.0), CLEAR, theme.ground, 6.0, 7.0)
        painter.rect(box.rect.inset(-3.0), CLEAR, theme.focus, 3.0, 6.0)
    return fill


def paint_swatch(box: Box, painter: Painter) -> Colour:
    """A colour to take in hand; a stroke across an empty one says that it erases."""
    theme = painter.theme
    over, held = painter.pointer.hover == box.action, painter.pointer.pressed == box.action
    plain = theme.pressed if held else theme.hover if over else theme.raised
    ground = theme.accent_soft if box.selected else plain
    painter.rect(box.rect, ground, theme.accent if box.selected else theme.edge, 2.0 if box.selected else 1.0)
    if box.picture is not None and box.colour is not None:
        fill, ink = _ground(painter, box.colour)
        area = box.picture
        painter.rect(area, fill, theme.edge, 1.0, 3.0)
        _letter(painter, area, box.colour, ink)
        if box.colour == HIDDEN:
            inner = area.inset(5.0)
            painter.segment(inner.x, inner.bottom, inner.right, inner.y, 2.0, _PALE)
    return ground
