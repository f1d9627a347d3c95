"""The keys of the Progress screen."""

from __future__ import annotations

from tutor.screens.progress import words
from tutor.screens.progress.commands import NAME, ProgressAct
from tutor.session.binding import Binding
from tutor.session.commands import Act
from tutor.ui.inputs import Modifier

_CONTROL = Modifier.CONTROL
KEYS = (
    Binding("s", Act.SAVE_PICTURE, words.KEY_PICTURE, words.KEYS_OF_SAVING, modifiers=_CONTROL, room=NAME),
    Binding(
        "s",
        ProgressAct.SAVE_TABLE,
        words.KEY_TABLE,
        words.KEYS_OF_SAVING,
        modifiers=_CONTROL | Modifier.SHIFT,
        room=NAME,
    ),
)
