"""How each kind of box looks in each of its states."""

from __future__ import annotations

from render.layout.boxes import Box, BoxKind, Ink, Rect
from render.paint.painter import CLEAR, RADIUS, Painter
from render.paint.plots import paint_cell, paint_chip, paint_column, paint_plot
from render.paint.stickers import paint_sticker, paint_swatch
from render.theme import Colour


def _button_ground(box: Box, painter: Painter) -> tuple[Colour, Colour, float]:
    """Fill, border colour and border width of a button or tile in its state."""
    theme = painter.theme
    held = box.action and painter.pointer.pressed == box.action
    over = box.action and painter.pointer.hover == box.action and box.enabled
    if not box.enabled:
        return CLEAR, theme.line, 1.0
    if box.primary:
        return (theme.accent_hover if over or held else theme.accent), CLEAR, 0.0
    if box.selected:
        return theme.accent_soft, theme.accent, 2.0
    return (theme.pressed if held else theme.hover if over else theme.raised), theme.edge, 1.0


def _paint_button(box: Box, painter: Painter) -> Colour:
    fill, stroke, width = _button_ground(box, painter)
    painter.rect(box.rect, fill, stroke, width)
    if box.keycap:
        painter.rect(box.keycap, CLEAR, painter.ink(box.lines[-1].ink).with_alpha(0.6), 1.0, 3.0)
    return fill


def _paint_quiet(box: Box, painter: Painter) -> Colour:
    theme = painter.theme
    over = box.enabled and painter.pointer.hover == box.action
    held = box.enabled and painter.pointer.pressed == box.action
    fill = theme.pressed if held else theme.hover if over else CLEAR
    painter.rect(box.rect, fill)
    if box.selected:
        bar = Rect(box.rect.x + 8, box.rect.bottom - 3, box.rect.width - 16, 3)
        painter.rect(bar, theme.accent, radius=1.5)
    if box.keycap:
        painter.rect(box.keycap, CLEAR, theme.edge, 1.0, 3.0)
    return fill


def _paint_tile(box: Box, painter: Painter) -> Colour:
    theme = painter.theme
    if box.outlined:
        painter.rect(box.rect.inset(0, 1), theme.raised, theme.neutral, 2.0, 5.0)
        return theme.raised
    if box.selected or not box.enabled:
        return _paint_button(box, painter)
    if not box.action:
        # What cannot be pressed does not look as if it could: no edge, only a ground for what was made.
        painter.rect(box.rect, theme.ground, radius=5.0)
        if box.played:
            painter.rect(box.rect, theme.line.with_alpha(0.45), radius=5.0)
        return theme.ground
    held = box.action and painter.pointer.pressed == box.action
    over = box.action and painter.pointer.hover == box.action
    rest = theme.raised if box.played else theme.ground
    fill = theme.pressed if held else theme.hover if over else rest
    painter.rect(box.rect, fill, theme.edge if box.played else theme.line, 1.0, 5.0)
    return fill


def _paint_miniature(box: Box, painter: Painter) -> Colour:
    fill = _paint_button(box, painter)
    if box.picture and box.stage:
        painter.picture(box.picture, box.stage)
    return fill


def _paint_field(box: Box, painter: Painter) -> Colour:
    theme = painter.theme
    wrong = box.ink is Ink.WARNING
    stroke = theme.warning if wrong else theme.accent if box.selected else theme.edge
    painter.rect(box.rect, theme.raised, stroke, 2.0 if wrong or box.selected else 1.0, 4.0)
    for ground in box.chosen:
        painter.rect(ground, theme.accent_soft, radius=0.0)
    if box.underline:
        painter.rect(box.underline, theme.warning, radius=1.5)
    if box.caret:
        painter.rect(box.caret, theme.text, radius=0.0)
    return theme.raised


def _paint_dashes(rect: Rect, painter: Painter) -> None:
    """A dashed frame, its corners whole."""
    dash, thick = rect.height / 18, max(2.0, rect.height / 60)
    for start, long, across in ((rect.x, rect.width, True), (rect.y, rect.height, False)):
        count = max(1, round(long / (2 * dash)))
        step = long / (2 * count + 1)
        for number in range(count + 1):
            at = start + 2 * number * step
            for edge in (0.0, 1.0):
                if across:
                    place = Rect(at, rect.y + edge * (rect.height - thick), step, thick)
                else:
                    place = Rect(rect.x + edge * (rect.width - thick), at, thick, step)
                painter.rect(place, painter.theme.edge, radius=0.0)


def _paint_ground(box: Box, painter: Painter, raised: bool) -> Colour:
    """The boxes that others lie on, and the plain ones."""
    theme = painter.theme
    over = theme.ground if raised else theme.raised
    match box.kind:
        case BoxKind.GROUP:
            painter.rect(box.rect, over, theme.line, 1.0, 8.0)
            return over
        case BoxKind.NOTE:
            painter.rect(box.rect, over, theme.line, 1.0, 8.0)
            stripe = Rect(box.rect.x, box.rect.y + 8, 4, box.rect.height - 16)
            painter.rect(stripe, painter.ink(box.ink), radius=2.0)
            return over
        case BoxKind.BAY:
            if not box.selected:
                return theme.ground
            painter.rect(box.rect, theme.accent_soft, radius=4.0)
            return theme.accent_soft
        case BoxKind.TRACK:
            painter.rect(box.rect, over, theme.edge, 1.0, 4.0)
            if box.fraction > 0:
                filled = Rect(
                    box.rect.x, box.rect.y, max(8.0, box.fraction * box.rect.width), box.rect.height
                )
                painter.rect(filled, theme.accent, radius=4.0)
        case BoxKind.HIDDEN:
            _paint_dashes(box.rect, painter)
        case BoxKind.RULE:
            painter.rect(box.rect, theme.line, radius=0.0)
        case BoxKind.PATH:
            painter.rect(box.rect, painter.ink(box.ink), radius=0.0)
    return theme.raised if raised else theme.ground


_BUTTONS = {
    BoxKind.BUTTON: _paint_button,
    BoxKind.QUIET: _paint_quiet,
    BoxKind.LINK: _paint_quiet,
    BoxKind.TILE: _paint_tile,
    BoxKind.FIELD: _paint_field,
    BoxKind.MINIATURE: _paint_miniature,
    BoxKind.STICKER: paint_sticker,
    BoxKind.SWATCH: paint_swatch,
    BoxKind.CELL: paint_cell,
    BoxKind.CHIP: paint_chip,
    BoxKind.COLUMN: paint_column,
    BoxKind.PLOT: paint_plot,
}


def paint_box(box: Box, painter: Painter, raised: bool) -> None:
    """One box with all that is on it; ``raised`` says it lies on an overlay's sheet."""
    paint = _BUTTONS.get(box.kind)
    ground = paint(box, painter) if paint else _paint_ground(box, painter, raised)
    if not ground[3]:
        ground = painter.theme.raised if raised else painter.theme.ground
    for sign in box.signs:
        painter.sign(sign, ground)
    for line in box.lines:
        painter.text(line)
    if box.focused:
        ring = box.rect.inset(-4.0) if box.kind is not BoxKind.FIELD else box.rect.inset(-3.0)
        painter.rect(ring, CLEAR, painter.theme.focus, 2.0, RADIUS + 4)
