"""Small cubes in rows, each with its name beneath."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from msgspec.structs import replace

from render.layout.boxes import UNIT, Box, BoxKind, Ink, Rect
from render.layout.buttons import TONE_INKS, Metrics, Placed, set_lines
from render.layout.rows import fitting, place_rows
from render.text.typesetting import TextSetting, ellipsise, width, wrap
from tutor.ui.view import Miniature

_CELL, _PICTURE = 160.0, 112.0
"""Least width of a cell and size of its cube, at a text scale of 100 %."""


def place_miniature(miniature: Miniature, rect: Rect, metrics: Metrics) -> Box:
    """One cube to press, as high as its name needs and no lower than the rectangle."""
    style, strong = metrics.font(TextSetting.SMALL), metrics.font(TextSetting.SMALL_STRONG)
    if miniature.selected:
        style = strong
    inner = rect.width - 2 * UNIT
    side = min(round(_PICTURE * metrics.scale), inner)
    picture = Rect(round(rect.x + (rect.width - side) / 2), rect.y + UNIT, side, side)
    top = picture.bottom + 4
    lines = list(set_lines(label := wrap(style, miniature.label, inner), style, 0, top))
    lines = [replace(line, x=rect.x + (rect.width - width(style, line.text)) / 2) for line in lines]
    if miniature.badge:
        badge = ellipsise(strong, miniature.badge, inner)
        left = rect.right - UNIT - width(strong, badge)
        ink = TONE_INKS[miniature.tone]
        lines += set_lines([badge], strong, left, rect.y + 4, Ink.ACCENT if ink is Ink.TEXT else ink)
    height = max(rect.height, top - rect.y + len(label) * style.line_height + UNIT)
    return Box(
        replace(rect, height=height),
        BoxKind.MINIATURE,
        tuple(lines),
        action=miniature.action,
        selected=miniature.selected,
        focused=bool(miniature.action) and miniature.action == metrics.focus,
        picture=picture,
        stage=miniature.stage,
    )


def place_miniatures(miniatures: Sequence[Miniature], area: Rect, metrics: Metrics) -> Placed:
    """As many side by side as fit, all of one width; a row shares its height."""
    count = fitting(area.width, _CELL * metrics.scale)
    return place_rows(miniatures, area, count, partial(place_miniature, metrics=metrics))
