"""What each of the commands that need nothing more said does to a session."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from tutor.cube.position import SLOTS, SOLVED
from tutor.session import lesson_play, looks, play, saving, screens, showing, turning
from tutor.session.commands import Act, Draw, Effect, Quit, TryCase
from tutor.session.painting import brush as painting
from tutor.session.practice import case_run, practising
from tutor.session.records import keeping as records
from tutor.session.solve import looking_ahead, solving
from tutor.session.state import Session, Sheet
from tutor.session.writing import opened
from tutor.ui.view import Screen

DEEPEST_RUNG = 3
"""To have the way shown in the middle of a run counts like the last rung of a hint, which shows the turn."""

Change = Callable[[Session, float], Session | tuple[Session, tuple[Effect, ...]]]


def _sheet(sheet: Sheet) -> Change:
    """Lay a sheet over the screen, or take it away when it lies there."""

    def change(session: Session, _now: float) -> Session:
        shown = Sheet.NONE if session.sheet is sheet else sheet
        return replace(session, sheet=shown)

    return change


def _try(session: Session, now: float) -> Session:
    page = session.page
    if page is None:
        return session
    return practising.tried(session, TryCase(page.case.slug, page.slot, page.alignment), now)


def _write(session: Session, _now: float) -> Session:
    at_start = session.screen is Screen.SOLVE and session.solve is None
    if at_start or session.screen in (Screen.PAINTING, Screen.LEARNERS):
        return replace(session, writing=opened(session.writing))
    if session.attempt is None or not turning.turns_allowed(session):
        return session
    return replace(session, writing=opened(session.writing))


def _next(session: Session, now: float) -> Session | tuple[Session, tuple[Effect, ...]]:
    match session.screen:
        case Screen.PRACTICE:
            return practising.gone_on(session, now)
        case Screen.LESSON:
            return lesson_play.turned_page(session, 1, now)
        case Screen.FREE_PLAY:
            return play.next_pair(session)
        case Screen.SOLVE:
            return solving.cheapest_taken_on(session)
        case Screen.LOOKING_AHEAD:
            return looking_ahead.gone_on(session, now)
        case Screen.PAINTING:
            return painting.solve_begun(session, now)
        case _:
            return session


def _page(step: int, *, skip: bool) -> Change:
    def change(session: Session, now: float) -> Session | tuple[Session, tuple[Effect, ...]]:
        if session.screen is not Screen.LESSON:
            return session
        return lesson_play.turned_page(session, step, now, skip=skip)

    return change


def _show(what: Act) -> Change:
    def change(session: Session, now: float) -> Session:
        if turning.silent(session):
            return session
        shown = showing.begun(session, what, now)
        gives_away = what is not Act.SHOW_SLIP and shown is not session
        return case_run.hinted(shown, DEEPEST_RUNG, now) if gives_away else shown

    return change


def _while_shown(what: Act) -> Change:
    return lambda session, now: showing.act(session, what, now)


def _reveal(session: Session, now: float) -> Session:
    """Give verdicts after all, where a case is done alone."""
    if session.screen is Screen.LESSON and session.lesson is not None:
        return replace(session, lesson=replace(session.lesson, revealed=True))
    if session.screen is Screen.PRACTICE and session.run is not None:
        # Verdicts help as much as a look at where the pieces are: done so, the case is not known yet.
        session = case_run.hinted(replace(session, run=replace(session.run, revealed=True)), 1, now)
    return session


def _reset(session: Session, now: float) -> Session:
    if session.screen is not Screen.FREE_PLAY:
        return session
    return screens.restarted(session, play.held_by_choice(SOLVED, session.settings), now)


def _scramble(session: Session, _now: float) -> Session | tuple[Session, tuple[Effect, ...]]:
    if session.screen is Screen.SOLVE:
        return solving.scrambled(session)
    if session.screen is not Screen.FREE_PLAY:
        return session
    request = session.draw_request + 1
    return replace(session, draw_request=request), (Draw(request, cross_made=True),)


def _slot(step: int) -> Change:
    def change(session: Session, _now: float) -> Session:
        if session.screen is Screen.SOLVE:
            return solving.next_slot(session, step)
        cross, free = session.settings.cross, session.free
        slot = play.chosen_slot(free, cross)
        if session.screen is not Screen.FREE_PLAY or slot is None:
            return session
        return play.taken_on(session, SLOTS[(slot + step) % 4])

    return change


def _setting(what: Act) -> Change:
    return lambda session, _now: screens.with_settings(session, looks.CHANGES[what](session.settings))


def _look_home(session: Session, _now: float) -> Session:
    """The view goes back, as near as it is; once it is back, the key brings the usual size too."""
    camera, rest = session.camera, lesson_play.rest_camera(session)
    back = (camera.yaw, camera.pitch) == (rest.yaw, rest.pitch)
    return replace(session, camera=rest if back else replace(rest, zoom=camera.zoom))


def _to_free_play(session: Session, now: float) -> Session:
    """Free play from the cube of the whole solve."""
    solve = session.solve
    if session.screen is not Screen.SOLVE or solve is None:
        return session
    opened_there = screens.opened(session, Screen.FREE_PLAY, now)
    return screens.restarted(opened_there, solve.attempt.cube, now)


ACTS: dict[Act, Change] = {
    **solving.SOLVE_ACTS,
    **saving.SAVING_ACTS,
    Act.TO_FREE_PLAY: _to_free_play,
    Act.QUIT: lambda session, _now: (session, (Quit(),)),
    Act.HELP: _sheet(Sheet.KEYS),
    Act.WORDS: _sheet(Sheet.WORDS),
    Act.CLOSE: screens.closed,
    Act.HOME: lambda session, now: screens.opened(session, Screen.HOME, now),
    Act.LOOK_HOME: _look_home,
    Act.WRITE: _write,
    Act.TRY: _try,
    Act.ALL_CASES: lambda session, _now: replace(session, page=None, demonstration=None),
    Act.NEXT: _next,
    Act.SKIP: _page(1, skip=True),
    Act.BACK: _page(-1, skip=False),
    Act.HALVE: turning.halve,
    Act.UNDO: turning.undo,
    Act.REDO: turning.redo,
    Act.HINT: turning.hint,
    Act.REVEAL: _reveal,
    Act.GIVE_UP: practising.given_up,
    Act.UNCOUNT: records.take_back,
    Act.SAME_CASE: practising.same_again,
    Act.RESET: _reset,
    Act.SCRAMBLE: _scramble,
    Act.NEXT_SLOT: _slot(1),
    Act.PREVIOUS_SLOT: _slot(-1),
    **{what: _show(what) for what in (Act.SHOW_AGAIN, Act.SHOW_SLIP, Act.SHOW_PARTING, Act.SHOW_LINE)},
    **{what: _while_shown(what) for what in (Act.PLAY, Act.STEP_ON, Act.STEP_BACK, Act.FASTER, Act.SLOWER)},
    **{what: _setting(what) for what in looks.CHANGES},
}
"""What each of them does; Enter is in ``update``, since what it stands for may be any command."""
