"""A line of the learner's own for the case that is over: written, changed, or removed."""

from __future__ import annotations

from dataclasses import replace

from tutor.progress.attempt import AttemptError
from tutor.progress.own_words import check_line
from tutor.screens.practice.commands import NAME
from tutor.screens.practice.state import RUN, CaseRun
from tutor.session.house import Session, Update
from tutor.session.record_commands import KeepOwnWords
from tutor.session.state import Writing


def writable(session: Session) -> CaseRun | None:
    """The run that is over on the screen, for whose case a line can be written."""
    run = RUN.of(session)
    return run if session.screen == NAME and run is not None and run.over else None


def own_line(session: Session, run: CaseRun) -> str:
    """The learner's line for the run's case; empty without one."""
    return session.records.own_words.get(run.case.slug, "")


def opened(session: Session) -> Session:
    """The field with the line as it is, ready to be written in."""
    run = writable(session)
    if run is None:
        return session
    line = own_line(session, run)
    return replace(session, writing=Writing(True, line, len(line)))


def submitted(session: Session) -> Update | None:
    """Keep the line as written; with a mistake in it the text stays. None where moves are written."""
    run = writable(session)
    if run is None:
        return None
    text = session.writing.text.strip()
    try:
        check_line(text)
    except AttemptError as error:
        return replace(session, writing=replace(session.writing, error=str(error), error_column=None)), ()
    kept = KeepOwnWords(session.records.learner, run.case.slug, text)
    return replace(session, writing=Writing()), (kept,)
