"""The field in which moves are written."""

from __future__ import annotations

from dataclasses import replace

from tutor.session.commands import EditKey
from tutor.session.state import Writing

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
    fits = "".join(character for character in text if character.isprintable() or character == " ")
    fits = fits[: max(0, LONGEST_TEXT - len(writing.text))]
    joined = writing.text[: writing.caret] + fits + writing.text[writing.caret :]
    return Writing(True, joined, writing.caret + len(fits))


def edited(writing: Writing, key: EditKey) -> Writing:
    """After an editing key other than the one that submits."""
    text, caret = writing.text, writing.caret
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
