"""The field in which moves are written."""

from __future__ import annotations

import re

from msgspec.structs import replace

from tutor.session.commands import EditKey
from tutor.session.state import Writing

_MOVE = re.compile(r"[UDLRFBxyz]w?[0-9]*['’]?[0-9]*")
# Digits belong to one place only: trying them in two would take ever longer with every move.
_IN_SMALL = re.compile(r"(?:\s*[udlrfbUDLRFBxyz]w?[0-9]*(?:['’][0-9]*)?)+\s*")
LONGEST_TEXT = 2000
"""Characters a field holds."""


def opened(writing: Writing) -> Writing:
    """The field ready to write in; what was written stays."""
    return replace(writing, open=True, caret=len(writing.text))


def closed(writing: Writing) -> Writing:
    """The field away; what was written stays."""
    return replace(writing, open=False, error="", error_column=None)


def typed(writing: Writing, text: str) -> Writing:
    """With characters put in at the caret."""
    if writing.chosen:
        fits = _printable(text)[:LONGEST_TEXT]
        return Writing(True, fits, len(fits))
    fits = _printable(text)[: max(0, LONGEST_TEXT - len(writing.text))]
    joined = writing.text[: writing.caret] + fits + writing.text[writing.caret :]
    return Writing(True, joined, writing.caret + len(fits))


def _printable(text: str) -> str:
    return "".join(character for character in text if character.isprintable() or character == " ")


def cleared(writing: Writing) -> Writing:
    """The field open and empty, or away when it was empty already."""
    return Writing(True) if writing.text else closed(writing)


def capital_reading(text: str) -> str | None:
    """What was written with every face's letter a capital, one space between moves; None where that is it."""
    if _IN_SMALL.fullmatch(text) is None:
        return None
    capitals = "".join(each.upper() if each in "udlrfb" else each for each in text)
    reading = " ".join(_MOVE.findall(capitals))
    return None if reading == text else reading


def edited(writing: Writing, key: EditKey) -> Writing:
    """After an editing key other than the one that submits."""
    text, caret = writing.text, writing.caret
    if key is EditKey.ALL:
        return replace(writing, chosen=bool(text), caret=len(text))
    if writing.chosen and key in (EditKey.ERASE, EditKey.ERASE_AHEAD):
        return Writing(True)
    writing = replace(writing, chosen=False)
    match key:
        case EditKey.ERASE if caret:
            return Writing(True, text[: caret - 1] + text[caret:], caret - 1)
        case EditKey.ERASE_AHEAD if caret < len(text):
            return Writing(True, text[:caret] + text[caret + 1 :], caret)
        case EditKey.LEFT:
            return replace(writing, caret=max(0, caret - 1))
        case EditKey.RIGHT:
            return replace(writing, caret=min(len(text), caret + 1))
        case EditKey.START:
            return replace(writing, caret=0)
        case EditKey.END:
            return replace(writing, caret=len(text))
        case _:
            return writing
