"""The room in which you look at any case."""

from __future__ import annotations

from collections.abc import Iterable
from typing import assert_never

from msgspec.structs import replace

from tutor.coach.guidance import Help
from tutor.cube.position import Slot
from tutor.method.cases import Case, parse_case
from tutor.screens.case_book import update, words
from tutor.screens.case_book.commands import NAME, BookAct, OpenCase, Own
from tutor.screens.case_book.keys import KEYS
from tutor.screens.case_book.state import PAGE, TURNS_HIDDEN
from tutor.screens.case_book.view import book_at
from tutor.screens.parts import own_words
from tutor.screens.practice.commands import TryCase
from tutor.session import playback
from tutor.session.answers import Key
from tutor.session.binding import Shows
from tutor.session.commands import Act, RoomCommand
from tutor.session.demonstration import Demonstration
from tutor.session.effect import Effect
from tutor.session.house import Room, Session, Update, way_to
from tutor.session.keymap import bindings_of
from tutor.session.keys import sign_for
from tutor.session.navigation import opened
from tutor.session.state import Attempt, Writing
from tutor.session.update import done
from tutor.ui.view import Button, View


class CaseBook(Room):
    """All cases by family, and the page of one of them."""

    name = NAME
    shows = Shows.CUBE_IN_HAND
    keys = KEYS

    def door(self, session: Session) -> Button:
        """From Home."""
        return way_to(self, words.NAME, words.DESCRIPTION)

    def begun(self, session: Session) -> Session:
        """No page is open."""
        return PAGE.put(session, None)

    def closed(self, session: Session, now: float) -> Session | None:
        """An open page is closed first."""
        return None if PAGE.of(session) is None else PAGE.put(session, None)

    def page(self, session: Session) -> object:
        """Whether a page is open."""
        return PAGE.of(session) is not None

    def attempt(self, session: Session) -> Attempt | None:
        """The page's cube."""
        page = PAGE.of(session)
        return None if page is None else page.attempt

    def refused(self, session: Session) -> str:
        """Nobody turns a cube here."""
        return words.only_looking(sign_for(BookAct.TRY, self, bindings_of(session)))

    def writes(self, session: Session) -> bool:
        """Another way for the case of the page, or the learner's own words for it."""
        return PAGE.of(session) is not None

    def submitted(self, session: Session, now: float) -> Update | None:
        """Explain the way just written, or keep the learner's own words."""
        page = PAGE.of(session)
        if page is None:
            return None
        if page.own_words:
            return own_words.submitted(session, page.case.slug)
        return update.explained(session, page), ()

    def kept_up(self, before: Session, after: Session, filed: Iterable[Effect], now: float) -> Update:
        """Once the field is shut, the next one is for another way again."""
        page = PAGE.of(after)
        if page is None or not page.own_words or after.writing.open:
            return after, ()
        return PAGE.put(replace(after, writing=Writing()), replace(page, own_words=False)), ()

    def needed(self, session: Session) -> tuple[Key, ...]:
        """The answers that the explanation of another way still waits for."""
        page = PAGE.of(session) if session.screen == NAME else None
        return () if page is None or page.other_way is None else page.other_way.keys

    def does(self, session: Session, command: RoomCommand, now: float) -> Update:
        """Carry out a command of the book."""
        if not isinstance(command, Own):
            return super().does(session, command, now)
        match command:
            case OpenCase(slug, slot, alignment):
                if session.screen != NAME:
                    session = opened(session, NAME, now)
                return update.opened(session, parse_case(slug), slot, alignment), ()
            case BookAct():
                return _act(session, command, now)
            case _:
                assert_never(command)

    def view(self, session: Session, now: float) -> View:
        """All that you see of it."""
        return book_at(session, now)

    def shown_word(self, session: Session, shown: Demonstration) -> str:
        """The route, or a line where it is another way."""
        page = PAGE.of(session)
        found = None if page is None else playback.shown_route(session, page.attempt)
        return "route" if found is None or found[1].turns == shown.turns else "line"

    def shown_case(self, session: Session) -> tuple[Case, Slot, int] | None:
        """The page's case."""
        page = PAGE.of(session)
        return None if page is None else (page.case, page.slot, page.alignment)


def _act(session: Session, act: BookAct, now: float) -> Update:
    page = PAGE.of(session)
    if session.screen != NAME or page is None:
        return session, ()
    match act:
        case BookAct.TRY:
            # Who asks to try wants to turn at once: nothing is shown first, and hints are there.
            command = TryCase(page.case.slug, page.slot, page.alignment, Help.WITH_HINTS)
            return done(session, command, now)
        case BookAct.HIDE_TURNS:
            return TURNS_HIDDEN.put(session, not TURNS_HIDDEN.of(session)), ()
        case BookAct.SHOW_LINE:
            line = update.line_shown(session, now)
            return playback.put_on(session, page.attempt, line, now), ()
        case BookAct.OTHER_WAY if page.other_way is not None:
            return PAGE.put(session, replace(page, other_way=None)), ()
        case BookAct.OTHER_WAY:
            asked = PAGE.put(replace(session, writing=Writing()), replace(page, own_words=False))
            return done(asked, Act.WRITE, now)
        case BookAct.OWN_WORDS:
            asked = PAGE.put(session, replace(page, own_words=True))
            return own_words.opened(asked, page.case.slug), ()
        case BookAct.ALL_CASES:
            return update.shut(session), ()
        case _:
            assert_never(act)
