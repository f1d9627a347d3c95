"""The keys of the Progress screen."""

from __future__ import annotations

from tutor.screens.progress.commands import NAME, ProgressAct
from tutor.session.binding import Binding
from tutor.session.commands import Act
from tutor.ui.inputs import Modifier

_CONTROL = Modifier.CONTROL
KEYS = (
    Binding("s", Act.SAVE_PICTURE, "save a picture of this page", "Saving", modifiers=_CONTROL, room=NAME),
    Binding(
        "s",
        ProgressAct.SAVE_TABLE,
        "save the cases as a table",
        "Saving",
        modifiers=_CONTROL | Modifier.SHIFT,
        room=NAME,
    ),
)
