"""The room in which a learner follows the pieces of the next pair."""

from __future__ import annotations

from collections.abc import Iterable
from typing import assert_never

from tutor.cube.position import Position
from tutor.screens.looking_ahead import update, words
from tutor.screens.looking_ahead.commands import NAME, AheadAct, LookAheadFrom, Own
from tutor.screens.looking_ahead.keys import KEYS
from tutor.screens.looking_ahead.state import LOOKING
from tutor.screens.looking_ahead.view import looking_view
from tutor.screens.solve.commands import NAME as SOLVE
from tutor.session.attempts import held_by_choice
from tutor.session.binding import Shows
from tutor.session.commands import Question, RoomCommand
from tutor.session.effect import Effect
from tutor.session.history import History
from tutor.session.house import Room, Session, Update
from tutor.session.state import Attempt
from tutor.ui.view import Button, View


class LookingAheadRoom(Room):
    """The program plays one pair slowly while the learner follows the pieces of the next."""

    name = NAME
    up = SOLVE
    shows = Shows.CUBE
    keys = KEYS

    def door(self, session: Session) -> Button:
        """The button on the page of whole solves."""
        return Button(AheadAct.ANEW, words.TITLE, detail=words.WHAT)

    def page(self, session: Session) -> object:
        """How far the round is."""
        looking = LOOKING.of(session)
        return None if looking is None else (looking.watch, len(looking.stages))

    def attempt(self, session: Session) -> Attempt | None:
        """The cube as it is shown; there is no pair in hand."""
        looking = LOOKING.of(session)
        return None if looking is None else Attempt(History(looking.shown))

    def refused(self, session: Session) -> str:
        """The program makes the turns."""
        return words.NOT_YOURS

    def shows_by_itself(self, session: Session) -> bool:
        """Always: the turns that are played are the exercise."""
        return True

    def does(self, session: Session, command: RoomCommand, now: float) -> Update:
        """Carry out a command of looking ahead."""
        if not isinstance(command, Own):
            return super().does(session, command, now)
        match command:
            case LookAheadFrom(cube, cross):
                return update.begun(session, cube, cross, now), ()
            case AheadAct.ANEW:
                return update.from_chance(session)
            case AheadAct.SEE_AGAIN:
                return update.seen_again(session, now), ()
            case AheadAct.QUICKER:
                return update.paced(session, 1, now), ()
            case AheadAct.CALMER:
                return update.paced(session, -1, now), ()
            case _:
                assert_never(command)

    def gone_on(self, session: Session, now: float) -> Update:
        """Start, pause or continue, or begin the next round."""
        return update.gone_on(session, now), ()

    def chosen(self, session: Session, index: int, now: float) -> Session:
        """Take one of the places offered as the answer."""
        return update.chosen(session, index, now)

    def choosing(self, session: Session) -> bool:
        """Always: digits choose places here."""
        return True

    def pointed(self, session: Session, sticker: int, now: float) -> Session:
        """Take the place of a sticker as the answer."""
        return update.pointed(session, sticker, now)

    def drawn(self, session: Session, position: Position, now: float) -> Session:
        """Begin from a random position."""
        cube = held_by_choice(position, session.settings)
        return update.begun(session, cube, session.settings.cross, now)

    def kept_up(self, before: Session, after: Session, filed: Iterable[Effect], now: float) -> Update:
        """Make the round ready once a plan is known."""
        return update.made_ready(after), ()

    def questions(self, session: Session) -> tuple[Question, ...]:
        """The plan that is played."""
        asked = update.question(session)
        return () if asked is None else (asked,)

    def view(self, session: Session, now: float) -> View:
        """The screen at a moment."""
        return looking_view(session, now)
