"""A cube unfolded into a cross of six faces, and the palette it is painted from."""

from __future__ import annotations

from math import ceil

from render.layout.boxes import Box, BoxKind, Ink, Rect
from render.layout.buttons import TONE_INKS, Metrics, Placed, set_lines
from render.text.typesetting import TextSetting, width
from tutor.ui.view import Face, Net, Palette, Swatch

LEAST_CELL, LARGEST_CELL = 24.0, 38.0
"""Side of a sticker; the least is that of a pointer's target (WCAG 2.2, 2.5.8)."""
FACE_GAP = 4.0
NET_WIDTH = 12 * LEAST_CELL + 3 * FACE_GAP
"""The least width a net needs."""
_PLACES = {
    Face.U: (0, 1),
    Face.L: (1, 0),
    Face.F: (1, 1),
    Face.R: (1, 2),
    Face.B: (1, 3),
    Face.D: (2, 1),
}
"""Row and column of each face."""
_SWATCH_GAP = 4.0


def place_net(net: Net, area: Rect) -> Placed:
    """The 54 stickers, as large as the width allows; the one with the cursor last, so that it lies on top."""
    cell = min(LARGEST_CELL, max(LEAST_CELL, float((area.width - 3 * FACE_GAP) // 12)))
    left = area.x + max(0.0, round((area.width - 12 * cell - 3 * FACE_GAP) / 2))
    step = 3 * cell + FACE_GAP
    order = sorted(range(54), key=lambda sticker: sticker == net.cursor)
    boxes = []
    for sticker in order:
        face, place = divmod(sticker, 9)
        row, column = _PLACES[Face(face)]
        corner = left + column * step + place % 3 * cell, area.y + row * step + place // 3 * cell
        boxes.append(
            Box(
                Rect(*corner, cell, cell),
                BoxKind.STICKER,
                action=net.actions[sticker],
                selected=sticker == net.cursor,
                colour=net.colours[sticker],
                ink=Ink.WARNING if sticker in net.marked else Ink.TEXT,
            )
        )
    return Placed(tuple(boxes), 3 * step - FACE_GAP)


def _swatch(swatch: Swatch, rect: Rect, metrics: Metrics) -> Box:
    style = metrics.font(TextSetting.SMALL_STRONG if swatch.selected else TextSetting.SMALL)
    top = rect.bottom - 4 - style.line_height
    middle = rect.x + (rect.width - width(style, swatch.label)) / 2
    return Box(
        rect,
        BoxKind.SWATCH,
        set_lines([swatch.label], style, middle, top, TONE_INKS[swatch.tone]),
        action=swatch.action,
        selected=swatch.selected,
        focused=swatch.action == metrics.focus,
        picture=Rect(rect.x + 6, rect.y + 6, rect.width - 12, top - rect.y - 8),
        colour=swatch.colour,
    )


def place_palette(palette: Palette, area: Rect, metrics: Metrics) -> Placed:
    """The colours in one row, or in even rows where their labels need more room."""
    style = metrics.font(TextSetting.SMALL_STRONG)
    least = max(LEAST_CELL, *(width(style, swatch.label) + 4 for swatch in palette.swatches))
    fitting = max(1, int((area.width + _SWATCH_GAP) // (least + _SWATCH_GAP)))
    rows = ceil(len(palette.swatches) / fitting)
    count = ceil(len(palette.swatches) / rows)
    wide = min((area.width + _SWATCH_GAP) / count - _SWATCH_GAP, 2.0 * least)
    high = 12.0 + 24.0 * min(1.5, metrics.scale) + style.line_height
    boxes = []
    for number, swatch in enumerate(palette.swatches):
        row, column = divmod(number, count)
        corner = area.x + column * (wide + _SWATCH_GAP), area.y + row * (high + _SWATCH_GAP)
        boxes.append(_swatch(swatch, Rect(*corner, wide, high), metrics))
    return Placed(tuple(boxes), rows * (high + _SWATCH_GAP) - _SWATCH_GAP)
