"""From a session to what is on the screen: ``view_of(session, now)``, pure."""

from __future__ import annotations

from functools import lru_cache

from msgspec.structs import replace

from tutor.screens.parts.card import help_blocks, texts_in, told_blocks, word_blocks
from tutor.screens.parts.failure import failure_blocks
from tutor.screens.parts.keys import keyed_blocks
from tutor.screens.parts.words import CLOSE
from tutor.session.commands import Act
from tutor.session.house import Session
from tutor.session.state import Sheet
from tutor.ui.view import Block, Button, View


def view_of(session: Session, now: float) -> View:
    """The view at a moment: the open room's, and what lies over it."""
    view = session.room.view(session, now)
    return replace(view, overlay=_lying_over(session)) if session.covered else view


@lru_cache(maxsize=4)
def _lying_over(session: Session) -> tuple[Block, ...]:
    """What lies over the screen. It stays as it is while turns play beneath it."""
    blocks: tuple[Block, ...]
    if session.failure:
        blocks = failure_blocks(session)
    elif session.sheet is Sheet.KEYS:
        blocks = help_blocks(session)
    elif session.sheet is Sheet.TOLD:
        blocks = told_blocks(session.told)
    elif session.sheet is Sheet.MENU:
        blocks = (*session.room.view(session, 0.0).more, Button(Act.MENU, CLOSE, primary=True))
    else:
        view = session.room.view(session, 0.0)
        blocks = word_blocks(tuple(text for column in (view.card, *view.page) for text in texts_in(column)))
    return keyed_blocks(blocks, session)
