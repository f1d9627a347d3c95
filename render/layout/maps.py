"""Maps of small cubes with badges, their legends, and the slips that tell more about what is pointed at."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from render.layout.boxes import UNIT, Box, BoxKind, Ink, Line, Rect
from render.layout.buttons import TONE_INKS, Metrics, Placed, set_lines
from render.layout.rows import fitting
from render.text.typesetting import TextSetting, width, wrap
from tutor.ui.view import Legend, Miniature, Tone

_CELL, _PICTURE = 76.0, 60.0
"""Least width of a cell and size of its cube, at a text scale of 100 %."""
_TIP = 280.0
_DOT = 9.0
_PAD = 6.0


def band_ink(tone: Tone, *, solid: bool) -> Ink:
    """What is written on a badge's ground."""
    return Ink.ON_ACCENT if solid else Ink.TEXT if tone is not Tone.MUTED else Ink.MUTED


def _lettered(
    badge: str, label: str, band: Rect, metrics: Metrics, *, tone: Tone, solid: bool
) -> tuple[Line, ...]:
    """The badge at the band's left and the label at its right; the badge in the middle without one."""
    strong, small = metrics.font(TextSetting.SMALL_STRONG), metrics.font(TextSetting.SMALL)
    ink, top = band_ink(tone, solid=solid), band.y + (band.height - strong.line_height) / 2
    if not label:
        return set_lines([badge], strong, band.x + (band.width - width(strong, badge)) / 2, top, ink)
    left, right = band.x + _PAD, band.right - _PAD - width(small, label)
    return (*set_lines([badge], strong, left, top, ink), *set_lines([label], small, right, top, ink))


def _band_height(metrics: Metrics) -> float:
    return metrics.font(TextSetting.SMALL_STRONG).line_height + 2


def place_cell(cell: Miniature, rect: Rect, room: Rect, metrics: Metrics) -> Box:
    """A small cube of a map over its badge; ``room`` is where its tip may lie."""
    side = min(round(_PICTURE * metrics.scale), rect.width - UNIT)
    picture = Rect(round(rect.x + (rect.width - side) / 2), rect.y + 4, side, side)
    band = Rect(rect.x + 3, picture.bottom + 2, rect.width - 6, _band_height(metrics))
    whole = replace(rect, height=band.bottom + 3 - rect.y)
    dot = Rect(rect.right - _DOT - 5, rect.y + 5, _DOT, _DOT) if cell.dotted else None
    number = set_lines([cell.number], metrics.font(TextSetting.SMALL), rect.x + 5, rect.y + 2, Ink.MUTED)
    return Box(
        whole,
        BoxKind.CELL,
        (*number, *_lettered(cell.badge, cell.label, band, metrics, tone=cell.tone, solid=cell.solid)),
        action=cell.action,
        primary=cell.solid,
        selected=cell.selected,
        focused=bool(cell.action) and cell.action == metrics.focus,
        ink=TONE_INKS[cell.tone],
        picture=picture,
        stage=cell.stage,
        band=band,
        dot=dot,
        tip=place_tip(cell.tip, whole, room, metrics) if cell.tip else None,
    )


def place_tip(told: Sequence[str], beside: Rect, room: Rect, metrics: Metrics) -> Box:
    """A slip under a cell, as far to its left as it must be to stay in its column; its first line strong."""
    strong, small = metrics.font(TextSetting.SMALL_STRONG), metrics.font(TextSetting.SMALL)
    widest = min(room.width, _TIP * metrics.scale)
    inner = widest - 2 * 12
    head = wrap(strong, told[0], inner)
    rest = [line for text in told[1:] for line in wrap(small, text, inner)]
    left = min(beside.x, room.right - widest)
    top = beside.bottom + 4
    lines = set_lines(head, strong, left + 12, top + UNIT)
    lines += set_lines(rest, small, left + 12, top + UNIT + len(head) * strong.line_height, Ink.MUTED)
    height = len(head) * strong.line_height + len(rest) * small.line_height + 2 * UNIT
    return Box(Rect(left, top, widest, height), BoxKind.TIP, lines)


def place_map(cells: Sequence[Miniature], area: Rect, metrics: Metrics) -> Placed:
    """As many cells side by side as fit, all of one size."""
    least = _CELL * metrics.scale
    count = fitting(area.width, least, UNIT)
    boxes: list[Box] = []
    y = area.y
    for start in range(0, len(cells), count):
        row = [
            place_cell(cell, Rect(area.x + index * (least + UNIT), y, least, 0), area, metrics)
            for index, cell in enumerate(cells[start : start + count])
        ]
        boxes += row
        y = row[0].rect.bottom + UNIT
    return Placed(tuple(boxes), max(0.0, y - UNIT - area.y))


def place_legend(legend: Legend, area: Rect, metrics: Metrics) -> Placed:
    """Badges with what they mean, side by side in as many rows as they need."""
    style, high = metrics.font(TextSetting.SMALL), _band_height(metrics)
    side = high + UNIT
    boxes: list[Box] = []
    x, y = area.x, area.y
    for badge, tone, solid, words in legend.entries:
        told = min(width(style, words) + 1, area.width - side - UNIT)
        if x > area.x and x + side + UNIT + told > area.right:
            x, y = area.x, y + high + UNIT
        band = Rect(x, y, side, high)
        lines = _lettered(badge, "", band, metrics, tone=tone, solid=solid)
        boxes.append(Box(band, BoxKind.CHIP, lines, primary=solid, ink=TONE_INKS[tone], band=band))
        text = wrap(style, words, told)
        top = y + (high - style.line_height) / 2
        beside = Rect(band.right + UNIT, top, told, len(text) * style.line_height)
        boxes.append(Box(beside, lines=set_lines(text, style, beside.x, top)))
        x = beside.right + 2 * UNIT
    return Placed(tuple(boxes), max((box.rect.bottom for box in boxes), default=area.y) - area.y)
