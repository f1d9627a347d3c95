"""The keys shown on buttons, when a person has chosen others than the usual ones."""

from __future__ import annotations

from dataclasses import replace

from tutor.session.keymap import bindings_of
from tutor.session.keys import BINDINGS, Binding, key_sign, sign_for
from tutor.session.settings import Settings
from tutor.ui.view import Block, Button, ButtonRow, Group, Screen, View


def with_own_keys(view: View, settings: Settings) -> View:
    """The view with the keys that hold on every button that shows one; the same view with the usual keys."""
    bindings = bindings_of(settings)
    if bindings == BINDINGS:
        return view
    keys = _Keys(view.screen, bindings)
    rail = view.rail and replace(view.rail, controls=keys.on_buttons(view.rail.controls))
    return replace(
        view,
        bar=keys.on_buttons(view.bar),
        page=tuple(keys.on_blocks(column) for column in view.page),
        card=keys.on_blocks(view.card),
        overlay=keys.on_blocks(view.overlay),
        rail=rail,
    )


class _Keys:
    """Puts other keys on the buttons of a screen."""

    def __init__(self, screen: Screen, bindings: tuple[Binding, ...]) -> None:
        self._screen, self._bindings = screen, bindings

    def _on_button(self, button: Button) -> Button:
        """A button shows its own command's key, or one that presses it whatever it does, such as Enter."""
        shown = [
            binding.command
            for binding in BINDINGS
            if self._screen in binding.screens and key_sign(binding) == button.key
        ]
        if not button.key or not shown:
            return button
        command = button.action if button.action in shown else shown[0]
        return replace(button, key=sign_for(command, self._screen, self._bindings))

    def on_buttons(self, buttons: tuple[Button, ...]) -> tuple[Button, ...]:
        return tuple(self._on_button(button) for button in buttons)

    def on_blocks(self, blocks: tuple[Block, ...]) -> tuple[Block, ...]:
        return tuple(self._on_block(block) for block in blocks)

    def _on_block(self, block: Block) -> Block:
        match block:
            case Button():
                return self._on_button(block)
            case ButtonRow(buttons):
                return ButtonRow(self.on_buttons(buttons))
            case Group(inner):
                return Group(self.on_blocks(inner))
            case _:
                return block
