"""The keys of looking ahead."""

from __future__ import annotations

from tutor.screens.looking_ahead import words
from tutor.screens.looking_ahead.commands import NAME, AheadAct
from tutor.session.binding import Binding, When
from tutor.session.keys import answer_keys

KEYS = (
    Binding("up", AheadAct.QUICKER, words.KEY_QUICKER, words.KEYS, when=When.SHOWING, room=NAME),
    Binding("down", AheadAct.CALMER, words.KEY_CALMER, words.KEYS, when=When.SHOWING, room=NAME),
    *answer_keys(NAME),
)
