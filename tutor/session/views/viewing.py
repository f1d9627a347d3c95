"""From a session to what is on the screen: ``view_of(session, now)``, pure."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from tutor.session.practice import steady
from tutor.session.showing import REASONED
from tutor.session.state import Attempt, Session, Sheet, answer_at
from tutor.session.views.case_book import all_cases, page, page_rail
from tutor.session.views.failure import failure_blocks
from tutor.session.views.free import free_play
from tutor.session.views.home import home
from tutor.session.views.keys import with_own_keys
from tutor.session.views.lesson import lesson, lesson_rail
from tutor.session.views.looking import looking_view
from tutor.session.views.painting import painting_screen
from tutor.session.views.parts import help_blocks, hint_now, texts_in, word_blocks
from tutor.session.views.practice import run_rail, run_view
from tutor.session.views.rail import attempt_rail, shown_rail
from tutor.session.views.reasons import reason_blocks
from tutor.session.views.settings import settings_screen
from tutor.session.views.solve import cross_hinted, solve_rail, solve_view, start_page
from tutor.session.views.stage import moving, stage_of, with_hint
from tutor.ui.view import Arrow, Rail, Screen, Stage, View


def view_of(session: Session, now: float) -> View:
    """The view at a moment. What does not depend on time is made once for each session."""
    return with_own_keys(_at(session, now), session.settings)


def _at(session: Session, now: float) -> View:
    view = _still(session)
    attempt = session.attempt
    if session.screen is Screen.PRACTICE and session.run is None:
        from tutor.session.views.practice_pages import columns

        return replace(view, page=columns(session, now))
    if attempt is None or view.stage is None:
        return view
    if session.screen is Screen.LOOKING_AHEAD:
        moment = looking_view(session, now)
        return replace(view, stage=moment.stage, card=moment.card, rail=moment.rail)
    stage = stage_of(session, attempt, now)
    demonstration = session.demonstration
    if demonstration is not None:
        rail: Rail | None = shown_rail(demonstration, attempt, now, session.screen)
        if session.screen is Screen.LESSON:
            # The card tells the segment the playhead is in; a sheet lying over it stays.
            view = replace(view, card=lesson(session, stage, rail, now).card)
        elif session.screen in REASONED:
            # First of all on the card, where it is seen without scrolling.
            view = replace(view, card=(*reason_blocks(session, now), *view.card))
        return replace(view, stage=stage, rail=rail)
    if not moving(session, now):
        stage = _hinted(session, attempt, stage)
    return replace(view, stage=_with_followed(session, attempt, stage))


@lru_cache(maxsize=4)
def _still(session: Session) -> View:
    """The parts of the view that stay as they are until the next command."""
    attempt = session.attempt
    if attempt is None:
        view = _without_cube(session)
    elif session.screen is Screen.FREE_PLAY:
        stage = Stage(attempt.cube.colours)
        view = free_play(session, stage, attempt_rail(session, attempt, answer_at(session, attempt)))
    elif session.screen is Screen.LOOKING_AHEAD:
        view = looking_view(session, 0.0)
    elif session.screen is Screen.SOLVE and session.solve is not None:
        view = solve_view(
            session, session.solve, Stage(attempt.cube.colours), solve_rail(session, session.solve)
        )
    elif session.screen is Screen.PRACTICE and session.run is not None:
        view = run_view(session, session.run, Stage(attempt.cube.colours), run_rail(session, session.run))
    elif session.screen is Screen.CASE_BOOK and session.page is not None:
        view = page(session, session.page, Stage(attempt.cube.colours), page_rail(session, session.page))
    else:
        view = lesson(session, Stage(attempt.cube.colours), lesson_rail(session), 0.0)
    if session.failure:
        return replace(view, overlay=failure_blocks(session))
    if session.sheet is Sheet.KEYS:
        return replace(view, overlay=help_blocks(session))
    if session.sheet is Sheet.WORDS:
        columns = (view.card, *view.page)
        return replace(
            view, overlay=word_blocks(tuple(text for column in columns for text in texts_in(column)))
        )
    return view


def _without_cube(session: Session) -> View:
    """The screens that have no cube in hand."""
    match session.screen:
        case Screen.CASE_BOOK:
            return all_cases(session)
        case Screen.PRACTICE:
            # Imported when it is first opened, as below.
            from tutor.session.views.practice_pages import practice_page

            return practice_page(session, 0.0)
        case Screen.LEARNERS:
            from tutor.session.views.learners import learners

            return learners(session)
        case Screen.SOLVE:
            return start_page(session)
        case Screen.LOOKING_AHEAD:
            return looking_view(session, 0.0)
        case Screen.SETTINGS:
            return settings_screen(session)
        case Screen.PAINTING:
            return painting_screen(session)
        case Screen.PROGRESS:
            # Imported when it is first opened: no start has to wait for the figures.
            from tutor.session.views.progress import progress

            return progress(session)
        case _:
            return home(session)


def _with_followed(session: Session, attempt: Attempt, stage: Stage) -> Stage:
    """With one turn for each beat, the two pieces to keep an eye on: lit before and after, never dimmed."""
    run = session.run
    if session.screen is not Screen.PRACTICE or run is None or run.beat is None:
        return stage
    if stage.turning is not None or stage.crossfade is not None:
        return stage
    followed = steady.followed_cubies(run.beat, attempt.cube)
    glowing = stage.glowing | followed if steady.lit(run) else stage.glowing
    return replace(stage, dimmed=stage.dimmed - followed, glowing=glowing)


def _hinted(session: Session, attempt: Attempt, stage: Stage) -> Stage:
    if session.screen is Screen.SOLVE and session.solve is not None and attempt.bearing() is None:
        return cross_hinted(session, session.solve, stage)
    hint, bearing = hint_now(session, attempt), attempt.bearing()
    if hint is None or bearing is None:
        return stage
    arrow = None if hint.turn is None else Arrow(hint.turn)
    return with_hint(stage, bearing, hint.glowing, arrow)
