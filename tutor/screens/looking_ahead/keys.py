"""The keys of looking ahead."""

from __future__ import annotations

from tutor.screens.looking_ahead.commands import NAME, AheadAct
from tutor.session.binding import Binding, When
from tutor.session.keys import answer_keys

_GROUP = "Looking ahead"
KEYS = (
    Binding("up", AheadAct.QUICKER, "more turns a minute", _GROUP, when=When.SHOWING, room=NAME),
    Binding("down", AheadAct.CALMER, "fewer turns a minute", _GROUP, when=When.SHOWING, room=NAME),
    *answer_keys(NAME),
)
