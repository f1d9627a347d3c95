"""The room of what you choose once."""

from __future__ import annotations

from tutor.screens.settings import words
from tutor.screens.settings.commands import NAME
from tutor.screens.settings.view import settings_screen
from tutor.session.house import Room, Session
from tutor.ui.view import View


class SettingsRoom(Room):
    """How the program looks and works."""

    name = NAME
    bar_label = words.NAME

    def view(self, session: Session, now: float) -> View:
        """All that you see of it."""
        return settings_screen(session)
