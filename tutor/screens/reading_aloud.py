"""What is read aloud of a screen: the sentences on its card, and of a card that changed what is new on it."""

from __future__ import annotations

from collections.abc import Iterator

from tutor.session.commands import ChooseAnswer
from tutor.ui.view import Block, Button, Group, Mark, Text, TextStyle, VerdictNote, View


def read_aloud(view: View) -> tuple[str, ...]:
    """The sentences on the card in their order: its text, the verdict, the hint, and answers to choose."""
    return tuple(text.replace("•", "").strip() for text in _texts(view.card) if text)


def new_sentences(before: tuple[str, ...], now: tuple[str, ...]) -> tuple[str, ...]:
    """What a card says from the first sentence on that was not there before."""
    alike = 0
    while alike < min(len(before), len(now)) and before[alike] == now[alike]:
        alike += 1
    return now[alike:]


def _texts(blocks: tuple[Block, ...]) -> Iterator[str]:
    for block in blocks:
        match block:
            case Text(style=TextStyle.SMALL) | VerdictNote(mark=Mark.WAITING):
                pass
            case Text(text):
                yield text
            case VerdictNote(title=title, text=text):
                yield f"{title}. {text}"
            case Button(action=ChooseAnswer(), label=label, key=key):
                yield f"{key}: {label}."
            case Group(inner):
                yield from _texts(inner)
            case _:
                pass
