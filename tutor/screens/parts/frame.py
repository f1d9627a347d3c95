"""What every screen has in common: the bar at the top, the line at the foot, and keys on the buttons."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.screens.parts import words
from tutor.screens.parts.keys import with_keys
from tutor.screens.parts.saving import notice_line, saving_buttons
from tutor.session.commands import Act
from tutor.session.house import Room, Session, way_to
from tutor.ui.view import Block, Button, Chevron, Rail, Stage, View


def screen_view(
    session: Session,
    title: str,
    *,
    place: str = "",
    page: tuple[tuple[Block, ...], ...] = (),
    stage: Stage | None = None,
    card: tuple[Block, ...] = (),
    foot: tuple[Block, ...] = (),
    rail: Rail | None = None,
) -> View:
    """A view of the session's screen with what every screen has in common."""
    view = View(
        session.screen,
        title,
        bar=_top_bar(session),
        more=_menu(session, stage=stage is not None),
        place=place,
        page=page,
        stage=stage,
        card=card,
        foot=foot,
        rail=rail,
        notice=notice_line(session),
        look=session.settings.look,
    )
    return with_keys(view, session)


def _top_bar(session: Session) -> tuple[Button, ...]:
    """The way to the first room, and what every screen has."""
    first = [
        replace(_to(room), chevron=Chevron.BACK) for room in _others(session) if _is_first(session, room)
    ]
    menu = Button(Act.MENU, words.MENU, chevron=Chevron.MENU)
    return (*first, *_SHEETS, menu)


def _menu(session: Session, *, stage: bool) -> tuple[Button, ...]:
    """All else that every screen has: the looks, the other rooms, and what saves the screen.

    With large text also what then may have to leave the bar.
    """
    return (
        *(_SHEETS if large_text(session) else ()),
        Button(Act.THEME, words.THEME),
        Button(Act.READ_ALOUD, words.STOP_READING if session.settings.read_aloud else words.READ_ALOUD),
        *(_to(room) for room in _others(session) if not _is_first(session, room)),
        *saving_buttons(session, stage=stage),
    )


_SHEETS = (Button(Act.WORDS, words.WORDS), Button(Act.HELP, words.KEYS))
_LARGE_TEXT = 1.5


def large_text(session: Session) -> bool:
    """Whether the text is so large that the bar has room for little."""
    return session.settings.look.text_scale >= _LARGE_TEXT


def _others(session: Session) -> list[Room]:
    return [room for room in session.house if room.bar_label and room.name != session.screen]


def _is_first(session: Session, room: Room) -> bool:
    return room is session.house.first


def _to(room: Room) -> Button:
    return way_to(room, room.bar_label)
