"""The room that shows how the group is doing."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec.structs import replace

from tutor.screens.group import update, words
from tutor.screens.group.commands import NAME, GroupAct, Own
from tutor.screens.group.keys import KEYS
from tutor.screens.group.state import ASSIGNED, LOOK, REPORT
from tutor.screens.group.view import group
from tutor.session.commands import Act, RoomCommand
from tutor.session.effect import Effect
from tutor.session.house import Room, Session, Update, way_to
from tutor.session.record_commands import AssignedKept, GroupReported, StoreAnswer
from tutor.ui.view import Button, View


class GroupRoom(Room):
    """Learners by cases, a case across the group, and the last evening."""

    name = NAME
    keys = KEYS

    def door(self, session: Session) -> Button | None:
        """From Home, once somebody has a name or a folder is shared."""
        many = len(session.records.learners) > 1 or session.records.exchanged is not None
        return way_to(self, words.TITLE, words.DOOR) if many else None

    def page(self, session: Session) -> object:
        """How the cases are ordered."""
        return LOOK.of(session).by_number

    def does(self, session: Session, command: RoomCommand, now: float) -> Update:
        """Carry out a command of this screen."""
        if not isinstance(command, Own):
            return super().does(session, command, now)
        return update.done(session, command, now)

    def kept_up(self, before: Session, after: Session, filed: Iterable[Effect], now: float) -> Update:
        """Its figures are asked for when it opens, and again when there are more; lessons given get done."""
        return after, (*update.asked(before, after), *update.finished(before, after))

    def told(self, session: Session, command: StoreAnswer, now: float) -> Update | None:
        """The figures are ready, or somebody was given something to do."""
        match command:
            case GroupReported(report, assigned):
                return ASSIGNED.put(REPORT.put(session, report), assigned), ()
            case AssignedKept(standing, assigned, problem):
                session = replace(session, records=session.records.standing(standing))
                return ASSIGNED.put(replace(session, notice=problem or session.notice), assigned), ()
            case _:
                return None

    def view(self, session: Session, now: float) -> View:
        """All that is seen of it."""
        return group(session)

    def saving_buttons(self, session: Session) -> tuple[Button, ...]:
        """The page as a picture, the map as a table."""
        if REPORT.of(session) is None:
            return ()
        picture = Button(Act.SAVE_PICTURE, words.SAVE_PICTURE)
        return picture, Button(GroupAct.SAVE_TABLE, words.SAVE_TABLE)

    def picture(self, session: Session) -> Update:
        """The whole page."""
        return update.sheet_wanted(session)
