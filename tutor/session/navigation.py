"""Going from room to room, and closing what lies over a room."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.session import writing
from tutor.session.commands import Choose
from tutor.session.house import Session
from tutor.session.settings import Settings
from tutor.session.settings_options import OPTIONS, Setting
from tutor.session.state import Sheet, Writing
from tutor.session.timeline import Timeline


def opened(session: Session, name: str, now: float) -> Session:
    """Another room, if it is there; what was on the way is done, and nothing stays open over it."""
    if name not in session.house:
        return session
    fresh = cleared(session.room.left(session), name)
    return fresh.room.opened(fresh, now)


def cleared(session: Session, name: str) -> Session:
    """In a room with nothing on the way and nothing over it."""
    return replace(
        session,
        screen=name,
        sheet=Sheet.NONE,
        notice="",
        coming="",
        writing=Writing(),
        demonstration=None,
        timeline=Timeline(),
        faded_from=None,
        dragged=None,
        failure="",
    )


def closed(session: Session, now: float) -> Session:
    """Close the uppermost open thing; with nothing open, go to the room above.

    A window that fills the screen goes back to its size before anything of the room is closed. What is open
    in a room is the room's to close (``Room.closed``). Before any of this the window takes the focus away,
    where something has it (``Application``).
    """
    if session.failure:
        return replace(session, failure="")
    if session.sheet is not Sheet.NONE:
        return replace(session, sheet=Sheet.NONE)
    if session.writing.open:
        return replace(session, writing=writing.cleared(session.writing))
    room = session.room
    if session.demonstration is not None and not room.shows_by_itself(session):
        return replace(session, demonstration=None)
    if session.full_screen:
        return replace(session, full_screen=False)
    closed_here = room.closed(session, now)
    if closed_here is not None:
        return closed_here
    return opened(session, session.house.above(room).name, now)


def chosen(session: Session, command: Choose) -> Session:
    """The session with a setting's value chosen; names and places that do not exist change nothing."""
    options = OPTIONS[Setting[command.setting]] if command.setting in Setting.__members__ else ()
    if not 0 <= command.index < len(options):
        return session
    return with_settings(session, options[command.index].chosen(session.settings))


def with_settings(session: Session, settings: Settings) -> Session:
    """The session under other settings. With another cross colour the rooms begin anew, held that way."""
    before, session = session.settings, replace(session, settings=settings)
    if settings.cross is before.cross:
        return session
    return begun(replace(session, coming=""))


def begun(session: Session) -> Session:
    """With every room as it begins."""
    for room in session.house:
        session = room.begun(session)
    return session
