"""The keys of the Group screen."""

from __future__ import annotations

from tutor.screens.group import words
from tutor.screens.group.commands import NAME, GroupAct
from tutor.session.binding import Binding
from tutor.session.commands import Act
from tutor.ui.inputs import Modifier

_CONTROL = Modifier.CONTROL
_BOTH = _CONTROL | Modifier.SHIFT
KEYS = (
    Binding(
        "s",
        Act.SAVE_PICTURE,
        words.KEY_PICTURE,
        words.KEYS_OF_SAVING,
        modifiers=_CONTROL,
        room=NAME,
        yields=True,
    ),
    Binding(
        "s",
        GroupAct.SAVE_TABLE,
        words.KEY_TABLE,
        words.KEYS_OF_SAVING,
        modifiers=_BOTH,
        room=NAME,
        yields=True,
    ),
)
