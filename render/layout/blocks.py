"""Blocks of a view set one below the other into a column: texts, buttons, fields, tables, groups."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from render.layout.boxes import UNIT, Box, BoxKind, Ink, Rect, Sign
from render.layout.buttons import (
    BUTTON_HEIGHT,
    CHOICE_GAP,
    PADDING,
    TONE_INKS,
    Metrics,
    Placed,
    button_height,
    flow_buttons,
    natural_width,
    place_button,
    place_choice,
    set_lines,
)
from render.layout.case_map import place_case_map
from render.layout.maps import place_legend, place_map
from render.layout.miniatures import place_miniatures
from render.layout.net import place_net, place_palette
from render.layout.plots import place_plots
from render.text.typesetting import Font, TextSetting, slices, width, wrap
from tutor.ui.view import (
    Block,
    Button,
    ButtonRow,
    CaseMap,
    Entry,
    Gap,
    Group,
    Legend,
    Mark,
    MiniatureGrid,
    Net,
    Palette,
    PlotGrid,
    Progress,
    Table,
    Text,
    TextStyle,
    Tone,
    VerdictNote,
)

_SETTINGS = {
    TextStyle.TITLE: TextSetting.TITLE,
    TextStyle.HEADING: TextSetting.HEADING,
    TextStyle.BODY: TextSetting.BODY,
    TextStyle.QUESTION: TextSetting.QUESTION,
    TextStyle.SMALL: TextSetting.SMALL,
}
TONE_ICONS = {Tone.GOOD: "good", Tone.NEUTRAL: "neutral", Tone.WARNING: "warning"}
MARK_INKS = {
    Mark.OPTIMAL: Ink.GOOD,
    Mark.ACCEPTABLE: Ink.NEUTRAL,
    Mark.DETOUR: Ink.WARNING,
    Mark.WAITING: Ink.MUTED,
    Mark.MAKING: Ink.MUTED,
    Mark.NONE: Ink.MUTED,
}


# ----------------------------------------------------------------------------------------------- texts


def _sign_size(style: Font) -> float:
    return round(1.15 * style.size)


def place_text(block: Text, x: float, y: float, available: float, metrics: Metrics) -> Placed:
    """A paragraph; a tone that means something has its icon before the first line."""
    style, ink = metrics.font(_SETTINGS[block.style]), TONE_INKS[block.tone]
    icon, indent = TONE_ICONS.get(block.tone), 0.0
    signs: tuple[Sign, ...] = ()
    if icon:
        size = _sign_size(style)
        indent = size + UNIT
        signs = (Sign(Rect(x, y + (style.line_height - size) / 2, size, size), icon, ink),)
    texts = wrap(style, block.text, available - indent)
    lines = set_lines(texts, style, x + indent, y, ink)
    height = len(texts) * style.line_height
    box = Box(Rect(x, y, available, height), lines=lines, signs=signs, fresh=block.fresh)
    return Placed((box,), height)


def place_verdict(block: VerdictNote, x: float, y: float, available: float, metrics: Metrics) -> Placed:
    """A verdict on its own ground: stripe, sign and word, and what is said about it across all the width."""
    strong, body, ink = (
        metrics.font(TextSetting.VERDICT),
        metrics.font(TextSetting.BODY),
        MARK_INKS[block.mark],
    )
    size = _sign_size(strong) * 1.15
    indent = (size + PADDING if block.mark is not Mark.NONE else 0.0) + 2 * UNIT
    title = wrap(strong, block.title, available - indent - PADDING)
    text = wrap(body, block.text, available - 2 * UNIT - PADDING) if block.text else ()
    top = y + PADDING
    lines = set_lines(title, strong, x + indent, top, Ink.TEXT if ink is Ink.MUTED else ink)
    lines += set_lines(text, body, x + 2 * UNIT, top + len(title) * strong.line_height + 2)
    height = 2 * PADDING + len(title) * strong.line_height + (len(text) * body.line_height + 2 if text else 0)
    sign = Rect(x + 2 * UNIT, top + (strong.line_height - size) / 2, size, size)
    signs = (Sign(sign, block.mark.value, ink),) if block.mark is not Mark.NONE else ()
    note = Box(Rect(x, y, available, height), BoxKind.NOTE, lines, signs, fresh=True, ink=ink)
    return Placed((note,), height)


def place_progress(block: Progress, x: float, y: float, available: float, metrics: Metrics) -> Placed:
    """A caption over a thin track."""
    small = metrics.font(TextSetting.SMALL)
    texts = wrap(small, block.caption, available) if block.caption else ()
    height = len(texts) * small.line_height
    caption = Box(Rect(x, y, available, height), lines=set_lines(texts, small, x, y, Ink.MUTED))
    track = Rect(x, y + height + (4 if texts else 0), available, UNIT)
    fraction = min(1.0, max(0.0, block.fraction))
    boxes = (*((caption,) if texts else ()), Box(track, BoxKind.TRACK, fraction=fraction))
    return Placed(boxes, track.bottom - y)


# --------------------------------------------------------------------------------------- fields, tables


class _Typed(Struct, frozen=True):
    """What was typed, line by line, and where its first line stands."""

    style: Font
    lines: tuple[tuple[int, str], ...]
    left: float
    top: float
    room: float

    def spot(self, column: int) -> tuple[float, float]:
        """Where a character starts: its x and the top of its line."""
        index = max(i for i, (start, _) in enumerate(self.lines) if start <= column or i == 0)
        start, text = self.lines[index]
        along = min(width(self.style, text[: max(0, column - start)]), self.room)
        return self.left + along, self.top + index * self.style.line_height

    def caret(self, column: int) -> Rect:
        """The upright bar before a character."""
        x, y = self.spot(column)
        return Rect(x, y + 2, 2, self.style.line_height - 4)

    def ground(self) -> tuple[Rect, ...]:
        """What lies under all of the text, line by line."""
        high = self.style.line_height
        return tuple(
            Rect(self.left, self.top + index * high, min(width(self.style, text), self.room), high)
            for index, (_, text) in enumerate(self.lines)
        )

    def underline(self, column: int, letter: str) -> Rect:
        """The bar under a wrong character, or under the end where one is missing."""
        x, y = self.spot(column)
        wide = max(UNIT, width(self.style, letter))
        return Rect(min(x, self.left + self.room - wide), y + self.style.line_height - 4, wide, 3)


def _place_field(block: Entry, x: float, y: float, available: float, metrics: Metrics) -> Box:
    body, inner = metrics.font(TextSetting.BODY), available - 2 * PADDING
    rows = slices(body, block.text, inner)
    height = max(BUTTON_HEIGHT, len(rows) * body.line_height + UNIT)
    typed = _Typed(body, rows, x + PADDING, y + (height - len(rows) * body.line_height) / 2, inner)
    wrong = block.error_column
    return Box(
        Rect(x, y, available, height),
        BoxKind.FIELD,
        set_lines([text for _, text in rows], body, typed.left, typed.top),
        action=block.action,
        selected=block.focused,
        focused=block.focused or (bool(block.action) and block.action == metrics.focus),
        ink=Ink.WARNING if block.error else Ink.TEXT,
        chosen=typed.ground() if block.chosen else (),
        caret=typed.caret(min(block.caret, len(block.text))) if block.focused else None,
        underline=None if wrong is None else typed.underline(wrong, block.text[wrong : wrong + 1]),
    )


def place_entry(block: Entry, x: float, y: float, available: float, metrics: Metrics) -> Placed:
    """A label, the field with all that was typed, the place of a mistake, and what is wrong with it."""
    small = metrics.font(TextSetting.SMALL_STRONG)
    boxes: list[Box] = []
    top = y
    if block.label:
        texts = wrap(small, block.label, available)
        height = len(texts) * small.line_height
        boxes.append(Box(Rect(x, y, available, height), lines=set_lines(texts, small, x, y)))
        top += height + 4
    boxes.append(_place_field(block, x, top, available, metrics))
    top = boxes[-1].rect.bottom
    if block.error:
        note = place_text(Text(block.error, TextStyle.SMALL, Tone.WARNING), x, top + 4, available, metrics)
        boxes += note.boxes
        top += 4 + note.height
    return Placed(tuple(boxes), top - y)


PAIR = 2
"""Columns of a table of terms and what they mean."""


def first_column(tables: Sequence[Table], metrics: Metrics) -> float:
    """The widest first cell of several tables of two columns."""
    body = metrics.font(TextSetting.BODY)
    cells = [row[0] for table in tables for row in table.rows if len(row) == PAIR]
    return max((width(body, cell) + 1 for cell in cells), default=0.0)


def _column_widths(block: Table, available: float, metrics: Metrics) -> list[float]:
    """Each column as wide as its widest cell; shares of the room where that is too much."""
    strong, body = metrics.font(TextSetting.SMALL_STRONG), metrics.font(TextSetting.BODY)
    count = max([len(block.header), *(len(row) for row in block.rows)])
    widths = [0.0] * count
    for style, row in [(strong, block.header), *((body, row) for row in block.rows)]:
        for index, cell in enumerate(row):
            widths[index] = max(widths[index], width(style, cell) + 1)
    if count == PAIR:
        widths[0] = max(widths[0], min(metrics.first_column, 0.45 * available))
    room = available - (count - 1) * 3 * UNIT
    rest = room - sum(widths[:-1])
    if rest >= min(widths[-1], room * 0.4):
        return [*widths[:-1], rest]
    share = room / count
    spare = sum(max(0.0, share - wide) for wide in widths)
    over = sum(max(0.0, wide - share) for wide in widths)
    return [wide if wide <= share else share + (wide - share) * min(1.0, spare / over) for wide in widths]


def place_table(block: Table, x: float, y: float, available: float, metrics: Metrics) -> Placed:
    """Rows of cells with hair lines between them."""
    if not block.header and not block.rows:
        return Placed((), 0.0)
    strong, body = metrics.font(TextSetting.SMALL_STRONG), metrics.font(TextSetting.BODY)
    widths = _column_widths(block, available, metrics)
    boxes: list[Box] = []
    top = y
    header = [(strong, block.header, Ink.MUTED)] if any(block.header) else []
    for style, row, ink in [*header, *((body, row, Ink.TEXT) for row in block.rows)]:
        if top > y:
            boxes.append(Box(Rect(x, top, available, 1), BoxKind.RULE))
            top += 1
        cells = [wrap(style, cell, wide) for cell, wide in zip(row, widths, strict=False)]
        height = max((len(cell) for cell in cells), default=1) * style.line_height + UNIT
        left = x
        for cell, wide in zip(cells, widths, strict=False):
            lines = set_lines(cell, style, left, top + 4, ink)
            boxes.append(Box(Rect(left, top, wide, height), lines=lines))
            left += wide + 3 * UNIT
        top += height
    return Placed(tuple(boxes), top - y)


# --------------------------------------------------------------------------------------------- columns


def place_group(block: Group, x: float, y: float, available: float, metrics: Metrics) -> Placed:
    """Blocks on their own ground."""
    pad = 2 * UNIT
    inside = place_blocks(block.blocks, x + pad, y + pad, available - 2 * pad, metrics)
    height = inside.height + 2 * pad
    return Placed((Box(Rect(x, y, available, height), BoxKind.GROUP), *inside.boxes), height)


def _place_single(block: Button, x: float, y: float, available: float, metrics: Metrics) -> Placed:
    """A button on its own line; one with a detail is a row of a list and takes the whole width."""
    if block.choice:
        box = place_choice(block, x, y, available, metrics)
        return Placed((box,), box.rect.height)
    wide = available if block.detail else min(available, natural_width(block, metrics))
    rect = Rect(x, y, wide, button_height(block, metrics))
    box = place_button(block, rect, metrics, centred=not block.detail)
    return Placed((box,), box.rect.height)


def place_block(block: Block, x: float, y: float, available: float, metrics: Metrics) -> Placed:
    """Any block, at the width it is given."""
    match block:
        case Text():
            return place_text(block, x, y, available, metrics)
        case Button():
            return _place_single(block, x, y, available, metrics)
        case ButtonRow():
            return flow_buttons(block.buttons, Rect(x, y, available, 0), metrics)
        case VerdictNote():
            return place_verdict(block, x, y, available, metrics)
        case Entry():
            return place_entry(block, x, y, available, metrics)
        case Table():
            return place_table(block, x, y, available, metrics)
        case Progress():
            return place_progress(block, x, y, available, metrics)
        case Group():
            return place_group(block, x, y, available, metrics)
        case Gap():
            return Placed((), block.steps * UNIT)
        case _:
            return _place_drawn(block, Rect(x, y, available, 0), metrics)


def _place_drawn(
    block: MiniatureGrid | CaseMap | Legend | PlotGrid | Palette | Net, area: Rect, metrics: Metrics
) -> Placed:
    """Blocks that are more picture than text."""
    match block:
        case MiniatureGrid():
            place = place_map if block.map else place_miniatures
            return place(block.miniatures, area, metrics)
        case CaseMap():
            return place_case_map(block, area, metrics)
        case Legend():
            return place_legend(block, area, metrics)
        case PlotGrid():
            return place_plots(block.plots, area, metrics)
        case Palette():
            return place_palette(block, area, metrics)
        case Net():
            return place_net(block, area)


def _between(above: Block, below: Block, *, roomy: bool) -> float:
    """Space between two blocks: headings and captions keep to what follows, like stays with like."""
    if roomy and all(isinstance(block, Button) and block.choice for block in (above, below)):
        return CHOICE_GAP
    if isinstance(below, Text) and below.style in (TextStyle.TITLE, TextStyle.HEADING):
        return 3 * UNIT
    if isinstance(above, Text) and above.style in (TextStyle.TITLE, TextStyle.HEADING):
        return UNIT
    if isinstance(above, Text) and above.style is TextStyle.SMALL and isinstance(below, ButtonRow):
        return UNIT / 2
    if isinstance(above, (Text, Button, ButtonRow)) and isinstance(below, type(above)):
        return UNIT
    return 2 * UNIT


def place_blocks(blocks: Sequence[Block], x: float, y: float, available: float, metrics: Metrics) -> Placed:
    """Blocks one below the other; a gap adds to the space that two blocks have between them anyway."""
    boxes: list[Box] = []
    top, above = y, None
    for block in blocks:
        if isinstance(block, Gap):
            top += block.steps * UNIT
            continue
        if above is not None:
            top += _between(above, block, roomy=metrics.roomy)
        placed = place_block(block, x, top, available, metrics)
        boxes += placed.boxes
        top += placed.height
        above = block
    return Placed(tuple(boxes), top - y)
