"""Plots in rows: title, what goes up, the picture, marks on both axes, and the gist in words."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from msgspec import Struct
from msgspec.structs import replace

from render.layout.boxes import UNIT, Box, BoxKind, Drawing, Ink, Line, Rect
from render.layout.buttons import Metrics, Placed, set_lines
from render.layout.rows import fitting, place_rows
from render.text.typesetting import TextSetting, width, wrap
from tutor.ui.plots import Plot

_LEAST, _HIGH = 250.0, 96.0
"""Least width of a plot and height of its picture, at a text scale of 100 %."""
_PAD = 12.0
_BAR = 0.62
"""Share of the room between two bars that a bar fills."""


class _Area(Struct, frozen=True):
    """Where the figures are drawn, and what its edges stand for."""

    rect: Rect
    left: float
    right: float
    top: float

    def x(self, value: float) -> float:
        """Where a figure of the lower axis lies."""
        return self.rect.x + (value - self.left) / max(self.right - self.left, 1e-9) * self.rect.width

    def y(self, value: float) -> float:
        """Where a figure of the upright axis lies; what is beyond its end lies at its end."""
        share = min(1.0, max(0.0, value / self.top)) if self.top > 0 else 0.0
        return self.rect.bottom - share * self.rect.height


def place_plot(plot: Plot, rect: Rect, metrics: Metrics) -> Box:
    """A plot of the rectangle's place and width, as high as its words need and no lower than it."""
    strong, small = metrics.font(TextSetting.SMALL_STRONG), metrics.font(TextSetting.SMALL)
    inner, left, y = rect.width - 2 * _PAD, rect.x + _PAD, rect.y + _PAD
    lines: list[Line] = []
    for style, text, ink in ((strong, plot.title, Ink.TEXT), (small, plot.unit, Ink.MUTED)):
        wrapped = wrap(style, text, inner) if text else ()
        lines += set_lines(wrapped, style, left, y, ink)
        y += len(wrapped) * style.line_height
    area = _area(plot, Rect(left, y, inner, round(_HIGH * metrics.scale)), metrics)
    drawing, marks = _drawn(plot, area, metrics)
    lines += marks
    y = area.rect.bottom + 4 + small.line_height
    for text, ink in ((plot.below, Ink.MUTED), (plot.told, Ink.TEXT)):
        wrapped = wrap(small, text, inner) if text else ()
        lines += set_lines(wrapped, small, left, y, ink)
        y += len(wrapped) * small.line_height
    height = max(rect.height, y + _PAD - rect.y)
    return Box(replace(rect, height=height), BoxKind.PLOT, tuple(lines), drawing=drawing)


def _area(plot: Plot, rect: Rect, metrics: Metrics) -> _Area:
    """The room for figures in a rectangle: the marks of the upright axis stand to its left."""
    small = metrics.font(TextSetting.SMALL)
    beside = max((width(small, text) for _, text in plot.up), default=0.0)
    beside += UNIT if beside else 0.0
    top = max((value for value, _ in plot.up), default=0.0) or max((y for _, y in plot.points), default=1.0)
    places = [value for value, _ in plot.across] or [0.0, 1.0]
    # Half a line above: the uppermost mark, and the figure over the highest bar.
    above = small.line_height * (1.0 if plot.bars else 0.5)
    inside = Rect(rect.x + beside, rect.y + above, rect.width - beside, rect.height - above)
    half = 0.5 if plot.bars or min(places) == max(places) else 0.0
    return _Area(inside, min(places) - half, max(places) + half, top)


def _drawn(plot: Plot, area: _Area, metrics: Metrics) -> tuple[Drawing, tuple[Line, ...]]:
    """What is drawn, and the words at the axes and over bars."""
    small = metrics.font(TextSetting.SMALL)
    lines: list[Line] = []
    for value, text in plot.up:
        left = area.rect.x - UNIT - width(small, text)
        lines += set_lines([text], small, left, area.y(value) - small.line_height / 2, Ink.MUTED)
    lines += _across(plot, area, metrics)
    rules = [Rect(area.rect.x, area.y(value), area.rect.width, 1) for value, _ in plot.up or ((0.0, ""),)]
    if not plot.bars:
        dots = tuple((area.x(x), area.y(y)) for x, y in plot.points)
        return Drawing(tuple(rules), dots=dots), tuple(lines)
    bars, wide = [], _BAR * (area.x(1.0) - area.x(0.0))
    for x, y in plot.points:
        top = area.y(y)
        bars.append(Rect(area.x(x) - wide / 2, top, wide, area.rect.bottom - top))
        figure = f"{y:g}"
        middle = area.x(x) - width(small, figure) / 2
        lines += set_lines([figure], small, middle, top - small.line_height)
    return Drawing(tuple(rules), tuple(bar for bar in bars if bar.height > 0)), tuple(lines)


def _across(plot: Plot, area: _Area, metrics: Metrics) -> tuple[Line, ...]:
    """The words under the lower axis; the first and the last always, of the others those with room."""
    small = metrics.font(TextSetting.SMALL)
    places: list[tuple[float, float, str]] = []
    for value, text in plot.across:
        wide = width(small, text)
        left = min(max(area.x(value) - wide / 2, area.rect.x), area.rect.right - wide)
        places.append((left, left + wide, text))
    kept: list[tuple[float, float, str]] = []
    for place in places[:1] + places[:0:-1][:1] + places[1:-1]:
        if all(place[1] + UNIT <= other[0] or place[0] >= other[1] + UNIT for other in kept):
            kept.append(place)
    top = area.rect.bottom + 4
    return tuple(line for left, _, text in kept for line in set_lines([text], small, left, top, Ink.MUTED))


def place_plots(plots: Sequence[Plot], area: Rect, metrics: Metrics) -> Placed:
    """As many plots side by side as fit, all of one width; a row shares its height."""
    count = min(fitting(area.width, _LEAST * metrics.scale), max(1, len(plots)))
    return place_rows(plots, area, count, partial(place_plot, metrics=metrics))
