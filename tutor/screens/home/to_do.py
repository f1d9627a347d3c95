"""What a teacher has given the learner to do, before today's list on Home; ticked once it is done."""

from __future__ import annotations

from datetime import date

from tutor.progress.assignment import ToDo
from tutor.progress.words import last_day
from tutor.screens.home import words
from tutor.screens.lesson.commands import StartLesson
from tutor.screens.parts.case_names import case_title
from tutor.screens.practice.commands import TryCase
from tutor.session.house import Session
from tutor.ui.action import Action
from tutor.ui.view import Block, Button, Gap, Group, Text, TextStyle, Tone


def to_do_blocks(session: Session, given: tuple[ToDo, ...], today: date) -> tuple[Block, ...]:
    """A group with a button for each task; nothing where nothing was given."""
    if not given:
        return ()
    return Group(
        (Text(words.TO_DO, TextStyle.HEADING), *(_item(session, each, today) for each in given))
    ), Gap(1)


def _item(session: Session, item: ToDo, today: date) -> Block:
    """A button; what is done has a tick, and a lesson that is not on this computer has no button."""
    label, action = _task(session, item)
    if item.done:
        return Text(words.done(label), TextStyle.SMALL, Tone.GOOD)
    until = item.assignment.until
    detail = words.GIVEN if until is None else words.until(last_day(until, today))
    if action is None:
        return Text(words.not_here(label), TextStyle.SMALL, Tone.MUTED)
    return Button(action, label, detail=detail)


def _task(session: Session, item: ToDo) -> tuple[str, Action | None]:
    case, name = item.assignment.case, item.assignment.lesson
    if case is not None:
        return case_title(session, case), TryCase(case.slug)
    for number, lesson in enumerate(session.lessons, start=1):
        if lesson.name == name:
            return words.lesson(number, lesson.title), StartLesson(name)
    return name, None
