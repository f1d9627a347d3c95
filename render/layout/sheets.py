"""Sheets that lie over the screen: one in the middle, and a small one of buttons under the bar."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from render.layout.blocks import first_column, place_blocks
from render.layout.boxes import UNIT, BoxKind, Panel, Rect, WindowPart
from render.layout.buttons import Metrics, Placed, natural_width
from tutor.ui.view import Block, Button, Table

TABLES_IN_COLUMNS = 4
"""From so many tables on, a sheet has two columns."""


def place_sheet(blocks: Sequence[Block], wide: float, high: float, metrics: Metrics) -> Panel:
    """A sheet in the middle, as high as what is on it where the window allows.

    Many tables stand in two columns where there is room for them.
    """
    tables = [block for block in blocks if isinstance(block, Table)]
    metrics = replace(metrics, first_column=first_column(tables, metrics))
    pad, gap = 4 * UNIT, 5 * UNIT
    most = wide - 4 * UNIT
    sheet = min(most, 760 * metrics.scale)
    column = (min(most, 1040 * metrics.scale) - 2 * pad - gap) / 2
    if (
        sum(isinstance(block, Table) for block in blocks) >= TABLES_IN_COLUMNS
        and column >= 340 * metrics.scale
    ):
        sheet = 2 * column + gap + 2 * pad
        placed = _in_two_columns(blocks, column, gap, metrics)
    else:
        placed = place_blocks(blocks, 0, 0, sheet - 2 * pad, metrics)
    height = min(placed.height + 2 * pad, high - 4 * UNIT)
    rect = Rect(round((wide - sheet) / 2), round((high - height) / 2), sheet, height)
    boxes = tuple(box.moved(rect.x + pad, rect.y + pad) for box in placed.boxes)
    return Panel(WindowPart.OVERLAY, rect, boxes, placed.height + 2 * pad)


def _in_two_columns(blocks: Sequence[Block], column: float, gap: float, metrics: Metrics) -> Placed:
    """What comes before the tables, the tables in two columns of about one height, and what comes after."""
    where = [number for number, block in enumerate(blocks) if isinstance(block, Table)]
    before, tables, after = blocks[: where[0]], blocks[where[0] : where[-1] + 1], blocks[where[-1] + 1 :]
    head = place_blocks(before, 0, 0, 2 * column + gap, metrics)
    top = head.height + UNIT if before else 0.0

    def split(count: int) -> tuple[Placed, Placed]:
        left = place_blocks(tables[:count], 0, top, column, metrics)
        return left, place_blocks(tables[count:], column + gap, top, column, metrics)

    left, right = min(map(split, range(1, len(tables))), key=lambda two: max(two[0].height, two[1].height))
    bottom = top + max(left.height, right.height) + 2 * UNIT
    foot = place_blocks(after, 0, bottom, 2 * column + gap, metrics)
    return Placed((*head.boxes, *left.boxes, *right.boxes, *foot.boxes), bottom + foot.height)


def place_menu(buttons: Sequence[Block], bar: Rect, high: float, metrics: Metrics) -> Panel:
    """A small sheet of buttons under the bar's right end."""
    pad = 2 * UNIT
    quiet = replace(metrics, buttons=BoxKind.QUIET, keyed=True)
    widest = max(natural_width(each, quiet) for each in buttons if isinstance(each, Button))
    wide = min(widest + 2 * pad, bar.width - 2 * UNIT)
    placed = place_blocks(buttons, 0, 0, wide - 2 * pad, quiet)
    height = min(placed.height + 2 * pad, high - bar.bottom - UNIT)
    rect = Rect(bar.width - UNIT - wide, bar.bottom, wide, height)
    boxes = tuple(box.moved(rect.x + pad, rect.y + pad) for box in placed.boxes)
    return Panel(WindowPart.OVERLAY, rect, boxes, placed.height + 2 * pad)
