"""Going from screen to screen, and closing what lies over one."""

from __future__ import annotations

from dataclasses import replace

from tutor.cube.held_cube import HeldCube
from tutor.cube.position import SOLVED
from tutor.session import play, showing, turning, writing
from tutor.session.commands import Choose
from tutor.session.looks import OPTIONS, Setting
from tutor.session.settings import Settings
from tutor.session.state import Attempt, Session, Sheet, Writing
from tutor.session.timeline import Timeline
from tutor.ui.view import Screen


def opened(session: Session, screen: Screen, now: float) -> Session:
    """Another screen; what was on the way is done, and nothing stays open over it.

    What a scene or a run shows first is shown from its beginning when one comes back to it.
    """
    fresh = replace(
        session,
        screen=screen,
        sheet=Sheet.NONE,
        focus="",
        notice="",
        lesson_awaited=None,
        writing=Writing() if session.screen is Screen.LEARNERS else writing.closed(session.writing),
        demonstration=None,
        timeline=Timeline(),
        faded_from=None,
        dragged=None,
        failure="",
    )
    return turning.shown_anew(fresh, now)


def closed(session: Session, now: float) -> Session:
    """Close the uppermost thing that is open; with nothing open, go home."""
    if session.failure:
        return replace(session, failure="")
    if session.sheet is not Sheet.NONE:
        return replace(session, sheet=Sheet.NONE)
    if session.writing.open:
        return replace(session, writing=writing.closed(session.writing))
    if session.screen is Screen.LOOKING_AHEAD:
        return opened(session, Screen.SOLVE, now)
    if session.demonstration is not None and not showing.must_be_seen(session):
        return replace(session, demonstration=None)
    if session.focus:
        return replace(session, focus="")
    if session.screen is Screen.CASE_BOOK and session.page is not None:
        return replace(session, page=None)
    if session.screen is Screen.PRACTICE and session.run is not None:
        # A case that is still being chosen is not wanted any more.
        practice = replace(session.practice, asked=False)
        return replace(session, run=None, demonstration=None, practice=practice)
    if session.screen is Screen.PAINTING:
        return opened(session, Screen.SOLVE, now)
    return opened(session, Screen.HOME, now)


def restarted(session: Session, cube: HeldCube, now: float) -> Session:
    """Free play from another cube; undo at the start leads back to what was there before."""
    shown = play.at_once(session, session.free.cube, now)
    history = session.free.history.restarted(cube)
    attempt = play.aimed(Attempt(history), session.settings.cross)
    return replace(shown, free=attempt, demonstration=None)


def chosen(session: Session, command: Choose) -> Session:
    """The session with a setting's value chosen; names and places that do not exist change nothing."""
    options = OPTIONS[Setting[command.setting]] if command.setting in Setting.__members__ else ()
    if not 0 <= command.index < len(options):
        return session
    return with_settings(session, options[command.index].chosen(session.settings))


def with_settings(session: Session, settings: Settings) -> Session:
    """The session under other settings. With another cross colour free play begins anew, held that way."""
    before, session = session.settings, replace(session, settings=settings)
    if settings.cross is before.cross:
        return session
    history = session.free.history.restarted(play.held_by_choice(SOLVED, settings))
    free = play.aimed(Attempt(history), settings.cross)
    return replace(session, free=free, lesson=None, lesson_awaited=None, page=None, run=None)
