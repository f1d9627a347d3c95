"""The map of a group: a row for each learner, a column for each case, in as many bands as needed."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from render.layout.boxes import UNIT, Box, BoxKind, Chip, Ink, Line, Rect
from render.layout.buttons import TONE_INKS, Metrics, Placed, set_lines
from render.layout.maps import band_ink, place_tip
from render.text.typesetting import TextSetting, ellipsise, width
from tutor.ui.view import CaseMap, MapCell, MapColumn, MapRow, Tone

_LEAST, _HIGH = 24.0, 27.0
"""Least width of a column, also for the pointer (WCAG 2.2, 2.5.8), and height of a row; at 100 %."""
_WIDEST, _WIDEST_NAME = 36.0, 150.0
_MOST_NAMES = 0.3
"""The part of the width that names take at most."""
_DOT, _ROUND = 6.0, 4.0
"""Size of a dot, and room beside a sign."""


class _Measures(Struct, frozen=True):
    """Where things are across: the names, then columns of one width, then the figures."""

    names: float
    count: int
    """So many columns stand side by side."""
    column: float
    figures: float
    row: float
    head: float
    ends: float

    @classmethod
    def of(cls, block: CaseMap, wide: float, metrics: Metrics) -> _Measures:
        small, strong = metrics.font(TextSetting.SMALL), metrics.font(TextSetting.SMALL_STRONG)
        longest = max((width(small, row.name) for row in block.rows), default=0.0) + 1
        names = min(longest, _WIDEST_NAME * metrics.scale, _MOST_NAMES * wide) + 2 * UNIT
        figures = max((width(strong, row.figure) for row in block.rows), default=0.0) + 2 * UNIT
        room = wide - names - figures
        least = max(_LEAST * metrics.scale, max(width(strong, sign) for sign in _signs(block)) + 2 * _ROUND)
        bands = -(-len(block.columns) // max(1, int(room // least)))
        count = -(-len(block.columns) // max(1, bands))
        column = min(room / max(1, count), max(least, _WIDEST * metrics.scale))
        high = max(_HIGH * metrics.scale, small.line_height + 6)
        told = sum(width(small, end) for end in block.ends) + UNIT
        ends = small.line_height if any(block.ends) and told <= count * column else 0.0
        return cls(names, max(1, count), column, figures, round(high), small.line_height + 6, ends)


def _signs(block: CaseMap) -> set[str]:
    return {cell.badge for column in block.columns for cell in column.cells} | {""}


def place_case_map(block: CaseMap, area: Rect, metrics: Metrics) -> Placed:
    """The whole map; the names can be pressed where they stand first, the figures stand where it ends."""
    measures = _Measures.of(block, area.width, metrics)
    count, y = measures.count, area.y
    boxes: list[Box] = []
    left = area.x + measures.names
    for start in range(0, len(block.columns), count):
        columns = block.columns[start : start + count]
        last = start + count >= len(block.columns)
        right = left + len(columns) * measures.column
        ends = (block.ends[0] if start == 0 else "", block.ends[1] if last else "")
        if measures.ends and any(ends):
            boxes.extend(_ends(ends, Rect(left, y, right - left, measures.ends), metrics))
            y += measures.ends
        for index, column in enumerate(columns):
            height = measures.head + len(block.rows) * measures.row + 2
            rect = Rect(left + index * measures.column, y, measures.column, height)
            boxes.append(_column(column, rect, area, measures, metrics))
        for number, row in enumerate(block.rows):
            top = y + measures.head + number * measures.row
            boxes.append(
                _name(row, Rect(area.x, top, measures.names - UNIT, measures.row), metrics, start == 0)
            )
            if last:
                boxes.append(_figure(row, Rect(right, top, measures.figures, measures.row), metrics))
        y += measures.head + len(block.rows) * measures.row + 2 + UNIT
    return Placed(tuple(boxes), max(0.0, y - UNIT - area.y))


def _ends(ends: tuple[str, str], over: Rect, metrics: Metrics) -> Iterator[Box]:
    """What stands over the first and the last column of a band."""
    small = metrics.font(TextSetting.SMALL)
    for text, x in ((ends[0], over.x), (ends[1], over.right - width(small, ends[1]))):
        if text:
            rect = Rect(x, over.y, width(small, text), small.line_height)
            yield Box(rect, lines=set_lines([text], small, x, over.y, Ink.MUTED))


def _column(column: MapColumn, rect: Rect, room: Rect, measures: _Measures, metrics: Metrics) -> Box:
    """The number over a chip for each row."""
    style = metrics.font(TextSetting.SMALL_STRONG if column.selected else TextSetting.SMALL)
    along = rect.x + (rect.width - width(style, column.head)) / 2
    lines: list[Line] = [*set_lines([column.head], style, along, rect.y + 3)]
    chips: list[Chip] = []
    for number, cell in enumerate(column.cells):
        top = rect.y + measures.head + number * measures.row
        band = Rect(rect.x + 2, top + 2, rect.width - 4, measures.row - 4)
        lines += _letters(cell, band, metrics)
        if cell.tone is not Tone.MUTED:
            size = _DOT * metrics.scale
            dot = Rect(band.right - size, band.y - 1, size, size) if cell.dotted else None
            chips.append(Chip(band, TONE_INKS[cell.tone], cell.solid, dot))
    return Box(
        rect,
        BoxKind.COLUMN,
        tuple(lines),
        action=column.action,
        selected=column.selected,
        focused=bool(column.action) and column.action == metrics.focus,
        chips=tuple(chips),
        tip=place_tip(column.tip, rect, room, metrics) if column.tip else None,
    )


def _letters(cell: MapCell, band: Rect, metrics: Metrics) -> tuple[Line, ...]:
    style = metrics.font(TextSetting.SMALL_STRONG)
    x = band.x + (band.width - width(style, cell.badge)) / 2
    top = band.y + (band.height - style.line_height) / 2
    return set_lines([cell.badge], style, x, top, band_ink(cell.tone, solid=cell.solid))


def _name(row: MapRow, rect: Rect, metrics: Metrics, first: bool) -> Box:
    style, action = metrics.font(TextSetting.SMALL), row.action if first else None
    text = ellipsise(style, row.name, rect.width)
    top = rect.y + (rect.height - style.line_height) / 2
    lines = set_lines([text], style, rect.x, top, Ink.ACCENT if action else Ink.MUTED)
    kind = BoxKind.QUIET if action else BoxKind.PLAIN
    return Box(rect, kind, lines, action=action, focused=bool(action) and action == metrics.focus)


def _figure(row: MapRow, rect: Rect, metrics: Metrics) -> Box:
    style = metrics.font(TextSetting.SMALL_STRONG)
    x, top = rect.right - width(style, row.figure) - 1, rect.y + (rect.height - style.line_height) / 2
    return Box(rect, lines=set_lines([row.figure], style, x, top))
