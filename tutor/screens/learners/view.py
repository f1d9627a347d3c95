"""The Learners screen: you choose who learns."""

from __future__ import annotations

from functools import lru_cache

from tutor.screens.learners import words
from tutor.screens.parts.frame import screen_view
from tutor.session.commands import Act
from tutor.session.house import Session
from tutor.session.record_commands import ChooseLearner
from tutor.ui.view import Block, Button, Entry, Gap, Text, TextStyle, Tone, View


@lru_cache(maxsize=2)
def learners(session: Session) -> View:
    """Everybody who is known, and a field for a new name."""
    records, writing = session.records, session.writing
    known: list[Block] = [
        Text(words.WHO, TextStyle.TITLE),
        Text(words.APART, tone=Tone.MUTED),
    ]
    known += [
        Button(ChooseLearner(name), name, selected=name == records.learner) for name in records.learners
    ]
    field = Entry(
        Act.WRITE,
        words.FIELD,
        writing.text,
        writing.caret,
        focused=writing.open,
        error=writing.error,
    )
    new: list[Block] = [
        Text(words.NEW, TextStyle.HEADING),
        Text(words.FIRST_NAME, tone=Tone.MUTED),
        field,
        Gap(1),
    ]
    return screen_view(session, words.TITLE, page=(tuple(known), tuple(new)))
