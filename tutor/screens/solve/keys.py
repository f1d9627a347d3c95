"""The keys of whole solves."""

from __future__ import annotations

from tutor.screens.solve import words
from tutor.screens.solve.commands import NAME, SolveAct
from tutor.session.binding import Binding
from tutor.session.keys import answer_keys, whole_cube_keys
from tutor.ui.inputs import Modifier

KEYS = (
    *whole_cube_keys(NAME),
    *answer_keys(NAME),
    Binding("c", SolveAct.COPY_POSITION, words.KEY_COPY, words.KEYS, modifiers=Modifier.CONTROL, room=NAME),
)
