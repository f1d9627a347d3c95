"""The keys of a lesson."""

from __future__ import annotations

from tutor.screens.lesson.commands import NAME, Page
from tutor.session.binding import Binding
from tutor.session.keys import answer_keys

KEYS = (
    Binding("page down", Page.SKIP, "go on without answering", "Learning", room=NAME),
    Binding("page up", Page.BACK, "go back", "Learning", room=NAME),
    *answer_keys(NAME),
)
