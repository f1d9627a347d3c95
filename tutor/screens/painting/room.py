"""The room in which you paint your own cube."""

from __future__ import annotations

from collections.abc import Iterable

from tutor.screens.painting import update, words
from tutor.screens.painting.commands import NAME, Own, Paint, PaintingFound
from tutor.screens.painting.keys import KEYS
from tutor.screens.painting.state import PAINTING
from tutor.screens.painting.view import painting_screen
from tutor.screens.solve.commands import NAME as SOLVE
from tutor.session.commands import RoomCommand
from tutor.session.effect import Effect
from tutor.session.house import Room, Session, Update, way_to
from tutor.ui.view import Button, View


class PaintingRoom(Room):
    """A cube that you paint sticker by sticker."""

    name = NAME
    up = SOLVE
    keys = KEYS

    def door(self, session: Session) -> Button:
        """The button on the page of whole solves; it says how much is painted already."""
        painting = PAINTING.of(session)
        painted = 0 if painting is None else painting.painted
        return way_to(self, words.TITLE, words.painted(painted) if painted else words.NOTHING_PAINTED)

    def does(self, session: Session, command: RoomCommand, now: float) -> Update:
        """Carry out a command of painting; on another screen it changes nothing."""
        if not isinstance(command, Own):
            return super().does(session, command, now)
        if isinstance(command, PaintingFound):
            return update.found(session, command), ()
        if session.screen != NAME:
            return session, ()
        if isinstance(command, Paint):
            return update.act(session, command, now)
        return update.painted(session, command), ()

    def gone_on(self, session: Session, now: float) -> Update:
        """Begin a solve of the painted cube, once turns can reach it."""
        return update.act(session, Paint.SOLVE, now)

    def pointed(self, session: Session, sticker: int, now: float) -> Session:
        """Paint a sticker of the cube on the stage."""
        return update.on_sticker(session, sticker)

    def writes(self, session: Session) -> bool:
        """Always, for a person can write a cube here at any time."""
        return True

    def submitted(self, session: Session, now: float) -> Update:
        """Take over the cube that was written."""
        return update.submitted(session), ()

    def learner_changed(self, session: Session) -> Session:
        """Everybody paints a cube of their own."""
        return PAINTING.put(session, None)

    def kept_up(self, before: Session, after: Session, filed: Iterable[Effect], now: float) -> Update:
        """Save what is painted for the next time."""
        return after, update.kept(before, after)

    def view(self, session: Session, now: float) -> View:
        """The screen."""
        return painting_screen(session)
