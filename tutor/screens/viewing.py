"""From a session to what is on the screen: ``view_of(session, now)``, pure."""

from __future__ import annotations

from dataclasses import replace

from tutor.screens.parts.card import help_blocks, texts_in, word_blocks
from tutor.screens.parts.failure import failure_blocks
from tutor.screens.parts.keys import keyed_blocks
from tutor.session.house import Session
from tutor.session.state import Sheet
from tutor.ui.view import Block, View


def view_of(session: Session, now: float) -> View:
    """The view at a moment: the open room's, and what lies over it."""
    view = session.room.view(session, now)
    if session.failure:
        return _under(view, failure_blocks(session), session)
    match session.sheet:
        case Sheet.KEYS:
            return _under(view, help_blocks(session), session)
        case Sheet.WORDS:
            said = tuple(text for column in (view.card, *view.page) for text in texts_in(column))
            return _under(view, word_blocks(said), session)
        case Sheet.NONE:
            return view


def _under(view: View, blocks: tuple[Block, ...], session: Session) -> View:
    """The view with blocks lying over it."""
    return replace(view, overlay=keyed_blocks(blocks, session))
