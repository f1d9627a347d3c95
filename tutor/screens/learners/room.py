"""The room in which you choose who learns."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.screens.learners.commands import NAME, Own
from tutor.screens.learners.state import IN_HAND, InHand
from tutor.screens.learners.update import added, back, changed, done, on_page, refused, submitted
from tutor.screens.learners.view import learners
from tutor.session.commands import RoomCommand
from tutor.session.house import Room, Session, Update
from tutor.session.record_commands import LearnerChanged, LearnerRefused, RecordsOpened, StoreAnswer
from tutor.session.state import Writing
from tutor.ui.view import View


class Learners(Room):
    """Those who are known, a field for a new name, and what can be done to one of them."""

    name = NAME

    def opened(self, session: Session, now: float) -> Session:
        """The field is empty and ready to type into."""
        return on_page(session, InHand(removed=IN_HAND.of(session).removed))

    def left(self, session: Session) -> Session:
        """A name half typed is not kept, nor whom you had in hand."""
        session = replace(session, writing=Writing())
        return IN_HAND.put(session, InHand(removed=IN_HAND.of(session).removed))

    def closed(self, session: Session, now: float) -> Session | None:
        """One page back."""
        return back(session)

    def page(self, session: Session) -> object:
        """What is shown beside the list."""
        in_hand = IN_HAND.of(session)
        return in_hand.page, in_hand.name

    def does(self, session: Session, command: RoomCommand, now: float) -> Update:
        """Carry out a command of learners; on another screen it changes nothing."""
        if not isinstance(command, Own):
            return super().does(session, command, now)
        return done(session, command) if session.screen == NAME else (session, ())

    def writes(self, session: Session) -> bool:
        """A name can be written, of somebody new or of the learner in hand."""
        return IN_HAND.of(session).page.writes

    def submitted(self, session: Session, now: float) -> Update:
        """A name was typed."""
        return submitted(session)

    def told(self, session: Session, command: StoreAnswer, now: float) -> Update | None:
        """The learner who was added is there, or could not be added."""
        if session.screen != NAME:
            return None
        match command:
            case RecordsOpened():
                return added(session, command)
            case LearnerRefused():
                return refused(session, command)
            case LearnerChanged():
                return changed(session, command)
            case _:
                return None

    def view(self, session: Session, now: float) -> View:
        """All that is seen of it."""
        return learners(session)
