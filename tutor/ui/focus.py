"""The keyboard's way over the screen: Tab goes from each thing that you can press to the next."""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum

from tutor.ui.action import Action
from tutor.ui.view import Block, Button, ButtonRow, CaseMap, Entry, Group, MiniatureGrid, Palette, View


class Walk(Action, Enum):
    """What keys ask of the focus."""

    NEXT = "next button"
    PREVIOUS = "previous button"
    PRESS = "press the chosen button"


def pressable(view: View) -> tuple[Action, ...]:
    """Everything that you can press in a view, in the order in which Tab goes through it."""
    if view.overlay:
        return tuple(dict.fromkeys(_in_blocks(view.overlay)))
    found = list(_in_blocks(view.card))
    if view.rail is not None:
        played = (*view.rail.controls, *view.rail.pace)
        found.extend(button.action for button in played if button.enabled)
    found.extend(_in_blocks(view.foot))
    for column in view.page:
        found.extend(_in_blocks(column))
    if view.rail is not None:
        tiles = [tile for bay in view.rail.bays for tile in bay.tiles] + list(view.rail.own)
        found.extend(tile.action for tile in tiles if tile.action)
    found.extend(button.action for button in view.bar if button.enabled)
    return tuple(dict.fromkeys(found))


ENTER = "Enter"
"""What a button shows that Enter presses."""


def main_button(view: View) -> Button | None:
    """The button that Enter presses where nothing has the focus: one that says so, else the main one."""
    columns = (view.overlay,) if view.overlay else (view.card, view.foot, *view.page)
    controls = () if view.rail is None or view.overlay else view.rail.controls
    found = (button for column in columns for button in _buttons(column))
    usable = [button for button in (*found, *controls) if button.enabled]
    said = (button for button in usable if button.key == ENTER)
    return next(said, next((button for button in usable if button.primary), None))


def _buttons(blocks: tuple[Block, ...]) -> Iterator[Button]:
    for block in blocks:
        match block:
            case Button():
                yield block
            case ButtonRow(buttons):
                yield from buttons
            case Group(inner):
                yield from _buttons(inner)
            case _:
                pass


def _in_blocks(blocks: tuple[Block, ...]) -> Iterator[Action]:
    """The actions of enabled buttons and fields in blocks, in reading order."""
    for block in blocks:
        match block:
            case Button() if block.enabled:
                yield block.action
            case Entry():
                yield block.action
            case ButtonRow(buttons):
                yield from (button.action for button in buttons if button.enabled)
            case Palette(swatches):
                yield from (swatch.action for swatch in swatches)
            case MiniatureGrid(miniatures):
                yield from (miniature.action for miniature in miniatures if miniature.action)
            case CaseMap(rows, columns):
                yield from (row.action for row in rows if row.action)
                yield from (column.action for column in columns if column.action)
            case Group(inner):
                yield from _in_blocks(inner)
            case _:
                pass


def walked(view: View, focus: Action | None, step: int) -> Action | None:
    """What has the focus after so many steps of Tab, back when negative; None where there is nothing."""
    actions = pressable(view)
    if not actions:
        return None
    if focus not in actions:
        return actions[0 if step > 0 else -1]
    return actions[(actions.index(focus) + step) % len(actions)]
