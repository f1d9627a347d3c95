"""The room of what is chosen once."""

from __future__ import annotations

from tutor.screens.settings.commands import NAME
from tutor.screens.settings.view import settings_screen
from tutor.session.house import Room, Session
from tutor.ui.view import View


class SettingsRoom(Room):
    """How everything looks and works."""

    name = NAME
    bar_label = "Settings"

    def view(self, session: Session, now: float) -> View:
        """All that is seen of it."""
        return settings_screen(session)
