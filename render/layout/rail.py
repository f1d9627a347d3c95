"""The rail: five bays with the turns of the route, the learner's own turns beneath, and the controls."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from render.layout.blocks import MARK_INKS
from render.layout.boxes import UNIT, Box, BoxKind, Ink, Line, Panel, Place, Playhead, Rect, Sign
from render.layout.buttons import GAP, Metrics, flow_buttons, row_height, set_lines
from render.text.typesetting import TextSetting, ellipsise, width
from tutor.ui.view import Action, Bay, BayState, Mark, Rail, Tile

PAD = 2 * UNIT
_TILE_GAP = 4.0
_LEAST_TILE = 26.0
_BAY_PAD = 6.0
STATE_ICONS = {BayState.DONE: "done", BayState.CURRENT: "current", BayState.AHEAD: "ahead"}


@dataclass(frozen=True, slots=True)
class _Strip:
    """Placed tiles with the spans of the turns for the playhead."""

    boxes: tuple[Box, ...]
    spans: tuple[tuple[float, float], ...]


def tile_height(metrics: Metrics) -> float:
    """Height of a tile: a good target, growing with the text."""
    return max(32.0, metrics.font(TextSetting.STRONG).line_height + 4)


def tile_width(metrics: Metrics, marked: bool) -> float:
    """Width of a tile that is not squeezed; a tile with a sign is wider."""
    size = metrics.font(TextSetting.STRONG).size
    return round(max(34.0, (2.8 if marked else 1.9) * size + 4))


def place_tile(tile: Tile, rect: Rect, metrics: Metrics) -> Box:
    """A turn on the rail with its label and, where it has been judged, its sign before it."""
    style = metrics.font(TextSetting.STRONG if tile.current or tile.played else TextSetting.BODY)
    signed = tile.mark is not Mark.NONE
    size = round(0.8 * style.size) if signed else 0
    indent = size + 3 if signed else 0
    label = ellipsise(style, tile.label, rect.width - 4 - indent)
    left = rect.x + (rect.width - width(style, label) - indent) / 2
    sign = Sign(
        Rect(left, rect.y + (rect.height - size) / 2, size, size), tile.mark.value, MARK_INKS[tile.mark]
    )
    ink = Ink.ON_ACCENT if tile.current and not signed else Ink.TEXT if tile.played or signed else Ink.MUTED
    top = rect.y + (rect.height - style.line_height) / 2
    return Box(
        rect,
        BoxKind.TILE,
        set_lines([label], style, left + indent, top, ink),
        (sign,) if signed else (),
        action=tile.action,
        played=tile.played,
        selected=tile.current,
        primary=tile.current and not signed,
        focused=bool(tile.action) and tile.action == metrics.focus,
    )


# ------------------------------------------------------------------------------------------------ bays


def _bay_widths(bays: Sequence[Bay], available: float, metrics: Metrics) -> list[float]:
    """Widths of the bays: what title and tiles need, the rest shared alike; tiles give way first."""
    room = available - GAP * (len(bays) - 1)
    title = metrics.font(TextSetting.SMALL_STRONG)
    titles = [width(title, bay.title) + 0.85 * title.size + 8 for bay in bays]

    def needs(tile: float, titled: bool) -> list[float]:
        tiles = (max(len(bay.tiles), 1) * (tile + _TILE_GAP) - _TILE_GAP for bay in bays)
        return [
            max(wide, name if titled else 0.0) + 2 * _BAY_PAD
            for wide, name in zip(tiles, titles, strict=True)
        ]

    ideal = needs(tile_width(metrics, False), True)
    for least in (ideal, needs(_LEAST_TILE, True), needs(_LEAST_TILE, False)):
        slack = room - sum(least)
        if slack >= 0:
            wish = [max(0.0, full - low) for full, low in zip(ideal, least, strict=True)]
            if sum(wish) > slack:
                return [low + extra * slack / sum(wish) for low, extra in zip(least, wish, strict=True)]
            return [low + slack / len(bays) for low in least]
    return [room * low / sum(least) for low in least]


def _place_bay(bay: Bay, rect: Rect, metrics: Metrics) -> _Strip:
    style = metrics.font(TextSetting.SMALL_STRONG)
    size = round(0.85 * style.size)
    ink = (
        Ink.MUTED
        if bay.state is BayState.AHEAD
        else Ink.ACCENT
        if bay.state is BayState.CURRENT
        else Ink.TEXT
    )
    left, top = rect.x + _BAY_PAD, rect.y + 4
    sign = Sign(Rect(left, top + (style.line_height - size) / 2, size, size), STATE_ICONS[bay.state], ink)
    title = ellipsise(style, bay.title, rect.width - 2 * _BAY_PAD - size - 5)
    frame = Box(
        rect,
        BoxKind.BAY,
        set_lines([title], style, left + size + 5, top, ink),
        (sign,),
        selected=bay.state is BayState.CURRENT,
        played=bay.state is BayState.DONE,
    )
    count = len(bay.tiles)
    if not count:
        return _Strip((frame,), ())
    wide = min(tile_width(metrics, False), (rect.width - 2 * _BAY_PAD + _TILE_GAP) / count - _TILE_GAP)
    row = Rect(left, top + style.line_height + 4, wide, tile_height(metrics))
    tiles = [
        place_tile(tile, row.moved(index * (wide + _TILE_GAP), 0), metrics)
        for index, tile in enumerate(bay.tiles)
    ]
    return _Strip((frame, *tiles), tuple((box.rect.x, box.rect.right) for box in tiles))


def place_bays(bays: Sequence[Bay], x: float, y: float, available: float, metrics: Metrics) -> _Strip:
    """The five steps side by side, as wide as their turns ask for."""
    height = metrics.font(TextSetting.SMALL_STRONG).line_height + tile_height(metrics) + 14
    boxes: list[Box] = []
    spans: list[tuple[float, float]] = []
    for bay, wide in zip(bays, _bay_widths(bays, available, metrics), strict=True):
        strip = _place_bay(bay, Rect(x, y, wide, height), metrics)
        boxes += strip.boxes
        spans += strip.spans
        x += wide + GAP
    return _Strip(tuple(boxes), tuple(spans))


# -------------------------------------------------------------------------------------------- own turns


def _window(tiles: Sequence[Tile], capacity: int, focus: Action | None) -> tuple[int, int]:
    """Which of the learner's tiles are shown: those round the one with the focus or else the current one.

    Without either they are the last ones. The focus must be seen wherever it goes (WCAG 2.2, 2.4.7).
    """
    count = len(tiles)
    if count <= capacity:
        return 0, count
    focused = (index for index, tile in enumerate(tiles) if focus and tile.action == focus)
    current = next((index for index, tile in enumerate(tiles) if tile.current), count - 1)
    current = next(focused, current)
    start = min(max(0, current - capacity * 2 // 3), count - capacity)
    return start, start + capacity


def _paths(boxes: Sequence[Box]) -> list[Box]:
    """The line behind the tiles, which steps down where a turn leaves the rail and up where it returns."""
    pieces: list[Box] = []
    for before, after in pairwise(boxes):
        start, end = before.rect, after.rect
        first, second = start.y + start.height / 2, end.y + end.height / 2
        bend = (start.right + end.x) / 2
        pieces.append(Box(Rect(start.right, first - 1, bend - start.right, 2), BoxKind.PATH))
        if first != second:
            pieces.append(
                Box(Rect(bend - 1, min(first, second) - 1, 2, abs(first - second) + 2), BoxKind.PATH)
            )
        pieces.append(Box(Rect(bend, second - 1, end.x - bend, 2), BoxKind.PATH))
    return pieces


def place_own(
    tiles: Sequence[Tile], x: float, y: float, available: float, metrics: Metrics
) -> tuple[_Strip, int]:
    """The learner's turns and the number of the first one shown. Off-rail tiles lie one step lower."""
    wide, marks = tile_width(metrics, True), metrics.font(TextSetting.STRONG)
    dots = width(marks, "…") + _TILE_GAP
    gap = 2 * _TILE_GAP
    capacity = max(1, int((available - 2 * dots + gap) // (wide + gap)))
    start, end = _window(tiles, capacity, metrics.focus)
    step = off_rail_step(metrics)
    left = x + (dots if start else 0.0)
    boxes = [
        place_tile(
            tile,
            Rect(left + i * (wide + gap), y + (step if tile.off_rail else 0), wide, tile_height(metrics)),
            metrics,
        )
        for i, tile in enumerate(tiles[start:end])
    ]
    more: list[Box] = []
    top = y + (tile_height(metrics) - marks.line_height) / 2
    if start:
        more.append(_dots(x, top, dots - _TILE_GAP, metrics))
    if end < len(tiles) and boxes:
        more.append(_dots(boxes[-1].rect.right + _TILE_GAP, top, dots - _TILE_GAP, metrics))
    spans = tuple((box.rect.x, box.rect.right) for box in boxes)
    return _Strip((*_paths(boxes), *boxes, *more), spans), start


def _dots(x: float, y: float, wide: float, metrics: Metrics) -> Box:
    style = metrics.font(TextSetting.STRONG)
    line = Line(x, y + style.baseline, "…", style, Ink.MUTED)
    return Box(Rect(x, y, wide + 0.5, style.line_height), lines=(line,))


def off_rail_step(metrics: Metrics) -> float:
    """How much lower a turn lies that left the rail."""
    return round(UNIT * metrics.scale)


# ------------------------------------------------------------------------------------------------ whole


@dataclass(frozen=True, slots=True)
class _Lower:
    """What is beneath the bays, and where it ends."""

    boxes: tuple[Box, ...]
    bottom: float
    strip: _Strip
    first: int


def _captions(rail: Rail, room: float, metrics: Metrics) -> tuple[Box, ...]:
    """What is said beside the turns, in the middle of a row at y 0: a slot lifted, the caption."""
    boxes: list[Box] = []
    x = 0.0
    for text, setting, ink in (
        (rail.lifted, TextSetting.SMALL_STRONG, Ink.ACCENT),
        (rail.caption, TextSetting.SMALL, Ink.MUTED),
    ):
        style = metrics.font(setting)
        said = ellipsise(style, text, max(room - x, 0.0))
        if said:
            top = (row_height(metrics) - style.line_height) / 2
            lines = set_lines([said], style, x, top, ink)
            boxes.append(Box(Rect(x, top, width(style, said) + 1, style.line_height), lines=lines))
            x = boxes[-1].rect.right + 2 * UNIT
    return tuple(boxes)


def _lower_height(metrics: Metrics) -> float:
    """Room for own turns on the rail and off it; kept without any, so that the stage stays in place."""
    return tile_height(metrics) + off_rail_step(metrics)


def _place_lower(rail: Rail, area: Rect, metrics: Metrics) -> _Lower:
    """The learner's turns, to their right the caption and the controls; these go below when they are wide."""
    controls = flow_buttons(rail.controls, Rect(area.x, 0, area.width, 0), metrics)
    used = max((box.rect.right + 2 * UNIT for box in controls.boxes), default=area.x) - area.x
    captions = _captions(rail, min(0.4 * area.width, area.width - used), metrics)
    said = captions[-1].rect.right + 2 * UNIT if captions else 0.0
    beside = not rail.own or used + said <= 0.6 * area.width
    if not beside:
        captions = _captions(rail, area.width - used, metrics)
    own = area.width - used - said if beside else area.width
    strip, first = place_own(rail.own, area.x, area.y, own, metrics)
    y = area.y if beside else area.y + _lower_height(metrics) + 4
    across = area.right - used - said + 2 * UNIT if beside else area.x
    moved = [box.moved(area.width - used + 2 * UNIT, y) for box in controls.boxes]
    bottom = max(area.y + _lower_height(metrics), y + controls.height)
    words = [box.moved(across, y) for box in captions]
    return _Lower((*strip.boxes, *words, *moved), bottom, strip, first)


def place_rail(rail: Rail, width_: float, metrics: Metrics) -> tuple[Panel, Playhead | None]:
    """The rail at the top left of nowhere: y from 0, to be moved to its place at the window's foot."""
    area = Rect(PAD, PAD * 0.75, width_ - 2 * PAD, 0)
    boxes: list[Box] = []
    top = area.y
    route = _Strip((), ())
    if rail.bays:
        route = place_bays(rail.bays, area.x, top, area.width, metrics)
        boxes += route.boxes
        top = max(box.rect.bottom for box in route.boxes) + GAP
    lower = _place_lower(rail, Rect(area.x, top, area.width, 0), metrics)
    boxes += lower.boxes
    height = lower.bottom + PAD * 0.75
    panel = Panel(Place.RAIL, Rect(0, 0, width_, height), tuple(boxes), height)
    strip = route if rail.scrubs_route else lower.strip
    return panel, _playhead(rail, strip, 0 if rail.scrubs_route else lower.first)


def _playhead(rail: Rail, strip: _Strip, first: int) -> Playhead | None:
    if rail.playhead is None or not strip.spans:
        return None
    tops = [box.rect for box in strip.boxes if box.kind is BoxKind.TILE]
    top, bottom = min(rect.y for rect in tops) - 4, max(rect.bottom for rect in tops) + 4
    area = Rect(strip.spans[0][0] - 4, top, strip.spans[-1][1] - strip.spans[0][0] + 8, bottom - top)
    return Playhead(area, first, strip.spans, rail.playhead)
