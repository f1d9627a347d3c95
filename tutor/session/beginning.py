"""A session as it begins."""

from __future__ import annotations

from tutor.session.house import House, Session
from tutor.session.navigation import begun
from tutor.session.settings import Settings
from tutor.session.state import LessonTitle


def new_session(house: House, settings: Settings, lessons: tuple[LessonTitle, ...]) -> Session:
    """A session at its beginning: in the first room of the house, with every room as it begins."""
    return begun(Session(house, settings, lessons, house.first.name))
