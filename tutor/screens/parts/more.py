"""What a card says at once, and what it says when it is asked for more."""

from __future__ import annotations

from tutor.screens.parts import words
from tutor.session.commands import Act
from tutor.session.house import Session
from tutor.ui.view import Block, Button


def told(session: Session, first: tuple[Block, ...], more: tuple[Block, ...]) -> tuple[Block, ...]:
    """The first blocks, and the others once the learner has asked to be told more here."""
    if not more:
        return first
    if session.tells_more:
        return (*first, *more, Button(Act.TELL_MORE, words.TELL_ME_LESS))
    return (*first, Button(Act.TELL_MORE, words.TELL_ME_MORE))
