"""What is seen of saving: the buttons in the bar, and how far it is at the window's foot."""

from __future__ import annotations

from tutor.session.commands import Act
from tutor.session.keymap import bindings_of
from tutor.session.keys import sign_for
from tutor.session.saving_commands import Kind
from tutor.session.state import Session
from tutor.ui.view import Button, Screen


def saving_buttons(session: Session, *, stage: bool) -> tuple[Button, ...]:
    """Where there is a stage, buttons that save it; while something is saved, one that stops it."""
    if session.saving.under_way is not None:
        return (Button(Act.STOP_SAVING, "Stop saving", sign_for(Act.STOP_SAVING, session.screen)),)
    if session.screen is Screen.PROGRESS and session.records.practised:
        return (
            Button(Act.SAVE_PICTURE, "Save picture"),
            Button(Act.SAVE_TABLE, "Save table"),
        )
    if not stage:
        return ()
    # Their keys are on the key sheet; here they would take a second row in a small window.
    picture = Button(Act.SAVE_PICTURE, "Save picture")
    if session.attempt is None:
        # A cube being painted has no turns.
        return (picture,)
    return (picture, Button(Act.SAVE_CLIP, "Save clip"))


def foot(session: Session) -> str:
    """The line at the window's foot: how far saving is, that a lesson is coming, and what there is to say."""
    coming = session.screen is Screen.HOME and session.lesson_awaited is not None
    told = (_progress(session), "The lesson is being opened …" if coming else "", session.notice)
    return "  ·  ".join(text for text in told if text)


def _progress(session: Session) -> str:
    saving = session.saving
    if saving.under_way is None:
        return ""
    share = f" {saving.share:.0%}" if saving.under_way is Kind.CLIP else ""
    key = sign_for(Act.STOP_SAVING, session.screen, bindings_of(session.settings))
    return f"Saving the {saving.under_way.value} …{share}" + (f" ({key} stops it)" if key else "")
