"""Choosing a learner: those who are known, and a field to add another."""

from __future__ import annotations

from dataclasses import replace

from tutor.progress.attempt import AttemptError
from tutor.screens.learners import words
from tutor.session import recording as records
from tutor.session.house import Session, Update
from tutor.session.navigation import opened
from tutor.session.record_commands import LearnerRefused, RecordsOpened


def submitted(session: Session) -> Update:
    """Add the learner whose name was typed; what is wrong with it is said at the field."""
    name = session.writing.text.strip()
    try:
        return records.named(replace(session, writing=replace(session.writing, error="")), name)
    except AttemptError as error:
        said = words.refused(str(error)) if name else words.TYPE_A_NAME
        return replace(session, writing=replace(session.writing, error=said, error_column=None)), ()


def added(session: Session, command: RecordsOpened, now: float) -> Update | None:
    """The records of the learner who was just added were read: they are at Home. None for any other."""
    name, typed = command.standing.learner, session.writing.text.strip()
    if name.casefold() != typed.casefold():
        return None
    known, seated = name in session.records.learners, name == session.records.learner
    if not seated:
        session = records.seated(session, name)
    session = records.opened(session, command)
    notice = session.notice
    if known and not command.standing.notices:
        notice = words.learns_already(name) if seated else words.learns_now(name)
    return replace(opened(session, session.house.first.name, now), notice=notice), ()


def refused(session: Session, command: LearnerRefused) -> Update | None:
    """A learner could not be added, which is said at the field while it is there."""
    if not session.writing.open:
        return None
    return replace(session, writing=replace(session.writing, error=command.message)), ()
