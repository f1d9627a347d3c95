"""The room that shows how well a learner remembers each case."""

from __future__ import annotations

from collections.abc import Iterable

from tutor.screens.progress import update, words
from tutor.screens.progress.commands import NAME, ProgressAct
from tutor.screens.progress.keys import KEYS
from tutor.screens.progress.view import progress
from tutor.session.commands import Act, RoomCommand
from tutor.session.effect import Effect
from tutor.session.house import Room, Session, Update, way_to
from tutor.ui.view import Button, View


class ProgressRoom(Room):
    """The cases as a map, what turns cost, and figures over time."""

    name = NAME
    keys = KEYS

    def door(self, session: Session) -> Button:
        """From Home."""
        return way_to(self, words.TITLE, words.DOOR)

    def does(self, session: Session, command: RoomCommand, now: float) -> Update:
        """Carry out a command of this screen."""
        if command is ProgressAct.SAVE_TABLE:
            return update.table_wanted(session)
        if command is ProgressAct.NEW_DAY:
            return update.day_begun(session, now)
        return super().does(session, command, now)

    def kept_up(self, before: Session, after: Session, filed: Iterable[Effect], now: float) -> Update:
        """Its figures are asked for when it opens, and again when there are more of them."""
        return update.asked(before, after, now)

    def due(self, session: Session, now: float) -> RoomCommand | None:
        """Its figures anew once the day is over for which they were asked."""
        return ProgressAct.NEW_DAY if update.new_day(session, now) else None

    def view(self, session: Session, now: float) -> View:
        """All that is seen of it."""
        return progress(session)

    def saving_buttons(self, session: Session) -> tuple[Button, ...]:
        """The page as a picture, the cases as a table."""
        if not session.records.practised:
            return ()
        picture = Button(Act.SAVE_PICTURE, words.SAVE_PICTURE)
        return picture, Button(ProgressAct.SAVE_TABLE, words.SAVE_TABLE)

    def picture(self, session: Session) -> Update:
        """The whole page."""
        return update.sheet_wanted(session)
