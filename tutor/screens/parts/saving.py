"""What you see of saving: the buttons under More, and how far it is in the notice."""

from __future__ import annotations

from tutor.screens.parts import words
from tutor.session.commands import Act
from tutor.session.house import Session
from tutor.session.keymap import bindings_of
from tutor.session.keys import sign_for
from tutor.session.saving_commands import SavedKind
from tutor.ui.view import Button


def saving_buttons(session: Session, *, stage: bool) -> tuple[Button, ...]:
    """Where there is a stage, buttons that save it; while something is saved, one that stops it."""
    if session.saving.under_way is not None:
        return (Button(Act.STOP_SAVING, words.STOP_SAVING),)
    own = session.room.saving_buttons(session)
    if own or not stage:
        return own
    picture = Button(Act.SAVE_PICTURE, words.SAVE_PICTURE)
    if session.attempt is None:
        # A cube being painted has no turns.
        return (picture,)
    return (picture, Button(Act.SAVE_CLIP, words.SAVE_CLIP))


def notice_line(session: Session) -> str:
    """What the program has to say: how far saving is, what is coming, and what there is to say."""
    told = (_progress(session), session.coming, session.notice)
    return "  ·  ".join(text for text in told if text)


def _progress(session: Session) -> str:
    saving = session.saving
    if saving.under_way is None:
        return ""
    share = saving.share if saving.under_way is SavedKind.CLIP else None
    key = sign_for(Act.STOP_SAVING, session.room, bindings_of(session))
    return words.saving(saving.under_way.value, share, key)
