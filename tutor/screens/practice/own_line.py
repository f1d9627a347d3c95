"""A line of the learner's own for the case that is over: written, changed, or removed."""

from __future__ import annotations

from tutor.screens.parts import own_words
from tutor.screens.practice.commands import NAME
from tutor.screens.practice.state import RUN, CaseRun
from tutor.session.house import Session, Update


def writable(session: Session) -> CaseRun | None:
    """The run that is over on the screen, for whose case a line can be written."""
    run = RUN.of(session)
    return run if session.screen == NAME and run is not None and run.over else None


def opened(session: Session) -> Session:
    """The field with the line as it is, ready to be written in."""
    run = writable(session)
    return session if run is None else own_words.opened(session, run.case.slug)


def submitted(session: Session) -> Update | None:
    """Keep the line as written. None where moves are written."""
    run = writable(session)
    return None if run is None else own_words.submitted(session, run.case.slug)
