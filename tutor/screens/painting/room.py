"""The room in which one paints one's own cube."""

from __future__ import annotations

from collections.abc import Iterable

from tutor.screens.painting import update
from tutor.screens.painting.commands import NAME, Own, Paint
from tutor.screens.painting.keys import KEYS
from tutor.screens.painting.state import PAINTING
from tutor.screens.painting.view import painting_screen
from tutor.screens.solve.commands import NAME as SOLVE
from tutor.session.commands import RoomCommand
from tutor.session.effect import Effect
from tutor.session.house import Room, Session, Update, way_to
from tutor.ui.view import Button, View


class PaintingRoom(Room):
    """A cube painted sticker by sticker."""

    name = NAME
    up = SOLVE
    keys = KEYS

    def door(self, session: Session) -> Button:
        """From the page on which a whole solve begins; it tells what is painted already."""
        painting = PAINTING.of(session)
        painted = 0 if painting is None else painting.painted
        detail = f"{painted} of 48 stickers are painted." if painted else "Sticker by sticker, as you see it."
        return way_to(self, "Paint your cube", detail)

    def does(self, session: Session, command: RoomCommand, now: float) -> Update:
        """Carry out a command of painting; elsewhere it means nothing."""
        if not isinstance(command, Own):
            return super().does(session, command, now)
        if session.screen != NAME:
            return session, ()
        if isinstance(command, Paint):
            return update.act(session, command, now)
        return update.painted(session, command), ()

    def gone_on(self, session: Session, now: float) -> Update:
        """A solve of the painted cube, once turns can reach it."""
        return update.act(session, Paint.SOLVE, now)

    def pointed(self, session: Session, sticker: int, now: float) -> Session:
        """A sticker of the cube on the stage is painted."""
        return update.on_sticker(session, sticker)

    def writes(self, session: Session) -> bool:
        """A whole cube can be written."""
        return True

    def submitted(self, session: Session, now: float) -> Update:
        """A whole cube was written."""
        return update.submitted(session), ()

    def kept_up(self, before: Session, after: Session, filed: Iterable[Effect], now: float) -> Update:
        """What is painted is kept for the next time."""
        return after, update.kept(before, after)

    def view(self, session: Session, now: float) -> View:
        """All that is seen of it."""
        return painting_screen(session)
