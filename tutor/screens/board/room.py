"""The room in which a person shows cases to a group."""

from __future__ import annotations

from collections.abc import Iterable
from typing import assert_never

from msgspec.structs import replace

from tutor.method.cases import parse_case
from tutor.screens.board import update, words
from tutor.screens.board.commands import (
    NAME,
    BoardAct,
    Own,
    ScenesLoaded,
    ScenesRefused,
    ShowOnBoard,
)
from tutor.screens.board.keys import KEYS
from tutor.screens.board.list_text import SLIPPING
from tutor.screens.board.state import BOARD, Reveal
from tutor.screens.board.view import board_at, board_marks
from tutor.session.binding import Shows
from tutor.session.commands import RoomCommand
from tutor.session.effect import Effect
from tutor.session.house import Room, Session, Update, way_to
from tutor.session.navigation import opened
from tutor.session.record_commands import HardestFound, StoreAnswer
from tutor.session.state import Attempt, Writing
from tutor.ui.view import Button, Stage, View


class BoardRoom(Room):
    """A list prepared beforehand, walked with one key; the answer stays hidden until it is asked for."""

    name = NAME
    shows = Shows.CUBE
    keys = KEYS

    def door(self, session: Session) -> Button:
        """From Home."""
        return way_to(self, words.NAME, words.DESCRIPTION)

    def begun(self, session: Session) -> Session:
        """Nothing is shown."""
        return BOARD.put(session, None)

    def opened(self, session: Session, now: float) -> Session:
        """Where the person left it; else the field is ready to type a list into."""
        return session if BOARD.of(session) is not None else replace(session, writing=Writing(open=True))

    def left(self, session: Session) -> Session:
        """A list half typed is not kept."""
        return replace(session, writing=Writing())

    def closed(self, session: Session, now: float) -> Session | None:
        """A question is closed first, then the list."""
        shown = BOARD.of(session)
        if shown is None:
            return None
        if shown.asked is not None and shown.asked.leads_to is not Reveal.HIDDEN:
            return BOARD.put(session, replace(shown, asked=None))
        return _preparing(session)

    def page(self, session: Session) -> object:
        """Whether a list is shown, and which of it."""
        shown = BOARD.of(session)
        return None if shown is None else (shown.at, shown.asked is None)

    def attempt(self, session: Session) -> Attempt | None:
        """The cube shown, with the hint that goes with how much is shown."""
        shown = BOARD.of(session)
        if shown is None:
            return None
        # The lights of the first rung would tell where the pair is in words already said by rings.
        rung = int(Reveal.TURN) if shown.reveal >= Reveal.TURN and shown.asked is None else 0
        return replace(shown.attempt, rung=rung)

    def with_attempt(self, session: Session, attempt: Attempt) -> Session:
        """The cube turned round."""
        shown = BOARD.of(session)
        return session if shown is None else BOARD.put(session, replace(shown, attempt=attempt))

    def rotations_allowed(self, session: Session) -> bool:
        """The whole cube can be turned, its layers cannot."""
        return BOARD.of(session) is not None

    def hints_allowed(self, session: Session) -> bool:
        """The board shows one thing after the other instead."""
        return False

    def shown_from(self, session: Session, attempt: Attempt) -> tuple[int, ...]:
        """From the cube as it is held now."""
        return (attempt.history.cursor,)

    def heard(self, session: Session) -> bool:
        """Nobody turns a layer here."""
        return False

    def writes(self, session: Session) -> bool:
        """A list, on its page."""
        return BOARD.of(session) is None

    def submitted(self, session: Session, now: float) -> Update:
        """A list was typed."""
        return update.prepared(session, ShowOnBoard(session.writing.text))

    def choosing(self, session: Session) -> bool:
        """Digits count hands while a question is open."""
        shown = BOARD.of(session)
        return shown is not None and shown.asked is not None and not shown.asked.told

    def chosen(self, session: Session, index: int, now: float) -> Session:
        """A hand for an answer."""
        return update.hand_up(session, index)

    def gone_on(self, session: Session, now: float) -> Update:
        """One thing more."""
        return update.shown_more(session, now), ()

    def does(self, session: Session, command: RoomCommand, now: float) -> Update:
        """Carry out a command of the board."""
        if not isinstance(command, Own):
            return super().does(session, command, now)
        match command:
            case ShowOnBoard():
                here = session if session.screen == NAME else opened(session, NAME, now)
                return update.prepared(here, command)
            case ScenesLoaded():
                return (update.scenes_loaded(session, command) if session.screen == NAME else session), ()
            case ScenesRefused(message):
                return update.with_fault(session, session.writing.text, words.unreadable(message)), ()
            case BoardAct():
                return _act(session, command, now)
            case _:
                assert_never(command)

    def told(self, session: Session, command: StoreAnswer, now: float) -> Update | None:
        """The cases that slip most."""
        if session.screen != NAME or not isinstance(command, HardestFound):
            return None
        if not command.slugs:
            return update.with_fault(session, SLIPPING, words.NOTHING_SLIPS), ()
        cases = tuple(parse_case(slug) for slug in command.slugs)
        return update.with_cases(session, words.SLIPPING, cases), ()

    def kept_up(self, before: Session, after: Session, filed: Iterable[Effect], now: float) -> Update:
        """The route is shown only as long as it plays."""
        return (update.without_route(after) if after.screen == NAME else after), ()

    def marked(self, session: Session, attempt: Attempt, stage: Stage) -> Stage | None:
        """The frame alone while the pair is to be found."""
        return board_marks(session, attempt, stage)

    def hides(self, session: Session) -> bool:
        """A clip would show the answer."""
        shown = BOARD.of(session)
        return shown is not None and shown.reveal < Reveal.ROUTE

    def view(self, session: Session, now: float) -> View:
        """All that you see of it."""
        return board_at(session, now)


def _preparing(session: Session) -> Session:
    """On the page of the list, ready to type another."""
    return replace(BOARD.put(session, None), writing=Writing(open=True), demonstration=None, notice="")


def _act(session: Session, act: BoardAct, now: float) -> Update:
    if session.screen != NAME or BOARD.of(session) is None:
        return session, ()
    match act:
        case BoardAct.BACK:
            return update.shown_less(session), ()
        case BoardAct.NEXT_CASE:
            return update.stepped(session, 1), ()
        case BoardAct.CASE_BEFORE:
            return update.stepped(session, -1), ()
        case BoardAct.NEXT_SLOT:
            return update.in_slot(session, 1)
        case BoardAct.MIRROR:
            return update.in_mirror(session)
        case BoardAct.SLOWLY:
            return update.route_shown(session, now, speed=update.SLOW), ()
        case BoardAct.SPOTLIGHT:
            return update.with_spotlight(session), ()
        case BoardAct.ASK:
            return update.asked(session), ()
        case BoardAct.FEWER:
            return update.hand_down(session), ()
        case BoardAct.PREPARE:
            return _preparing(session), ()
        case _:
            assert_never(act)
