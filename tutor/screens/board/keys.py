"""The keys of the board."""

from __future__ import annotations

from tutor.cube.notation import Axis, Rotation
from tutor.screens.board import words
from tutor.screens.board.commands import NAME, BoardAct
from tutor.session import words as session_words
from tutor.session.binding import Binding
from tutor.session.commands import Act, Command, Make
from tutor.session.keys import answer_keys
from tutor.ui.inputs import Modifier


def _own(key: str, command: Command, says: str, held: Modifier = Modifier.NONE) -> Binding:
    return Binding(key, command, says, words.NAME, modifiers=held, room=NAME, yields=True)


_TURNED_ROUND = Rotation(Axis.Y, 1)
_TURNED_BACK = Rotation(Axis.Y, 3)

KEYS = (
    _own("page down", Act.NEXT, words.KEY_NEXT),
    _own("page up", BoardAct.BACK, words.KEY_BACK),
    _own("b", BoardAct.BACK, words.KEY_BACK),
    _own("right", BoardAct.NEXT_CASE, words.KEY_NEXT_CASE),
    _own("left", BoardAct.CASE_BEFORE, words.KEY_CASE_BEFORE),
    _own("s", BoardAct.NEXT_SLOT, words.KEY_OTHER_SLOT),
    _own("m", BoardAct.MIRROR, words.KEY_MIRROR),
    _own("y", Make(_TURNED_ROUND), session_words.rotation("y")),
    _own("y", Make(_TURNED_BACK), session_words.rotation("y'"), Modifier.SHIFT),
    _own("a", BoardAct.SLOWLY, words.KEY_SLOWLY),
    _own("l", BoardAct.SPOTLIGHT, words.KEY_SPOTLIGHT),
    _own("g", BoardAct.ASK, words.KEY_ASK),
    *answer_keys(NAME),
    _own("backspace", BoardAct.FEWER, words.KEY_FEWER),
    _own("p", BoardAct.PREPARE, words.KEY_PREPARE),
)
TURN_ROUND = Make(_TURNED_ROUND)
"""What turns the cube a quarter round."""
