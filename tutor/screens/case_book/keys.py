"""The keys of the case book."""

from __future__ import annotations

from tutor.screens.case_book.commands import NAME, BookAct
from tutor.session.binding import Binding

KEYS = (Binding("t", BookAct.TRY, "try the case", "Case book", room=NAME),)
