"""Buttons with their keys, without those that lead to a room that is not there."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.session.binding import Binding
from tutor.session.house import Session
from tutor.session.keymap import bindings_of
from tutor.session.keys import holds, key_sign, sign_for, table
from tutor.ui.focus import Walk
from tutor.ui.view import Block, Button, ButtonRow, Group, Miniature, MiniatureGrid, View


def with_keys(view: View, session: Session) -> View:
    """The view with a key on every button that has one, without buttons that lead nowhere."""
    keys = _Keys(session)
    return replace(
        view,
        bar=keys.on_buttons(view.bar),
        more=keys.on_buttons(view.more),
        page=tuple(keys.on_blocks(column) for column in view.page),
        card=keys.on_blocks(view.card),
        foot=keys.on_blocks(view.foot),
        overlay=keys.on_blocks(view.overlay),
        rail=view.rail and replace(view.rail, controls=keys.on_buttons(view.rail.controls)),
    )


def keyed(buttons: tuple[Button, ...], session: Session) -> tuple[Button, ...]:
    """The buttons with their keys."""
    return _Keys(session).on_buttons(buttons)


def keyed_blocks(blocks: tuple[Block, ...], session: Session) -> tuple[Block, ...]:
    """The blocks with their buttons' keys."""
    return _Keys(session).on_blocks(blocks)


class _Keys:
    """Puts keys on the buttons of a screen."""

    def __init__(self, session: Session) -> None:
        self._room, self._leads = session.room, session.house.leads_somewhere
        self._usual, self._bindings = table(session.house), bindings_of(session)

    def _on_button(self, button: Button) -> Button:
        """A button shows its own command's key, or one that presses it whatever it does, such as Enter."""
        if button.key is None:
            return replace(button, key=self._sign(button))
        if not button.key or self._bindings == self._usual:
            return button
        shown = [each.command for each in self._usual if self._shows(each, button.key)]
        if not shown:
            return button
        command = button.action if button.action in shown else shown[0]
        return replace(button, key=sign_for(command, self._room, self._bindings))

    def _sign(self, button: Button) -> str:
        own = sign_for(button.action, self._room, self._bindings)
        return sign_for(Walk.PRESS, self._room, self._bindings) if button.primary and not own else own

    def _shows(self, binding: Binding, sign: str) -> bool:
        return holds(binding, self._room) and key_sign(binding) == sign

    def on_buttons(self, buttons: tuple[Button, ...]) -> tuple[Button, ...]:
        return tuple(self._on_button(button) for button in buttons if self._leads(button.action))

    def on_blocks(self, blocks: tuple[Block, ...]) -> tuple[Block, ...]:
        there = (block for block in blocks if not isinstance(block, Button) or self._leads(block.action))
        return tuple(self._on_block(block) for block in there)

    def _on_block(self, block: Block) -> Block:
        match block:
            case Button():
                return self._on_button(block)
            case ButtonRow(buttons):
                return ButtonRow(self.on_buttons(buttons))
            case Group(inner):
                return Group(self.on_blocks(inner))
            case MiniatureGrid(miniatures):
                return replace(block, miniatures=tuple(map(self._on_miniature, miniatures)))
            case _:
                return block

    def _on_miniature(self, miniature: Miniature) -> Miniature:
        return miniature if self._leads(miniature.action) else replace(miniature, action=None)
