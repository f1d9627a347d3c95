"""The room in which you choose who learns."""

from __future__ import annotations

from dataclasses import replace

from tutor.screens.learners.commands import NAME
from tutor.screens.learners.update import added, refused, submitted
from tutor.screens.learners.view import learners
from tutor.session.house import Room, Session, Update
from tutor.session.record_commands import LearnerRefused, RecordsOpened, StoreAnswer
from tutor.session.state import Writing
from tutor.ui.view import View


class Learners(Room):
    """Those who are known, and a field for a new name."""

    name = NAME

    def opened(self, session: Session, now: float) -> Session:
        """The field is empty and ready to type into."""
        return replace(session, writing=Writing(open=True))

    def left(self, session: Session) -> Session:
        """A name half typed is not kept."""
        return replace(session, writing=Writing())

    def writes(self, session: Session) -> bool:
        """A name can be written."""
        return True

    def submitted(self, session: Session, now: float) -> Update:
        """A name was typed."""
        return submitted(session)

    def told(self, session: Session, command: StoreAnswer, now: float) -> Update | None:
        """The learner who was added is there, or could not be added."""
        if session.screen != NAME:
            return None
        match command:
            case RecordsOpened():
                return added(session, command, now)
            case LearnerRefused():
                return refused(session, command)
            case _:
                return None

    def view(self, session: Session, now: float) -> View:
        """All that is seen of it."""
        return learners(session)
