"""A task across the group: what the group does with it, who has it to do, and to whom to give it."""

from __future__ import annotations

from tutor.method.cases import Case, parse_case
from tutor.progress.assignment import AssignedState, lesson_task
from tutor.progress.attempt import GUEST
from tutor.progress.group import GroupReport, told_across
from tutor.screens.board.commands import ShowOnBoard
from tutor.screens.case_book.commands import OpenCase
from tutor.screens.group import words
from tutor.screens.group.commands import Give, GroupAct, ShowTask
from tutor.screens.group.state import ASSIGNED, LOOK
from tutor.screens.parts.case_names import case_title
from tutor.session.house import Session
from tutor.ui.view import Block, Button, ButtonRow, Group, Text, TextStyle, Tone


def shown_task(session: Session, report: GroupReport) -> tuple[Block, ...]:
    """The case or the lesson that is shown; nothing without one."""
    kind, _, name = LOOK.of(session).task.partition(":")
    if not kind:
        return ()
    if kind == "lesson":
        return (Group((Text(_lesson_title(session, name), TextStyle.HEADING), *_givers(session, ()))),)
    case = parse_case(name)
    said = Text(" ".join(told_across(report, case)))
    board = Button(ShowOnBoard(str(case.number)), words.ON_BOARD)
    book = ButtonRow((board, Button(OpenCase(case.slug), words.OPEN_CASE)))
    title = Text(case_title(session, case), TextStyle.HEADING)
    return (Group((title, said, *_givers(session, _finds_hard(report, case)), book)),)


def _finds_hard(report: GroupReport, case: Case) -> tuple[str, ...]:
    return tuple(member.learner for member in report.members if member.of(case).hard)


def _givers(session: Session, hard: tuple[str, ...]) -> tuple[Block, ...]:
    """A button for each learner, chosen when they have the task; and for several at once."""
    task = LOOK.of(session).task
    has = {
        each.learner
        for each in ASSIGNED.of(session)
        if each.task == task and each.state is AssignedState.GIVEN
    }
    names = tuple(name for name in session.records.learners if name != GUEST or name in hard)
    each_of = (Button(Give((name,), back=name in has), name, selected=name in has) for name in names)
    together = [Button(Give(names), words.GIVE_ALL)]
    if hard:
        together.insert(0, Button(Give(hard), words.give_to(len(hard))))
    if has:
        together.append(Button(Give(tuple(sorted(has)), back=True), words.TAKE_BACK))
    return (
        Text(words.WHO_HAS, TextStyle.SMALL, Tone.MUTED),
        ButtonRow(tuple(each_of)),
        ButtonRow(tuple(together)),
    )


def lessons(session: Session) -> tuple[Block, ...]:
    """The lessons to give, behind a button."""
    look = LOOK.of(session)
    if not session.lessons:
        return ()
    switch = Button(GroupAct.LESSONS, words.HIDE_LESSONS if look.lessons else words.GIVE_LESSON)
    if not look.lessons:
        return (switch,)
    listed = tuple(
        Button(
            ShowTask(lesson.name),
            words.lesson(number, lesson.title),
            selected=look.task == lesson_task(lesson.name),
        )
        for number, lesson in enumerate(session.lessons, start=1)
    )
    return switch, ButtonRow(listed)


def _lesson_title(session: Session, name: str) -> str:
    numbered = enumerate(session.lessons, start=1)
    found = (words.lesson(number, lesson.title) for number, lesson in numbered if lesson.name == name)
    return next(found, name)
