"""The keys of the case book."""

from __future__ import annotations

from tutor.screens.case_book import words
from tutor.screens.case_book.commands import NAME, BookAct
from tutor.session.binding import Binding

KEYS = (
    Binding("t", BookAct.TRY, words.KEY_TRY, words.NAME, room=NAME),
    Binding("i", BookAct.OTHER_WAY, words.KEY_OTHER_WAY, words.NAME, room=NAME, yields=True),
)
