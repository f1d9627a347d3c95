"""Choosing who learns: those who are known, and a field to add another."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from tutor.progress.attempt import AttemptError
from tutor.session import screens
from tutor.session.commands import Effect
from tutor.session.records import keeping as records
from tutor.session.records.commands import ChooseLearner, LearnerRefused, RecordsOpened
from tutor.session.state import Session, Writing
from tutor.ui.view import Screen

Told = tuple[Session, tuple[Effect, ...]]


def opened(session: Session, now: float) -> Session:
    """The screen of learners, its field empty and ready to type into."""
    return replace(screens.opened(session, Screen.LEARNERS, now), writing=Writing(open=True))


def chosen(session: Session, command: ChooseLearner, now: float) -> Told:
    """A learner sits down, and is at Home."""
    session, effects = records.chosen(session, command, now)
    return screens.opened(session, Screen.HOME, now), effects


def submitted(session: Session) -> Session | Told:
    """Add the learner whose name was typed; what is wrong with it is said at the field."""
    name = session.writing.text.strip()
    try:
        return records.named(replace(session, writing=replace(session.writing, error="")), name)
    except AttemptError as error:
        said = f"{str(error)[:1].upper()}{str(error)[1:]}." if name else "Type a name, then press Enter."
        return replace(session, writing=replace(session.writing, error=said, error_column=None))


def added(session: Session, command: RecordsOpened, now: float) -> Session:
    """The records of a learner were read; one who was just added is at Home."""
    name, typed = command.standing.learner, session.writing.text.strip()
    awaited = session.screen is Screen.LEARNERS and name.casefold() == typed.casefold()
    known, seated = name in session.records.learners, name == session.records.learner
    if awaited and not seated:
        session = records.seated(session, name)
    session = records.opened(session, command, now)
    notice = session.notice
    if awaited and known and not command.standing.notices:
        notice = f"{name} is learning here already." if seated else f"{name} was here before, and learns now."
    return replace(screens.opened(session, Screen.HOME, now), notice=notice) if awaited else session


def refused(session: Session, command: LearnerRefused, now: float) -> Session:
    """A learner could not be added, which is said at the field while it is there."""
    if session.screen is Screen.LEARNERS and session.writing.open:
        return replace(session, writing=replace(session.writing, error=command.message))
    return records.refused(session, command, now)


HANDLERS: dict[type, Callable[[Session, Any, float], Session | Told]] = {
    ChooseLearner: chosen,
    RecordsOpened: added,
    LearnerRefused: refused,
}
"""What each kind of command does here, in place of ``records.HANDLERS``."""
