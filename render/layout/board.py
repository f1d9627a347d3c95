"""The board: a line above a cube as large as there is room for, and the answer beside it.

A group reads it from afar, so its letters are a part of the window's height, whatever the text scale.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from render.layout.boxes import UNIT, Box, BoxKind, Ink, Line, Panel, Rect, WindowPart
from render.layout.buttons import Metrics, Placed, natural_width, place_button, set_lines
from render.text.typefaces import Typeface
from render.text.typesetting import Font, TextSetting, width, wrap
from tutor.ui.view import Block, Board, Button

LINE_SIZES = (1 / 13, 1 / 16)
"""Sizes of the line in parts of the window's height: the usual one, and the one for long sentences."""
STEP_SIZE = 1 / 11
TURN_SIZE = 1 / 5
WAY_SIZE = 1 / 16
ANSWER_SIZES = (WAY_SIZE, 1 / 20, 1 / 24, 1 / 28)
"""Sizes of answers: the first at which all are in sight with the button beneath them, else the last."""
MARGIN = 1 / 27
LINES = 2
"""Room is kept for so many lines, so that the cube does not jump when a longer sentence comes."""
ASIDE, ASIDE_WITH_ANSWERS = 0.36, 0.44
"""The part of the width that goes to the answer."""
_LEADING = 1.16


def place_board(
    board: Board, card: Sequence[Block], area: Rect, high: float, metrics: Metrics
) -> tuple[list[Panel], Rect]:
    """The board's panels in an area of a window so high, and where its cube goes."""
    line = _place_line(board.line, area, high)
    buttons = [block for block in card if isinstance(block, Button)]
    asks = any(not button.primary for button in buttons)
    wide = round((ASIDE_WITH_ANSWERS if asks else ASIDE) * area.width)
    rest = area.height - line.rect.height
    room = Rect(area.right - wide, line.rect.bottom, wide, rest)
    aside = _place_aside(board, buttons, room, high, metrics)
    return [line, aside], Rect(area.x, line.rect.bottom, area.width - wide, rest)


def sized(face: Typeface, part: float, high: float) -> Font:
    """A font whose size is a part of the window's height."""
    return Font(face, part * high, round(part * high * _LEADING))


def _fitting(text: str, wide: float, high: float) -> tuple[Font, tuple[str, ...]]:
    """The usual size of the line where the text then takes no more lines than are kept, else the smaller."""
    usual, smaller = (sized(Typeface.TITLE, part, high) for part in LINE_SIZES)
    style = usual if len(wrap(usual, text, wide)) <= LINES else smaller
    return style, wrap(style, text, wide)


def _place_line(text: str, area: Rect, high: float) -> Panel:
    margin = round(MARGIN * high)
    wide = area.width - 2 * margin
    style, lines = _fitting(text, wide, high)
    kept = LINES * sized(Typeface.TITLE, LINE_SIZES[0], high).line_height
    tall = len(lines) * style.line_height
    said = set_lines(lines, style, area.x + margin, margin)
    box = Box(Rect(area.x + margin, margin, wide, tall), lines=said)
    # Where the window is low, a sentence of many lines takes its room from the cube.
    return Panel(
        WindowPart.LINE, Rect(area.x, area.y, area.width, margin + max(kept, tall)), (box,), margin + tall
    )


def _place_aside(board: Board, buttons: Sequence[Button], room: Rect, high: float, metrics: Metrics) -> Panel:
    """The answer as far as it is shown, and beneath it the buttons."""
    margin = round(MARGIN * high)
    row = Rect(room.x + UNIT, room.y + margin, room.width - UNIT - margin, 0)
    boxes: list[Box] = []
    y = row.y
    for placed in _shown(board, replace(row, y=0), high):
        boxes += [box.moved(0.0, y) for box in placed.boxes]
        y += placed.height + 2 * UNIT
    for size in ANSWER_SIZES:
        below = _place_buttons(buttons, replace(row, y=y), size, high, metrics)
        content = below[-1].rect.bottom + 2 * UNIT if below else y
        if content <= room.bottom:
            break
    return Panel(WindowPart.ASIDE, room, (*boxes, *below), content - room.y)


def _place_buttons(
    buttons: Sequence[Button], row: Rect, size: float, high: float, metrics: Metrics
) -> list[Box]:
    """The buttons below each other, answers in letters of this part of the window's height."""
    boxes: list[Box] = []
    for button in buttons:
        main = button.primary
        box = _place_main(button, row, metrics) if main else _place_answer(button, row, size, high, metrics)
        boxes.append(box)
        row = replace(row, y=box.rect.bottom + 2 * UNIT)
    return boxes


def _shown(board: Board, row: Rect, high: float) -> list[Placed]:
    """What is shown of the answer, each part from y 0."""
    parts: list[Placed] = []
    if board.hidden:
        parts.append(_hidden(board.hidden, row, high))
    if board.step:
        parts.append(_words(board.step, sized(Typeface.TITLE, STEP_SIZE, high), row, Ink.TEXT))
    if board.turn:
        parts.append(_words(board.turn, sized(Typeface.STRONG, TURN_SIZE, high), row, Ink.ACCENT))
    if board.way:
        parts.append(_way(board, row, high))
    return parts


def _words(text: str, style: Font, row: Rect, ink: Ink) -> Placed:
    lines = wrap(style, text, row.width)
    tall = len(lines) * style.line_height
    return Placed((Box(Rect(row.x, 0, row.width, tall), lines=set_lines(lines, style, row.x, 0, ink)),), tall)


def _hidden(text: str, row: Rect, high: float) -> Placed:
    """A dashed frame with a word in its middle."""
    style = sized(Typeface.TITLE, WAY_SIZE, high)
    pad = style.line_height / 2
    lines = wrap(style, text, row.width - 2 * UNIT)
    tall = round(len(lines) * style.line_height + 2 * pad)
    said = tuple(
        Line(row.x + (row.width - width(style, each.text)) / 2, each.baseline, each.text, style, Ink.MUTED)
        for each in set_lines(lines, style, row.x, pad)
    )
    return Placed((Box(Rect(row.x, 0, row.width, tall), BoxKind.HIDDEN, said),), tall)


def _way(board: Board, row: Rect, high: float) -> Placed:
    """The turns of the route one after the other; the one that is shown stands out."""
    plain, strong = (sized(face, WAY_SIZE, high) for face in (Typeface.BODY, Typeface.STRONG))
    gap = plain.size * 0.45
    boxes: list[Box] = []
    x, y = row.x, 0.0
    for number, turn in enumerate(board.way):
        shown = number == board.at
        style = strong if shown else plain
        wide = width(strong, turn) + 1
        if x + wide > row.right and x > row.x:
            x, y = row.x, y + plain.line_height
        ink = Ink.ACCENT if shown else Ink.TEXT if board.at is None or number < board.at else Ink.MUTED
        boxes.append(Box(Rect(x, y, wide, plain.line_height), lines=set_lines([turn], style, x, y, ink)))
        x += wide + gap
    return Placed(tuple(boxes), y + plain.line_height)


def _place_main(button: Button, row: Rect, metrics: Metrics) -> Box:
    """The button that goes on: for whoever stands at the board, so it is as large as elsewhere."""
    tall = max(40.0, metrics.font(TextSetting.BODY).line_height + 2 * UNIT)
    wide = min(row.width, natural_width(button, metrics) + 4 * UNIT)
    return place_button(button, Rect(row.x, row.y, wide, tall), metrics)


def _place_answer(button: Button, row: Rect, size: float, high: float, metrics: Metrics) -> Box:
    """An answer with its key before it, and after it what there is to say of it, beneath it if need be."""
    keys = sized(Typeface.BODY, size, high)
    cap = width(keys, button.key) + keys.size * 0.6 if button.key else 0.0
    left = row.x + UNIT + (cap + 2 * UNIT if cap else 0.0)
    right, top = row.right - 2 * UNIT, row.y + UNIT
    face = Typeface.STRONG if button.selected else Typeface.BODY
    style = sized(face, size, high)
    lines = wrap(style, button.label, right - left)
    said = list(set_lines(lines, style, left, top, Ink.TEXT if button.enabled else Ink.MUTED))
    y = top + max(len(lines) * style.line_height, keys.line_height)
    more = wrap(keys, button.detail, right - left) if button.detail else ()
    beside = right - width(keys, button.detail)
    if beside > left + width(style, lines[-1]) + 2 * UNIT:
        said += set_lines(more, keys, beside, y - style.line_height, Ink.ACCENT)
    else:
        said += set_lines(more, keys, left, y, Ink.ACCENT)
        y += len(more) * keys.line_height
    frame = Rect(row.x + UNIT, top, cap, keys.line_height) if cap else None
    if frame:
        said += set_lines([button.key or ""], keys, frame.x + keys.size * 0.3, top, Ink.MUTED)
    return Box(
        Rect(row.x, row.y, row.width, y + UNIT - row.y),
        BoxKind.BUTTON,
        tuple(said),
        action=button.action,
        enabled=button.enabled,
        selected=button.selected,
        focused=button.action == metrics.focus,
        keycap=frame,
    )
