"""What the commands of the Group screen do; its figures come from a thread beside."""

from __future__ import annotations

from msgspec.structs import replace

from tutor.method.cases import parse_case
from tutor.progress.assignment import AssignedState, case_task, lesson_task
from tutor.progress.group import format_group
from tutor.screens.group import words
from tutor.screens.group.commands import NAME, Give, GroupAct, Own, SeeLearner, ShowAcross, ShowTask
from tutor.screens.group.state import ASSIGNED, LOOK, REPORT
from tutor.screens.group.view import sheet
from tutor.screens.progress.commands import NAME as PROGRESS
from tutor.session import recording
from tutor.session import words as session_words
from tutor.session.house import Session, Update
from tutor.session.navigation import opened
from tutor.session.places import place_in
from tutor.session.record_commands import Assign, ChooseLearner, ReportGroup
from tutor.session.saving import begun
from tutor.session.saving_commands import SavedKind, SaveSheet, SaveTable
from tutor.session.state import FINISHED


def done(session: Session, command: Own, now: float) -> Update:
    """Carry out a command of this screen."""
    look = LOOK.of(session)
    match command:
        case ShowAcross(slug):
            return _shown(session, case_task(parse_case(slug))), ()
        case ShowTask(lesson):
            return _shown(session, lesson_task(lesson)), ()
        case Give(learners, back):
            state = AssignedState.WITHDRAWN if back else AssignedState.GIVEN
            given = Assign(session.records.learner, learners, look.task, state)
            return session, (given,) if look.task and learners else ()
        case SeeLearner(learner):
            return _seen(session, learner, now)
        case GroupAct.BY_NEED | GroupAct.BY_NUMBER:
            by_number = command is GroupAct.BY_NUMBER
            return LOOK.put(session, replace(look, by_number=by_number)), ()
        case GroupAct.LESSONS:
            return LOOK.put(session, replace(look, lessons=not look.lessons)), ()
        case GroupAct.SAVE_TABLE:
            return table_wanted(session)


def _shown(session: Session, task: str) -> Session:
    look = LOOK.of(session)
    return LOOK.put(session, replace(look, task="" if look.task == task else task))


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
    exchanged = after.records.exchanged
    shared = exchanged is not before.records.exchanged and exchanged is not None and exchanged.learners
    # What was given changes the list of those who have it now; with a report comes what it has counted.
    given = REPORT.of(after) is REPORT.of(before) and ASSIGNED.of(after) != ASSIGNED.of(before)
    news = after.records.study is not before.records.study or shared or given
    return (ReportGroup(),) if before.screen != NAME or news else ()


def finished(before: Session, after: Session) -> tuple[Assign, ...]:
    """The lessons that the learner was given and has just come to the end of: they are done."""
    if before.places is after.places or before.records.learner != after.records.learner:
        return ()
    given = [each for each in after.records.assigned if each.lesson and each.state is AssignedState.GIVEN]
    learner = after.records.learner
    return tuple(
        Assign(learner, (learner,), each.task, AssignedState.DONE)
        for each in given
        if place_in(after, each.lesson).scene == FINISHED != place_in(before, each.lesson).scene
    )


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
