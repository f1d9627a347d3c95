"""From a session to what is on the screen: ``view_of(session, now)``, pure."""

from __future__ import annotations

from dataclasses import replace

from tutor.screens.parts.card import help_blocks, texts_in, word_blocks
from tutor.screens.parts.failure import failure_blocks
from tutor.session.state import Session, Sheet
from tutor.ui.view import View


def view_of(session: Session, now: float) -> View:
    """The view at a moment: the open room's, and what lies over it."""
    view = session.room.view(session, now)
    if session.failure:
        return replace(view, overlay=failure_blocks(session))
    match session.sheet:
        case Sheet.KEYS:
            return replace(view, overlay=help_blocks(session))
        case Sheet.WORDS:
            said = tuple(text for column in (view.card, *view.page) for text in texts_in(column))
            return replace(view, overlay=word_blocks(said))
        case Sheet.NONE:
            return view
