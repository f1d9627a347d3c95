"""What every screen has in common: the bar at the top, the line at the foot, and keys on the buttons."""

from __future__ import annotations

from tutor.screens.parts import words
from tutor.screens.parts.keys import with_keys
from tutor.screens.parts.saving import foot, saving_buttons
from tutor.session.commands import Act
from tutor.session.house import Room, Session, way_to
from tutor.ui.view import Block, Button, Rail, Stage, View


def screen_view(
    session: Session,
    title: str,
    *,
    page: tuple[tuple[Block, ...], ...] = (),
    stage: Stage | None = None,
    card: tuple[Block, ...] = (),
    rail: Rail | None = None,
) -> View:
    """A view of the session's screen with what every screen has in common."""
    view = View(
        session.screen,
        title,
        bar=(*_top_bar(session), *saving_buttons(session, stage=stage is not None)),
        page=page,
        stage=stage,
        card=card,
        rail=rail,
        notice=foot(session),
        look=session.settings.look,
    )
    return with_keys(view, session)


def _top_bar(session: Session) -> tuple[Button, ...]:
    """The buttons at the top of every screen: to the first room, what all have, and to the others."""
    rooms = [room for room in session.house if room.bar_label and room.name != session.screen]
    first = [room for room in rooms if room is session.house.first]
    common = (
        Button(Act.HELP, words.KEYS),
        Button(Act.WORDS, words.WORDS),
        Button(Act.THEME, words.THEME),
    )
    return (*map(_to, first), *common, *(_to(room) for room in rooms if room not in first))


def _to(room: Room) -> Button:
    return way_to(room, room.bar_label)
