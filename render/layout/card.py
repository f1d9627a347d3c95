"""The card beside the stage, and in room of its own beneath it what stays in sight."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from render.layout.blocks import place_blocks
from render.layout.boxes import UNIT, BoxKind, Panel, Rect, WindowPart
from render.layout.buttons import LARGE_TEXT, LINK_PADDING, Metrics, Placed, button_height, place_button
from tutor.ui.view import Block, Button, ButtonRow, VerdictNote

CARD_PAD = 3 * UNIT
FOOT_PAD = 2 * UNIT
MAIN_HEIGHT = 56.0
"""How high the main button is in a card's foot."""
MOST_FOOT = 0.42
"""The part of a card that its foot may take at most."""
CARD_WIDTHS = ((1.75, 640.0), (1.25, 512.0), (0.0, 416.0))
"""How wide a card is from a text scale on, the largest first."""


def card_width(wide: float, scale: float) -> float:
    """The card's width, more where its text is large; half of a narrow window stays to the stage."""
    asked = next(width for least, width in CARD_WIDTHS if scale >= least)
    return round(min(asked, 0.5 * wide))


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
    card = _column([*blocks, *playing, *foot], rect, CARD_PAD, WindowPart.CARD, metrics)
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
                _column(above, upper, CARD_PAD, WindowPart.CARD, metrics),
                Panel(WindowPart.FOOT, beneath, boxes, placed.height),
            ]
    return [card]


def _column(blocks: Sequence[Block], rect: Rect, pad: float, place: WindowPart, metrics: Metrics) -> Panel:
    """Blocks in a panel that scrolls when they are taller than it."""
    placed = place_blocks(blocks, rect.x + pad, rect.y + pad, rect.width - 2 * pad, metrics)
    return Panel(place, rect, placed.boxes, placed.height + 2 * pad)


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
