"""Where everything in the window goes: a pure function of the view and the window's size."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from render.layout.bar import place_bar
from render.layout.blocks import place_blocks
from render.layout.board import place_board
from render.layout.boxes import UNIT, Box, Ink, Panel, Playhead, Rect, Scene, WindowPart
from render.layout.buttons import LARGE_TEXT, Metrics, set_lines
from render.layout.card import card_width, place_card
from render.layout.net import NET_WIDTH
from render.layout.rail import RAIL_HEIGHT, place_rail
from render.layout.sheets import place_menu, place_sheet
from render.text.typesetting import TextSetting, ellipsise, width, wrap
from tutor.ui.view import Action, Block, Board, Button, ButtonRow, CaseMap, MiniatureGrid, Net, View

_PAD = 2 * UNIT
MOST_NOTICE = 0.5
"""The part of the stage that a notice over it may take."""


def layout(view: View, wide: float, high: float, pixel_ratio: float = 1.0) -> Scene:
    """The view laid out in a window of this size in logical px. Pure: it needs no window."""
    metrics = Metrics(view.look.text_scale, pixel_ratio, view.focus)
    bar = place_bar(view, wide, high, metrics)
    if view.board is not None and view.stage is not None:
        return _with_board(view, view.board, bar, high, metrics)
    area = Rect(0, bar.rect.bottom, wide, high - bar.rect.bottom)
    panels, stage, playhead = [bar], None, None
    if view.stage is None:
        panels += _with_page(view, area, metrics)
    else:
        placed, stage, playhead = _with_stage(view, area, metrics)
        panels += placed
    panels += _over(view, bar.rect, high, metrics)
    return Scene(wide, high, _focused_once(panels), stage, playhead)


def _focused_once(panels: Sequence[Panel]) -> tuple[Panel, ...]:
    """Two buttons may do the same; the first has the focus, and Tab goes on from there."""
    seen: set[Action] = set()

    def once(box: Box) -> Box:
        if not box.focused or not box.action:
            return box
        again = box.action in seen
        seen.add(box.action)
        return replace(box, focused=False) if again else box

    return tuple(replace(panel, boxes=tuple(once(box) for box in panel.boxes)) for panel in panels)


def _with_stage(view: View, area: Rect, metrics: Metrics) -> tuple[list[Panel], Rect, Playhead | None]:
    """Stage and rail at the left, the card over the full height beside them."""
    controls = view.rail.controls if view.rail else ()
    side = card_width(area.width, metrics.scale) if view.card or view.foot or controls else 0.0
    if any(isinstance(block, Net) for block in view.card):
        side = max(side, NET_WIDTH + 6 * UNIT)
    stage = replace(area, width=area.width - side)
    panels: list[Panel] = []
    playhead = None
    if side or view.rail:
        # Kept even when there is nothing to show, so that the stage does not jump when it comes.
        stage = replace(stage, height=stage.height - RAIL_HEIGHT)
        room = Rect(stage.x, stage.bottom, stage.width, RAIL_HEIGHT)
        rail, playhead = _under_stage(view, room, metrics)
        panels.append(rail)
    if view.notice:
        panels.append(_notice_on_stage(view.notice, stage, metrics))
    if side:
        beside = Rect(stage.right, area.y, side, area.height)
        panels += place_card(view.card, controls, _with_pace(view), beside, metrics)
    return panels, stage, playhead


def _under_stage(view: View, room: Rect, metrics: Metrics) -> tuple[Panel, Playhead | None]:
    """The rail; its room is kept when there is none."""
    if view.rail is None:
        return Panel(WindowPart.RAIL, room, (), room.height), None
    rail, head = place_rail(view.rail, room.width, metrics)
    boxes = tuple(box.moved(room.x, room.y) for box in rail.boxes)
    playhead = head and replace(head, area=head.area.moved(room.x, room.y))
    return replace(rail, rect=rail.rect.moved(room.x, room.y), boxes=boxes), playhead


def _with_pace(view: View) -> tuple[Block, ...]:
    """The foot with the buttons for the speed of what is shown, in one row with a lone first button."""
    pace, foot = view.rail.pace if view.rail else (), view.foot
    if not pace:
        return foot
    if foot and isinstance(foot[0], Button) and not foot[0].primary:
        return (ButtonRow((*pace, foot[0])), *foot[1:])
    return (ButtonRow(pace), *foot)


def _with_page(view: View, area: Rect, metrics: Metrics) -> list[Panel]:
    """The page, and beneath it what the program has to say."""
    if not view.notice:
        return [_place_page(view.page, area, metrics)]
    smaller = replace(metrics, scale=min(metrics.scale, LARGE_TEXT))
    height = smaller.font(TextSetting.SMALL).line_height + UNIT
    above = replace(area, height=area.height - height)
    foot = Rect(area.x, above.bottom, area.width, height)
    return [_place_notice(view.notice, foot, smaller), _place_page(view.page, above, metrics)]


def _place_page(columns: Sequence[Sequence[Block]], rect: Rect, metrics: Metrics) -> Panel:
    """Columns side by side where they are wide enough to read, else one below the other, centred."""
    pad, gap = 4 * UNIT, 6 * UNIT
    columns = [column for column in columns if column]
    count = max(1, len(columns))
    inner = rect.width - 2 * pad
    wide = (inner - gap * (count - 1)) / count
    if count > 1 and wide < 340 * metrics.scale:
        columns, count, wide = [[block for column in columns for block in column]], 1, inner
    wide = min(wide, _measure(columns) * metrics.scale)
    left = rect.x + (rect.width - count * wide - (count - 1) * gap) / 2
    left = round(left)
    placed = [
        place_blocks(column, left + index * (wide + gap), rect.y + pad, wide, metrics)
        for index, column in enumerate(columns)
    ]
    boxes = tuple(box for column in placed for box in column.boxes)
    return Panel(
        WindowPart.PAGE, rect, boxes, max((column.height for column in placed), default=0.0) + 2 * pad
    )


def _measure(columns: Sequence[Sequence[Block]]) -> float:
    """The widest a column may be: what is good to read, more where there are small cubes to look over."""
    if any(isinstance(block, CaseMap) for column in columns for block in column):
        return 1216.0
    if any(isinstance(block, MiniatureGrid) for column in columns for block in column):
        return 1120.0
    return 680.0 if len(columns) == 1 else 600.0


def _place_notice(text: str, rect: Rect, metrics: Metrics) -> Panel:
    """What the program has to say, in as many lines as there fit."""
    style = metrics.font(TextSetting.SMALL)
    room = rect.width - 2 * _PAD
    most = max(1, int(rect.height // style.line_height))
    lines = wrap(style, text, room)
    if len(lines) > most:
        lines = (*lines[: most - 1], ellipsise(style, " ".join(lines[most - 1 :]), room))
    top = rect.y + (rect.height - len(lines) * style.line_height) / 2
    said = set_lines(lines, style, rect.x + _PAD, top, Ink.MUTED)
    box = Box(Rect(rect.x + _PAD, rect.y, room, rect.height), lines=said)
    return Panel(WindowPart.NOTICE, rect, (box,), rect.height)


def _notice_on_stage(text: str, stage: Rect, metrics: Metrics) -> Panel:
    """A notice over the stage's lower left corner, so that nothing moves when it comes or goes."""
    smaller = replace(metrics, scale=min(metrics.scale, LARGE_TEXT))
    style, most = smaller.font(TextSetting.SMALL), stage.width - 2 * UNIT
    lines = wrap(style, text, most - 2 * _PAD)
    count = min(len(lines), max(1, int(MOST_NOTICE * stage.height // style.line_height)))
    high = count * style.line_height + UNIT
    wide = min(most, max(width(style, line) for line in lines) + 1 + 2 * _PAD)
    corner = Rect(stage.x + UNIT, stage.bottom - UNIT - high, wide, high)
    return _place_notice(text, corner, smaller)


def _over(view: View, bar: Rect, high: float, metrics: Metrics) -> list[Panel]:
    """What lies over the screen: a small sheet of buttons under the bar, or a sheet in the middle."""
    if not view.overlay:
        return []
    if all(isinstance(block, Button) for block in view.overlay):
        return [place_menu(view.overlay, bar, high, metrics)]
    return [place_sheet(view.overlay, bar.width, high, metrics)]


def _with_board(view: View, board: Board, bar: Panel, high: float, metrics: Metrics) -> Scene:
    """A board over the whole window; the bar, small and quiet, is at its foot."""
    wide = bar.rect.width
    foot = high - bar.rect.height
    panels, stage = place_board(board, view.card, Rect(0, 0, wide, foot), high, metrics)
    panels.append(_lowered(bar, foot))
    for panel in _over(view, replace(bar.rect, height=0.0), foot, metrics):
        # A menu hangs from the bar where that is above; here it stands on it.
        menu = all(isinstance(block, Button) for block in view.overlay)
        panels.append(_lowered(panel, foot - UNIT - panel.rect.bottom) if menu else panel)
    return Scene(wide, high, _focused_once(panels), stage, None)


def _lowered(panel: Panel, by: float) -> Panel:
    """The same panel further down."""
    boxes = tuple(box.moved(0.0, by) for box in panel.boxes)
    return replace(panel, rect=panel.rect.moved(0.0, by), boxes=boxes)
