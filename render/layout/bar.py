"""The bar along the top: the way back, the title and the place, and the buttons of the screen."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from render.layout.boxes import UNIT, Box, BoxKind, Ink, Panel, Rect, Sign, WindowPart
from render.layout.buttons import (
    LARGE_TEXT,
    LINK_PADDING,
    PADDING,
    Metrics,
    Placed,
    flow_buttons,
    natural_width,
    place_button,
    set_lines,
)
from render.text.typesetting import TextSetting, ellipsise, width
from tutor.ui.view import Button, Chevron, View

_PAD = 2 * UNIT
BAR_HEIGHT = 48.0


def place_bar(view: View, wide: float, high: float, metrics: Metrics) -> Panel:
    """The bar, with smaller text where at the wished scale it would crowd out the rest."""
    scale = metrics.scale
    while True:
        bar = _at_scale(view, wide, replace(metrics, scale=scale))
        if bar.content <= 0.2 * high or scale <= 1.0:
            return replace(bar, rect=replace(bar.rect, height=min(bar.content, 0.3 * high)))
        scale = max(1.0, scale - 0.1)


def _at_scale(view: View, wide: float, metrics: Metrics) -> Panel:
    """The bar at this scale: the way back, title and place at the left, the other buttons at the right.

    Names of keys are there as long as they leave the title its room. Then what lies under More too gives way,
    but for what has the focus.
    """
    plain = [replace(button, key="") for button in view.bar]
    under_more = {button.action for button in view.more} - {metrics.focus}
    least = [button for button in plain if button.action not in under_more]
    keyed = replace(metrics, keyed=True)
    for buttons in (view.bar, plain):
        bar = _bar_with(buttons, view, wide, keyed)
        whole = not view.title or any(line.text == view.title for box in bar.boxes for line in box.lines)
        if whole and bar.content <= _bar_height(metrics):
            return bar
    return _bar_with(least, view, wide, keyed)


def _bar_height(metrics: Metrics) -> float:
    """How high one row of the bar is."""
    return max(BAR_HEIGHT, round(36.0 * metrics.scale))


def _bar_with(buttons: Sequence[Button], view: View, wide: float, metrics: Metrics) -> Panel:
    """The bar with these buttons.

    Where they do not fit beside each other, all but the way back have rows of their own.
    """
    high = _bar_height(metrics)
    back = [button for button in buttons if button.chevron is Chevron.BACK]
    others = [button for button in buttons if button.chevron is not Chevron.BACK]
    left: list[Box] = []
    x = _PAD - (LINK_PADDING if back else PADDING)
    for button in back:
        left.append(_place_bar_button(button, x, high, metrics))
        x = left[-1].rect.right
    right = [_place_bar_button(button, 0.0, high, metrics) for button in others]
    start = wide - (_PAD - PADDING) - sum(box.rect.width for box in right)
    below = Placed((), 0.0)
    if start < x + UNIT:
        area = Rect(_PAD - PADDING, high, wide - 2 * (_PAD - PADDING), 0)
        below = flow_buttons(others, area, replace(metrics, buttons=BoxKind.QUIET))
        right, start = [], wide - _PAD
    named = _place_title(view, Rect(x, 0, start - x, high), metrics, divided=bool(back))
    for box in right:
        left.append(box.moved(start, 0.0))
        start += box.rect.width
    height = high + (below.height + UNIT if below.boxes else 0.0)
    return Panel(WindowPart.BAR, Rect(0, 0, wide, height), (*left, *named, *below.boxes), height)


def _place_bar_button(button: Button, x: float, high: float, metrics: Metrics) -> Box:
    """A button of the bar, with its chevron before or after the label."""
    kind = BoxKind.LINK if button.chevron is Chevron.BACK else BoxKind.QUIET
    style = replace(metrics, buttons=kind)
    size = round(0.7 * metrics.font(TextSetting.BODY).size) if button.chevron is not Chevron.NONE else 0
    room = size + UNIT / 2 if size else 0.0
    wide = natural_width(button, style)
    before = button.chevron is Chevron.BACK
    row = Rect(x + (room if before else 0.0), UNIT, wide, high - 2 * UNIT)
    box = place_button(button, row, style)
    # Between two steps of the grid a button is a little higher than its row.
    box = box.moved(0.0, (high - box.rect.height) / 2 - box.rect.y)
    rect = Rect(x, box.rect.y, wide + room, box.rect.height)
    along = rect.x + LINK_PADDING if before else rect.right - PADDING - size
    sign = Sign(Rect(along, rect.y + (rect.height - size) / 2, size, size), button.chevron.value, Ink.TEXT)
    signs = (replace(sign, ink=Ink.ACCENT) if before else sign,) if size else ()
    return replace(box, rect=rect, signs=signs)


def _place_title(view: View, room: Rect, metrics: Metrics, *, divided: bool) -> list[Box]:
    """The title, and the place beside it where there is room for the whole of it."""
    boxes: list[Box] = []
    style, small = metrics.font(TextSetting.BAR), metrics.font(TextSetting.SMALL)
    x = room.x + (UNIT if divided else PADDING)
    if divided:
        boxes.append(Box(Rect(x, room.height / 4, 1, room.height / 2), BoxKind.RULE))
        x += 2 * UNIT
    along = width(small, view.place) + 1 if view.place else 0.0
    # Where text is large, the place stands here alone, so that the title gives way to it.
    kept = along + PADDING + 1 if metrics.scale >= LARGE_TEXT else 0.0
    title = ellipsise(style, view.title, max(0.0, room.right - UNIT - x - kept))
    top = (room.height - style.line_height) / 2
    if title:
        wide = width(style, title) + 1
        boxes.append(Box(Rect(x, top, wide, style.line_height), lines=set_lines([title], style, x, top)))
        x += wide + PADDING
    if view.place and title and x + along <= room.right - UNIT:
        # On one base line with the title.
        y = top + style.baseline - small.baseline
        lines = set_lines([view.place], small, x, y, Ink.MUTED)
        boxes.append(Box(Rect(x, y, along, small.line_height), lines=lines))
    return boxes
