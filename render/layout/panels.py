"""Where everything in the window goes: a pure function of the view and the window's size."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from render.layout.blocks import first_column, place_blocks
from render.layout.board import place_board
from render.layout.boxes import UNIT, Box, BoxKind, Ink, Panel, Place, Playhead, Rect, Scene, Sign
from render.layout.buttons import (
    LARGE_TEXT,
    LINK_PADDING,
    PADDING,
    Metrics,
    Placed,
    button_height,
    flow_buttons,
    natural_width,
    place_button,
    set_lines,
)
from render.layout.net import NET_WIDTH
from render.layout.rail import RAIL_HEIGHT, place_rail
from render.text.typesetting import TextSetting, ellipsise, width, wrap
from tutor.ui.view import (
    Action,
    Block,
    Board,
    Button,
    ButtonRow,
    CaseMap,
    Chevron,
    MiniatureGrid,
    Net,
    Table,
    VerdictNote,
    View,
)

_PAD = 2 * UNIT
BAR_HEIGHT = 48.0
CARD_PAD = 3 * UNIT
FOOT_PAD = 2 * UNIT
MOST_NOTICE = 0.5
"""The part of the stage that a notice over it may take."""
TABLES_IN_COLUMNS = 4
"""From so many tables on, a sheet has two columns."""
MAIN_HEIGHT = 56.0
"""How high the main button is in a card's foot."""
MOST_FOOT = 0.42
"""The part of a card that its foot may take at most."""
CARD_WIDTHS = ((1.75, 640.0), (1.25, 512.0), (0.0, 416.0))
"""How wide a card is from a text scale on, the largest first."""


def place_bar(view: View, wide: float, metrics: Metrics) -> Panel:
    """The top bar: the way back, title and place at the left, the other buttons at the right.

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
    return Panel(Place.BAR, Rect(0, 0, wide, height), (*left, *named, *below.boxes), height)


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


def place_notice(text: str, rect: Rect, metrics: Metrics) -> Panel:
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
    return Panel(Place.NOTICE, rect, (box,), rect.height)


def _notice_on_stage(text: str, stage: Rect, metrics: Metrics) -> Panel:
    """A notice over the stage's lower left corner, so that nothing moves when it comes or goes."""
    smaller = replace(metrics, scale=min(metrics.scale, LARGE_TEXT))
    style, most = smaller.font(TextSetting.SMALL), stage.width - 2 * UNIT
    lines = wrap(style, text, most - 2 * _PAD)
    count = min(len(lines), max(1, int(MOST_NOTICE * stage.height // style.line_height)))
    high = count * style.line_height + UNIT
    wide = min(most, max(width(style, line) for line in lines) + 1 + 2 * _PAD)
    corner = Rect(stage.x + UNIT, stage.bottom - UNIT - high, wide, high)
    return place_notice(text, corner, smaller)


def _column(blocks: Sequence[Block], rect: Rect, pad: float, place: Place, metrics: Metrics) -> Panel:
    """Blocks in a panel that scrolls when they are taller than it."""
    placed = place_blocks(blocks, rect.x + pad, rect.y + pad, rect.width - 2 * pad, metrics)
    return Panel(place, rect, placed.boxes, placed.height + 2 * pad)


def place_card(
    blocks: Sequence[Block], controls: Sequence[Button], foot: Sequence[Block], rect: Rect, metrics: Metrics
) -> list[Panel]:
    """The card, and in room of its own beneath it what stays in sight.

    That is what plays the turns, the foot, and the main button where there is a foot or the card must
    scroll. What would take too much of the card scrolls with the rest. Choices are smaller where their full
    size would make the card scroll. Where large text makes it scroll all the same, a verdict on a choice
    comes before the choices, beside what was asked.
    """
    panels = _card_and_foot(blocks, controls, foot, rect, metrics)
    if panels[0].scroll_limit > 0.0:
        metrics = replace(metrics, roomy=False)
        panels = _card_and_foot(blocks, controls, foot, rect, metrics)
    if panels[0].scroll_limit > 0.0 and metrics.scale >= LARGE_TEXT:
        panels = _card_and_foot(_verdict_first(blocks), controls, foot, rect, metrics)
    return panels


def _verdict_first(blocks: Sequence[Block]) -> list[Block]:
    """The blocks with each verdict that follows choices before them."""
    ordered: list[Block] = []
    choices = 0
    for block in blocks:
        ordered.insert(len(ordered) - choices if isinstance(block, VerdictNote) else len(ordered), block)
        choices = choices + 1 if isinstance(block, Button) and block.choice else 0
    return ordered


def _card_and_foot(
    blocks: Sequence[Block], controls: Sequence[Button], foot: Sequence[Block], rect: Rect, metrics: Metrics
) -> list[Panel]:
    playing: list[Block] = [ButtonRow(tuple(controls))] if controls else []
    card = _column([*blocks, *playing, *foot], rect, CARD_PAD, Place.CARD, metrics)
    main = _main_button(blocks) or next(
        (each for each in foot if isinstance(each, Button) and each.primary), None
    )
    if not foot and not playing and (main is None or card.scroll_limit <= 0.0):
        return [card]
    rest, foot = (_without(blocks, main), _without(foot, main)) if main else (list(blocks), foot)
    for above, links in ((rest, foot), ([*rest, *foot], ())):
        placed = _place_foot(playing, main, links, rect, metrics)
        if (playing or main or links) and placed.height <= MOST_FOOT * rect.height:
            beneath = replace(rect, y=rect.bottom - placed.height, height=placed.height)
            boxes = tuple(box.moved(0.0, beneath.y) for box in placed.boxes)
            upper = replace(rect, height=rect.height - placed.height)
            return [
                _column(above, upper, CARD_PAD, Place.CARD, metrics),
                Panel(Place.FOOT, beneath, boxes, placed.height),
            ]
    return [card]


def _place_foot(
    playing: Sequence[Block], main: Button | None, links: Sequence[Block], rect: Rect, metrics: Metrics
) -> Placed:
    """A card's foot at y 0: what plays, what leads on, and beneath it the rest in quieter form."""
    x, wide = rect.x + CARD_PAD, rect.width - 2 * CARD_PAD
    upper = place_blocks(playing, x, FOOT_PAD, wide, metrics)
    boxes, top = list(upper.boxes), FOOT_PAD + upper.height
    if main is not None:
        high = MAIN_HEIGHT if metrics.roomy else button_height(main, metrics)
        boxes.append(place_button(main, Rect(x, top + (UNIT if playing else 0.0), wide, high), metrics))
        top = boxes[-1].rect.bottom
    top += UNIT if boxes and links else 0.0
    quiet = replace(metrics, buttons=BoxKind.LINK)
    # The words of links, not the room round them, are in line with the card's text.
    lower = place_blocks(links, x - LINK_PADDING, top, wide + 2 * LINK_PADDING, quiet)
    return Placed((*boxes, *lower.boxes), top + lower.height + FOOT_PAD)


def _main_button(blocks: Sequence[Block]) -> Button | None:
    """The card's main button, alone or in a row; one that says more is a choice among its like."""
    rows = (block.buttons if isinstance(block, ButtonRow) else (block,) for block in blocks)
    buttons = (each for row in rows for each in row if isinstance(each, Button))
    return next((button for button in buttons if button.primary and not button.detail), None)


def _without(blocks: Sequence[Block], button: Button) -> list[Block]:
    """The blocks without this button; a row that held it alone goes with it."""
    left: list[Block] = []
    for block in blocks:
        if isinstance(block, ButtonRow) and button in block.buttons:
            others = tuple(each for each in block.buttons if each is not button)
            left += [replace(block, buttons=others)] if others else []
        elif block is not button:
            left.append(block)
    return left


def place_page(columns: Sequence[Sequence[Block]], rect: Rect, metrics: Metrics) -> Panel:
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
    return Panel(Place.PAGE, rect, boxes, max((column.height for column in placed), default=0.0) + 2 * pad)


def _measure(columns: Sequence[Sequence[Block]]) -> float:
    """The widest a column may be: what is good to read, more where there are small cubes to look over."""
    if any(isinstance(block, CaseMap) for column in columns for block in column):
        return 1216.0
    if any(isinstance(block, MiniatureGrid) for column in columns for block in column):
        return 1120.0
    return 680.0 if len(columns) == 1 else 600.0


def place_overlay(blocks: Sequence[Block], wide: float, high: float, metrics: Metrics) -> Panel:
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
    return Panel(Place.OVERLAY, rect, boxes, placed.height + 2 * pad)


def place_menu(buttons: Sequence[Block], bar: Rect, high: float, metrics: Metrics) -> Panel:
    """A small sheet of buttons under the bar's right end."""
    quiet = replace(metrics, buttons=BoxKind.QUIET, keyed=True)
    widest = max(natural_width(each, quiet) for each in buttons if isinstance(each, Button))
    wide = min(widest + 2 * _PAD, bar.width - 2 * UNIT)
    placed = place_blocks(buttons, 0, 0, wide - 2 * _PAD, quiet)
    height = min(placed.height + 2 * _PAD, high - bar.bottom - UNIT)
    rect = Rect(bar.width - UNIT - wide, bar.bottom, wide, height)
    boxes = tuple(box.moved(rect.x + _PAD, rect.y + _PAD) for box in placed.boxes)
    return Panel(Place.OVERLAY, rect, boxes, placed.height + 2 * _PAD)


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


def card_width(wide: float, scale: float) -> float:
    """The card's width, more where its text is large; half of a narrow window stays to the stage."""
    asked = next(width for least, width in CARD_WIDTHS if scale >= least)
    return round(min(asked, 0.5 * wide))


def _bar(view: View, wide: float, high: float, metrics: Metrics) -> Panel:
    """The bar, with smaller text where at the wished scale it would crowd out the rest."""
    scale = metrics.scale
    while True:
        bar = place_bar(view, wide, replace(metrics, scale=scale))
        if bar.content <= 0.2 * high or scale <= 1.0:
            return replace(bar, rect=replace(bar.rect, height=min(bar.content, 0.3 * high)))
        scale = max(1.0, scale - 0.1)


def _under_stage(view: View, room: Rect, metrics: Metrics) -> tuple[Panel, Playhead | None]:
    """The rail; its room is kept when there is none."""
    if view.rail is None:
        return Panel(Place.RAIL, room, (), room.height), None
    rail, head = place_rail(view.rail, room.width, metrics)
    boxes = tuple(box.moved(room.x, room.y) for box in rail.boxes)
    playhead = head and replace(head, area=head.area.moved(room.x, room.y))
    return replace(rail, rect=rail.rect.moved(room.x, room.y), boxes=boxes), playhead


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
        return [place_page(view.page, area, metrics)]
    smaller = replace(metrics, scale=min(metrics.scale, LARGE_TEXT))
    height = smaller.font(TextSetting.SMALL).line_height + UNIT
    above = replace(area, height=area.height - height)
    foot = Rect(area.x, above.bottom, area.width, height)
    return [place_notice(view.notice, foot, smaller), place_page(view.page, above, metrics)]


def layout(view: View, wide: float, high: float, pixel_ratio: float = 1.0) -> Scene:
    """The view laid out in a window of this size in logical px. Pure: it needs no window."""
    metrics = Metrics(view.look.text_scale, pixel_ratio, view.focus)
    bar = _bar(view, wide, high, metrics)
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


def _over(view: View, bar: Rect, high: float, metrics: Metrics) -> list[Panel]:
    """What lies over the screen: a small sheet of buttons under the bar, or a sheet in the middle."""
    if not view.overlay:
        return []
    if all(isinstance(block, Button) for block in view.overlay):
        return [place_menu(view.overlay, bar, high, metrics)]
    return [place_overlay(view.overlay, bar.width, high, metrics)]


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
