"""The texts of a view: what a person reads on one screen."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from msgspec import Struct

from tutor.screens.parts.card import texts_in
from tutor.ui.view import Block, View

NOT_READ = {"screen", "look", "stage", "focus", "action", "command", "key"}
"""Fields of views and blocks that hold no text for people."""


def texts_shown(view: View) -> tuple[str, ...]:
    """Every text of a view, each once, from top to bottom."""
    return tuple(dict.fromkeys(_texts(view)))


def card_texts(blocks: tuple[Block, ...]) -> tuple[str, ...]:
    """The sentences of a card: what is to be pressed, typed or looked up in a table is left out."""
    return texts_in(blocks)


def _texts(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, tuple | list):
        for each in value:
            yield from _texts(each)
    elif isinstance(value, Struct):
        for name in value.__struct_fields__:
            if name not in NOT_READ:
                yield from _texts(getattr(value, name))
