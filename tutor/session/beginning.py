"""A session as it begins."""

from __future__ import annotations

from tutor.cube.position import SOLVED
from tutor.session.history import History
from tutor.session.play import aimed, held_by_choice
from tutor.session.settings import Settings
from tutor.session.state import Attempt, LessonTitle, Session


def new_session(settings: Settings, lessons: tuple[LessonTitle, ...]) -> Session:
    """A session at its beginning, with a solved cube in free play."""
    attempt = Attempt(History(held_by_choice(SOLVED, settings)))
    return Session(settings, lessons, aimed(attempt, settings.cross))
