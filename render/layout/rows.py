"""Things of one width side by side, row below row."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TypeVar

from msgspec.structs import replace

from render.layout.boxes import UNIT, Box, Rect
from render.layout.buttons import Placed

T = TypeVar("T")
GAP = 2 * UNIT


def fitting(width: float, least: float, gap: float = GAP) -> int:
    """How many things of the ``least`` width fit side by side, at least one."""
    return max(1, int((width + gap) // (least + gap)))


def place_rows(things: Sequence[T], area: Rect, count: int, place: Callable[[T, Rect], Box]) -> Placed:
    """``count`` things in a row, all of one width; a row shares the height of its tallest."""
    wide = (area.width - GAP * (count - 1)) / count
    boxes: list[Box] = []
    y = area.y
    for start in range(0, len(things), count):
        row = things[start : start + count]
        rects = [Rect(area.x + index * (wide + GAP), y, wide, 0) for index in range(len(row))]
        pairs = list(zip(row, rects, strict=True))
        tallest = max(place(each, rect).rect.height for each, rect in pairs)
        boxes += [place(each, replace(rect, height=tallest)) for each, rect in pairs]
        y += tallest + GAP
    return Placed(tuple(boxes), max(0.0, y - GAP - area.y))
