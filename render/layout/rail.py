"""The rail, a strip under the stage: names of the steps, the line with its turns, detours one row lower.

With large text it shows the step under way and the last turns alone, and keeps its height.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace

from render import words
from render.layout.blocks import MARK_INKS
from render.layout.boxes import UNIT, Box, BoxKind, Ink, Panel, Playhead, Rect, Sign, WindowPart
from render.layout.buttons import LARGE_TEXT, Metrics, set_lines
from render.layout.rail_cells import DOTS, RailCell, RailCells, compares, cut_out, grouped, window
from render.text.typesetting import TextSetting, ellipsise, width
from tutor.ui.view import Bay, BayState, Mark, Rail, Tile

RAIL_HEIGHT = 72.0
ROW = RAIL_HEIGHT / 3
NAMES = ROW - 3
"""The height of the row of names; the rest is free below the lowest turns, which would touch the edge."""
PAD = 2 * UNIT
ROWS_GROW = 1.25
"""How far text grows in rows that do not."""
_GAP = UNIT
_BAY_PAD = UNIT
_LEAST_TILE = 26.0
_MOST_SAID = 0.3
"""The part of the rail that what is said beside the turns may take."""
_DROP = 18.0
"""How much lower a turn lies that left the rail, where the text is large."""
STATE_ICONS = {BayState.DONE: "done", BayState.CURRENT: "current", BayState.AHEAD: "ahead"}
STATE_INKS = {BayState.DONE: Ink.TEXT, BayState.CURRENT: Ink.ACCENT, BayState.AHEAD: Ink.MUTED}
LINE_INKS = {BayState.DONE: Ink.TEXT, BayState.CURRENT: Ink.ACCENT, BayState.AHEAD: Ink.DISABLED}


class _Measures(Struct, frozen=True):
    """How tiles are drawn: their size, the setting of their text, and where the two rows begin."""

    wide: float
    high: float
    setting: TextSetting
    upper: float
    lower: float


class _Strip(Struct, frozen=True):
    """Placed tiles, with the spans of the turns that the playhead runs over and the number of the first."""

    boxes: tuple[Box, ...] = ()
    spans: tuple[tuple[float, float], ...] = ()
    first: int = 0


def place_tile(tile: Tile, rect: Rect, metrics: Metrics, setting: TextSetting = TextSetting.TILE) -> Box:
    """A turn on the rail with its label and, where it has been judged, its sign before it."""
    style = metrics.font(setting)
    signed = tile.mark is not Mark.NONE
    size = round(0.85 * style.size) if signed else 0
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


# ------------------------------------------------------------------------------------------------ rows


def _title_width(bay: Bay, metrics: Metrics) -> float:
    style = metrics.font(TextSetting.SMALL_STRONG)
    return width(style, bay.title) + round(0.85 * style.size) + 5 if bay.title else 0.0


def _bay_widths(
    bays: Sequence[Bay], cells: Sequence[Sequence[RailCell]], tile: float, metrics: Metrics
) -> list[float]:
    """A bay is as wide as its tiles, and no narrower than its name."""
    return [
        max(_title_width(bay, metrics), len(inside) * (tile + _GAP) - _GAP) + 2 * _BAY_PAD
        for bay, inside in zip(bays, cells, strict=True)
    ]


def _fitted(
    bays: Sequence[Bay], cells: RailCells, room: float, measures: _Measures, metrics: Metrics
) -> tuple[RailCells, _Measures, int]:
    """Cells and measures with which the bays fit: tiles give way first, then those far from the current."""
    room -= _GAP * (len(bays) - 1)
    marked = any(tile.mark is not Mark.NONE for bay in cells for cell in bay for tile in cell.tiles)
    least = measures.wide if marked else _LEAST_TILE
    flat = [cell for bay in cells for cell in bay]
    for tile in (measures.wide, (measures.wide + least) / 2, least):
        if sum(_bay_widths(bays, cells, tile, metrics)) <= room:
            return cells, replace(measures, wide=tile), 0
    for count in range(min(len(flat), int(room // (least + _GAP))), 0, -1):
        start, end = window(flat, count, metrics.focus)
        kept = cut_out(cells, start, end)
        if sum(_bay_widths(bays, kept, least, metrics)) <= room:
            return kept, replace(measures, wide=least), start
    return tuple(() for _ in bays), replace(measures, wide=least), 0


def _place_title(bay: Bay, rect: Rect, metrics: Metrics) -> Box:
    """A bay with its sign and name; the one under way has a ground."""
    style, ink = metrics.font(TextSetting.SMALL_STRONG), STATE_INKS[bay.state]
    size = round(0.85 * style.size)
    left, top = rect.x + _BAY_PAD, (NAMES - style.line_height) / 2 + 2
    sign = Sign(Rect(left, top + (style.line_height - size) / 2, size, size), STATE_ICONS[bay.state], ink)
    title = ellipsise(style, bay.title, rect.width - _BAY_PAD - size - 5)
    return Box(
        rect,
        BoxKind.BAY,
        set_lines([title], style, left + size + 5, top, ink),
        (sign,),
        selected=bay.state is BayState.CURRENT,
        played=bay.state is BayState.DONE,
    )


def _place_cell(
    cell: RailCell, x: float, measures: _Measures, compared: bool, metrics: Metrics
) -> Iterator[Box]:
    """The tiles of a cell; where route and own turns are compared, those that differ are outlined."""
    alike = bool(cell.route and cell.own and cell.route.label == cell.own.label)
    for tile, is_own in ((cell.route, False), (cell.own, True)):
        if tile is None:
            continue
        lower = is_own if compared else tile.off_rail
        rect = Rect(x, measures.lower if lower else measures.upper, measures.wide, measures.high)
        if tile is DOTS:
            yield place_tile(tile, rect, metrics, measures.setting)
        elif compared:
            shown = replace(tile, mark=Mark.NONE, current=False, played=is_own or not alike)
            yield replace(place_tile(shown, rect, metrics, measures.setting), outlined=not alike)
        else:
            yield place_tile(tile, rect, metrics, measures.setting)


def _paths(boxes: Sequence[Box]) -> list[Box]:
    """The line behind own tiles, which steps down where a turn leaves the rail and up where it returns."""
    pieces: list[Box] = []
    for before, after in pairwise(boxes):
        start, end = before.rect, after.rect
        first, second = start.y + start.height / 2, end.y + end.height / 2
        bend = (start.right + end.x) / 2
        ink = Ink.WARNING if first != second or first > boxes[0].rect.bottom else Ink.MUTED
        pieces.append(Box(Rect(start.right, first - 1, bend - start.right, 2), BoxKind.PATH, ink=ink))
        if first != second:
            high = Rect(bend - 1, min(first, second) - 1, 2, abs(first - second) + 2)
            pieces.append(Box(high, BoxKind.PATH, ink=ink))
        pieces.append(Box(Rect(bend, second - 1, end.x - bend, 2), BoxKind.PATH, ink=ink))
    return pieces


def _measures(rail: Rail, metrics: Metrics) -> _Measures:
    """Turns that are shown have large tiles over both rows; the learner's stand on the line and below it."""
    size = metrics.font(TextSetting.TILE).size
    if compares(rail):
        return _Measures(2.9 * size, ROW, TextSetting.TILE, NAMES, NAMES + ROW)
    if any(tile.mark is not Mark.NONE for tile in rail.own):
        return _Measures(round(3.2 * size + 4), ROW, TextSetting.TILE, NAMES, NAMES + ROW)
    if rail.own and rail.bays:
        return _Measures(2.6 * size, ROW, TextSetting.TILE, NAMES, NAMES + ROW)
    high = ROW + UNIT
    top = NAMES + (2 * ROW - high) / 2
    return _Measures(48.0, high, TextSetting.SHOWN_TILE, top, top)


def _with_turns(bays: Sequence[Bay], groups: RailCells) -> tuple[tuple[Bay, ...], RailCells]:
    """The bays that have turns, with these."""
    kept = [number for number, inside in enumerate(groups) if inside]
    return tuple(bays[number] for number in kept), tuple(groups[number] for number in kept)


def _place_rows(rail: Rail, x: float, room: float, metrics: Metrics) -> _Strip:
    """The bays side by side with their cells, and the line through them."""
    bays, groups = rail.bays or (Bay("", BayState.AHEAD),), grouped(rail)
    cells, measures, start = _fitted(bays, groups, room, _measures(rail, metrics), metrics)
    if start and compares(rail):
        # The turns that are compared come before the names of steps that have none.
        bays, groups = _with_turns(bays, groups)
        cells, measures, start = _fitted(bays, groups, room, measures, metrics)
    titles: list[Box] = []
    tiles: list[tuple[RailCell, list[Box]]] = []
    for bay, inside, wide in zip(bays, cells, _bay_widths(bays, cells, measures.wide, metrics), strict=True):
        if bay.title:
            titles.append(_place_title(bay, Rect(x, 2, wide, RAIL_HEIGHT - 4), metrics))
            line = Rect(x, measures.upper + measures.high / 2 - 1, wide, 2)
            titles.append(Box(line, BoxKind.PATH, ink=LINE_INKS[bay.state]))
        for number, cell in enumerate(inside):
            left = x + _BAY_PAD + number * (measures.wide + _GAP)
            tiles.append((cell, list(_place_cell(cell, left, measures, compares(rail), metrics))))
        x += wide + _GAP
    counted = [cell for bay in groups for cell in bay][:start]
    first = sum((cell.route if rail.scrubs_route else cell.own) is not None for cell in counted)
    return _strip(titles, tiles, first, scrubs_route=rail.scrubs_route, compared=compares(rail))


def _strip(
    titles: list[Box],
    tiles: list[tuple[RailCell, list[Box]]],
    first: int,
    *,
    scrubs_route: bool,
    compared: bool,
) -> _Strip:
    """The boxes in the order of painting, and those among them that the playhead runs over."""
    boxes = [box for _, placed in tiles for box in placed]
    run = [
        placed[0] if scrubs_route else placed[-1]
        for cell, placed in tiles
        if (cell.route if scrubs_route else cell.own) not in (None, DOTS)
    ]
    paths = [] if compared or scrubs_route else _paths(run)
    return _Strip((*titles, *paths, *boxes), tuple((box.rect.x, box.rect.right) for box in run), first)


def _row_names(rail: Rail, metrics: Metrics) -> list[Box]:
    """What the rows of the route and of the learner are called, at the left of them."""
    boxes: list[Box] = []
    if compares(rail):
        for text, setting, row in zip(
            rail.row_names, (TextSetting.SMALL, TextSetting.SMALL_STRONG), (1, 2), strict=True
        ):
            style = metrics.font(setting)
            rect = Rect(PAD, NAMES + (row - 1) * ROW, width(style, text) + 1, ROW)
            top = rect.y + (ROW - style.line_height) / 2
            boxes.append(Box(rect, lines=set_lines([text], style, PAD, top)))
    return boxes


def _said(rail: Rail, wide: float, metrics: Metrics) -> list[Box]:
    """What is said at the right end: what is lifted or out in the row of names, the caption beneath."""
    boxes: list[Box] = []
    for text, setting, ink, middle in (
        (rail.unsettled, TextSetting.SMALL_STRONG, Ink.ACCENT, NAMES / 2 + 2),
        (rail.caption, TextSetting.SMALL, Ink.MUTED, NAMES + ROW / 2),
    ):
        style = metrics.font(setting)
        said = ellipsise(style, text, _MOST_SAID * wide)
        if said:
            along = width(style, said) + 1
            rect = Rect(wide - PAD - along, middle - style.line_height / 2, along, style.line_height)
            boxes.append(Box(rect, lines=set_lines([said], style, rect.x, rect.y, ink)))
    return boxes


# ----------------------------------------------------------------------------------------- large text


def _place_chip(bays: Sequence[Bay], right: float, metrics: Metrics) -> Box | None:
    """The step under way and which of the five it is, left of ``right``; the last one when all are done."""
    chosen = next((i for i, bay in enumerate(bays) if bay.state is BayState.CURRENT), None)
    if chosen is None and bays and bays[-1].state is BayState.DONE:
        chosen = len(bays) - 1
    if chosen is None:
        return None
    bay, strong, body = bays[chosen], metrics.font(TextSetting.SMALL_STRONG), metrics.font(TextSetting.SMALL)
    size = round(0.7 * strong.size)
    left = PAD + 2 * UNIT + size + UNIT
    title = ellipsise(strong, bay.title, right - 2 * UNIT - left)
    after = left + width(strong, title) + UNIT
    place = ellipsise(body, words.step_of(chosen + 1, len(bays)), right - 2 * UNIT - after)
    along = after + width(body, place) + 2 * UNIT - PAD
    rect = Rect(PAD, UNIT, min(along, right - PAD), RAIL_HEIGHT - 2 * UNIT)
    top = rect.y + (rect.height - strong.line_height) / 2
    sign = Rect(PAD + 2 * UNIT, rect.y + (rect.height - size) / 2, size, size)
    return Box(
        rect,
        BoxKind.BAY,
        (
            *set_lines([title], strong, left, top, STATE_INKS[bay.state]),
            *set_lines([place], body, after, top, Ink.MUTED),
        ),
        (Sign(sign, STATE_ICONS[bay.state], STATE_INKS[bay.state]),),
        selected=bay.state is BayState.CURRENT,
    )


def _place_summary(rail: Rail, wide: float, metrics: Metrics) -> _Strip:
    """The step under way and as many of the last turns as there is room for."""
    chip = _place_chip(rail.bays, wide - PAD, metrics)
    left = chip.rect.right + 2 * UNIT if chip else PAD
    size = metrics.font(TextSetting.SMALL_STRONG).size
    own = rail.own and not rail.scrubs_route
    flat = (
        tuple(RailCell(own=tile) for tile in rail.own)
        if own
        else tuple(RailCell(tile) for bay in rail.bays for tile in bay.tiles)
    )
    marked = any(tile.mark is not Mark.NONE for cell in flat for tile in cell.tiles)
    high = RAIL_HEIGHT - _DROP - UNIT
    measures = _Measures(
        round((3.4 if marked else 2.2) * size), high, TextSetting.SMALL_STRONG, UNIT / 2, _DROP + UNIT / 2
    )
    room = int((wide - PAD - left + _GAP) // (measures.wide + _GAP))
    start, end = window(flat, max(0, room), metrics.focus)
    tiles = [
        (cell, list(_place_cell(cell, left + i * (measures.wide + _GAP), measures, False, metrics)))
        for i, cell in enumerate(flat[start:end])
    ]
    return _strip([chip] if chip else [], tiles, start, scrubs_route=not own, compared=False)


# ------------------------------------------------------------------------------------------------ whole


def place_rail(rail: Rail, wide: float, metrics: Metrics) -> tuple[Panel, Playhead | None]:
    """The rail at the top left of nowhere, to be moved to its place; as high as ever."""
    rows = replace(metrics, scale=min(metrics.scale, ROWS_GROW))
    names = _row_names(rail, rows)
    left = max([PAD, *(box.rect.right + UNIT for box in names)])
    least = sum(_title_width(bay, rows) + 2 * _BAY_PAD + _GAP for bay in rail.bays)
    if metrics.scale >= LARGE_TEXT or left + least > wide - PAD:
        strip, more = _place_summary(rail, wide, metrics), []
    else:
        said = _said(rail, wide, rows)
        right = min([wide - PAD, *(box.rect.x - UNIT for box in said)])
        if left + least > right:
            # In a narrow rail the steps and turns come before what is said beside them.
            said, right = [], wide - PAD
        strip, more = _place_rows(rail, left, right - left, rows), [*names, *said]
    panel = Panel(WindowPart.RAIL, Rect(0, 0, wide, RAIL_HEIGHT), (*strip.boxes, *more), RAIL_HEIGHT)
    return panel, _playhead(rail, strip)


def _playhead(rail: Rail, strip: _Strip) -> Playhead | None:
    if rail.playhead is None or not strip.spans:
        return None
    tiles = [box.rect for box in strip.boxes if box.kind is BoxKind.TILE]
    top, bottom = min(rect.y for rect in tiles) - 3, max(rect.bottom for rect in tiles) + 3
    bottom = min(bottom, RAIL_HEIGHT - 2)
    area = Rect(strip.spans[0][0] - 4, top, strip.spans[-1][1] - strip.spans[0][0] + 8, bottom - top)
    return Playhead(area, strip.first, strip.spans, rail.playhead)
