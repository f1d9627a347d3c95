"""The room in which you turn any cube."""

from __future__ import annotations

from typing import assert_never

from msgspec.structs import replace

from tutor.cube.position import SOLVED, Position, Slot
from tutor.progress.presence import At, Engaged
from tutor.screens.free_play import update, words
from tutor.screens.free_play.commands import NAME, FreeAct, Own, PlayFrom
from tutor.screens.free_play.keys import KEYS
from tutor.screens.free_play.state import FREE
from tutor.screens.free_play.view import free_at
from tutor.screens.solve.commands import SolveFrom
from tutor.session import attempts
from tutor.session.answers import Key
from tutor.session.binding import Shows
from tutor.session.commands import Draw, RoomCommand
from tutor.session.history import History
from tutor.session.house import Room, Session, Update, way_to
from tutor.session.navigation import opened
from tutor.session.state import Attempt
from tutor.session.update import done
from tutor.ui.view import Button, View


class FreePlay(Room):
    """Any cube, any slot, with undo and redo as often as you like."""

    name = NAME
    shows = Shows.CUBE_IN_HAND
    keys = KEYS

    def door(self, session: Session) -> Button:
        """From Home."""
        return way_to(self, words.NAME, words.DESCRIPTION)

    def begun(self, session: Session) -> Session:
        """A solved cube, held with the cross colour down; undo leads back to what was there before."""
        solved = attempts.held_by_choice(SOLVED, session.settings)
        history = FREE.of(session).history.restarted(solved) if FREE.filled(session) else History(solved)
        return FREE.put(session, attempts.aimed(Attempt(history), session.settings.cross))

    def engaged(self, session: Session) -> Engaged:
        """Free play, whatever is in hand."""
        return Engaged(At.FREE_PLAY)

    def attempt(self, session: Session) -> Attempt:
        """The cube in hand."""
        return FREE.of(session)

    def with_attempt(self, session: Session, attempt: Attempt) -> Session:
        """Another cube in hand."""
        return FREE.put(session, attempt)

    def followed(self, session: Session, attempt: Attempt) -> Attempt:
        """The first unsolved pair becomes the aim as soon as the cross is solved."""
        return attempts.followed_freely(attempt, session.settings.cross)

    def turns_allowed(self, session: Session) -> bool:
        """Always."""
        return True

    def many_together(self, session: Session) -> bool:
        """A long text of moves turns the cube in one go."""
        return True

    def rail_from(self, session: Session, attempt: Attempt) -> int:
        """All moves are on the rail."""
        return 0

    def shown_from(self, session: Session, attempt: Attempt) -> tuple[int, ...]:
        """The way starts from the cube as it is, until the pair is in its slot."""
        return tuple(reversed(super().shown_from(session, attempt)))

    def does(self, session: Session, command: RoomCommand, now: float) -> Update:
        """Carry out a command of free play."""
        if not isinstance(command, Own):
            return super().does(session, command, now)
        match command:
            case PlayFrom(cube):
                return update.restarted(opened(session, NAME, now), cube, now), ()
            case FreeAct():
                return _act(session, command, now) if session.screen == NAME else (session, ())
            case _:
                assert_never(command)

    def gone_on(self, session: Session, now: float) -> Update:
        """The next pair, once this one is in its slot."""
        return update.next_pair(session), ()

    def submitted(self, session: Session, now: float) -> Update | None:
        """Begin where a written set-up leads; None where the text is moves to make."""
        begun = update.set_up(session, now)
        return None if begun is None else (begun, ())

    def slot_chosen(self, session: Session, slot: Slot) -> Session:
        """That slot's pair becomes the aim."""
        return update.taken_on(session, slot)

    def slot_stepped(self, session: Session, step: int) -> Session:
        """The next slot's pair becomes the aim."""
        return update.slot_stepped(session, step)

    def scrambled(self, session: Session) -> Update:
        """Ask for a random position with the cross solved."""
        return _asked(session, cross_made=True)

    def drawn(self, session: Session, position: Position, now: float) -> Session:
        """Take it in hand."""
        return update.restarted(session, attempts.held_by_choice(position, session.settings), now)

    def needed(self, session: Session) -> tuple[Key, ...]:
        """The answers that the explanation of the turns made still waits for."""
        asked = update.to_explain(session) if session.screen == NAME else None
        return () if asked is None else asked.keys

    def view(self, session: Session, now: float) -> View:
        """All that you see of it."""
        return free_at(session, now)


def _asked(session: Session, *, cross_made: bool) -> Update:
    request = session.draw_request + 1
    return replace(session, draw_request=request), (Draw(request, cross_made=cross_made),)


def _act(session: Session, act: FreeAct, now: float) -> Update:
    match act:
        case FreeAct.RESET:
            return update.restarted(session, attempts.held_by_choice(SOLVED, session.settings), now), ()
        case FreeAct.SCRAMBLE_ALL:
            return _asked(session, cross_made=False)
        case FreeAct.AS_SOLVE:
            return done(session, SolveFrom(FREE.of(session).cube), now)
        case FreeAct.EXPLAIN:
            return update.explained(session), ()
        case _:
            assert_never(act)
