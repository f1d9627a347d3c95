"""The keys of free play."""

from __future__ import annotations

from tutor.screens.free_play import words
from tutor.screens.free_play.commands import NAME, FreeAct
from tutor.session.binding import Binding
from tutor.session.keys import whole_cube_keys

KEYS = (
    *whole_cube_keys(NAME),
    Binding("0", FreeAct.RESET, words.KEY_SOLVED_CUBE, words.NAME, room=NAME),
    Binding("i", FreeAct.EXPLAIN, words.KEY_EXPLAIN, words.NAME, room=NAME, yields=True),
)
