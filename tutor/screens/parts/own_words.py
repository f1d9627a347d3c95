"""A learner's own line for a case on any screen: shown, written, changed, or removed."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.progress.attempt import AttemptError
from tutor.progress.own_words import check_line
from tutor.screens.parts import words
from tutor.session.house import Session, Update
from tutor.session.record_commands import KeepOwnWords
from tutor.session.state import Writing
from tutor.ui.action import Action
from tutor.ui.view import Block, Button, Text


def own_line(session: Session, slug: str) -> str:
    """The learner's line for a case; empty without one."""
    return session.records.own_words.get(slug, "")


def line_blocks(session: Session, slug: str) -> tuple[Block, ...]:
    """The learner's line, where there is one."""
    line = own_line(session, slug)
    return (Text(words.in_your_own_words(line)),) if line else ()


def line_button(session: Session, slug: str, action: Action) -> Button:
    """The button that opens the field for the line."""
    return Button(action, words.CHANGE_OWN_WORDS if own_line(session, slug) else words.WRITE_OWN_WORDS)


def opened(session: Session, slug: str) -> Session:
    """The field with the line as it is, ready to be written in."""
    line = own_line(session, slug)
    return replace(session, writing=Writing(True, line, len(line)))


def submitted(session: Session, slug: str) -> Update:
    """Keep the line as written; with a mistake in it the text stays."""
    text = session.writing.text.strip()
    try:
        check_line(text)
    except AttemptError as error:
        return replace(session, writing=replace(session.writing, error=str(error), error_column=None)), ()
    kept = KeepOwnWords(session.records.learner, slug, text)
    return replace(session, writing=Writing()), (kept,)
