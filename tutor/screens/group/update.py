"""What the commands of the Group screen do; its figures come from a thread beside."""

from __future__ import annotations

from dataclasses import replace

from tutor.progress.group import format_group
from tutor.screens.group import words
from tutor.screens.group.commands import NAME, GroupAct, Own, SeeLearner, ShowAcross
from tutor.screens.group.state import LOOK, REPORT
from tutor.screens.group.view import sheet
from tutor.screens.progress.commands import NAME as PROGRESS
from tutor.session import recording
from tutor.session import words as session_words
from tutor.session.house import Session, Update
from tutor.session.navigation import opened
from tutor.session.record_commands import ChooseLearner, ReportGroup
from tutor.session.saving import begun
from tutor.session.saving_commands import SavedKind, SaveSheet, SaveTable


def done(session: Session, command: Own, now: float) -> Update:
    """Carry out a command of this screen."""
    look = LOOK.of(session)
    match command:
        case ShowAcross(slug):
            return LOOK.put(session, replace(look, case="" if look.case == slug else slug)), ()
        case SeeLearner(learner):
            return _seen(session, learner, now)
        case GroupAct.BY_NEED | GroupAct.BY_NUMBER:
            by_number = command is GroupAct.BY_NUMBER
            return LOOK.put(session, replace(look, by_number=by_number)), ()
        case GroupAct.SAVE_TABLE:
            return table_wanted(session)


def _seen(session: Session, learner: str, now: float) -> Update:
    """A learner's Progress; whoever is looked at learns now, as everywhere else."""
    same = learner == session.records.learner
    session, effects = recording.chosen(session, ChooseLearner(learner))
    session = opened(session, PROGRESS, now)
    return session if same else replace(session, notice=words.now_learning(learner)), effects


def asked(before: Session, after: Session) -> tuple[ReportGroup, ...]:
    """What is asked when the screen opens, and again when there is news while it is open."""
    if after.screen != NAME:
        return ()
    news = after.records.study is not before.records.study
    return (ReportGroup(),) if before.screen != NAME or news else ()


def sheet_wanted(session: Session) -> Update:
    """Save the page as a picture."""
    if REPORT.of(session) is None:
        return session, ()
    if session.saving.under_way is not None:
        return replace(session, notice=session_words.ONE_AT_A_TIME), ()
    session = begun(session, SavedKind.PICTURE)
    return session, (SaveSheet(session.saving.request, _name(session), sheet(session)),)


def table_wanted(session: Session) -> Update:
    """Save the map as a table."""
    report = REPORT.of(session)
    if session.screen != NAME or report is None:
        return session, ()
    if session.saving.under_way is not None:
        return replace(session, notice=session_words.ONE_AT_A_TIME), ()
    session = begun(session, SavedKind.TABLE)
    return session, (SaveTable(session.saving.request, _name(session), "".join(format_group(report))),)


def _name(session: Session) -> str:
    """The name of a file of this screen, with its day."""
    report = REPORT.of(session)
    return "group" if report is None else f"group-{report.day.isoformat()}"
