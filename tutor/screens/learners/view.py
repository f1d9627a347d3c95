"""The screen on which it is chosen who learns."""

from __future__ import annotations

from functools import lru_cache

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
        Text("Who is learning?", TextStyle.TITLE),
        Text(
            "What each one has practised is kept apart. Saved solves and the painted cube are for all.",
            tone=Tone.MUTED,
        ),
    ]
    known += [
        Button(ChooseLearner(name), name, selected=name == records.learner) for name in records.learners
    ]
    field = Entry(
        Act.WRITE,
        "Name, then Enter",
        writing.text,
        writing.caret,
        focused=writing.open,
        error=writing.error,
    )
    new: list[Block] = [
        Text("Somebody new", TextStyle.HEADING),
        Text("A first name will do. It stays on this computer.", tone=Tone.MUTED),
        field,
        Gap(1),
    ]
    return screen_view(session, "Learners", page=(tuple(known), tuple(new)))
