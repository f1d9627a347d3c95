"""All that is seen of practice: a run of a case, or what can be practised."""

from __future__ import annotations

from tutor.screens.practice.state import RUN
from tutor.screens.practice.view_pages import practice_page
from tutor.screens.practice.view_run import run_at
from tutor.session.house import Session
from tutor.ui.view import View


def practice_at(session: Session, now: float) -> View:
    """The screen at a moment."""
    run = RUN.of(session)
    return practice_page(session, now) if run is None else run_at(session, run, now)
