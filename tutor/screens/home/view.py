"""The Home screen: who learns, the lessons, and the ways to all other rooms."""

from __future__ import annotations

from functools import lru_cache

from tutor.screens.home import words
from tutor.screens.learners.commands import NAME as LEARNERS
from tutor.screens.lesson.commands import StartLesson
from tutor.screens.parts.frame import screen_view
from tutor.session.commands import Open
from tutor.session.house import Session
from tutor.session.places import places_of
from tutor.session.record_commands import ChooseLearner
from tutor.session.state import FINISHED, LessonTitle, Place
from tutor.ui.view import Block, Button, ButtonRow, Gap, Text, TextStyle, Tone, View

NAMES_AT_HOME = 4
"""Home names this many learners; the Learners screen names the others."""


@lru_cache(maxsize=2)
def home(session: Session) -> View:
    """The Home screen."""
    return screen_view(
        session,
        words.PRODUCT,
        page=(_welcome(session), _lessons(session)),
    )


def _welcome(session: Session) -> tuple[Block, ...]:
    return (
        Text(words.TITLE, TextStyle.TITLE),
        Text(words.METHOD),
        Gap(1),
        *_learner(session),
        Gap(1),
        *session.house.doors(session.room, session),
        Gap(1),
        Text(words.REST, TextStyle.SMALL, Tone.MUTED),
    )


def _learner(session: Session) -> tuple[Block, ...]:
    """Who learns: a line, or, where there are several, their names to choose from."""
    records = session.records
    if len(records.learners) < 2:
        change = Button(Open(LEARNERS), words.CHANGE)
        return (Text(words.learner(records.learner), TextStyle.SMALL, Tone.MUTED), ButtonRow((change,)))
    others = [name for name in records.learners if name != records.learner]
    names = (records.learner, *others[: NAMES_AT_HOME - 1])
    buttons = [Button(ChooseLearner(name), name, selected=name == records.learner) for name in names]
    buttons.append(Button(Open(LEARNERS), words.SOMEBODY_ELSE))
    return (Text(words.WHO, TextStyle.QUESTION), ButtonRow(tuple(buttons)))


def _lessons(session: Session) -> tuple[Block, ...]:
    blocks: list[Block] = [Text(words.LESSONS, TextStyle.HEADING)]
    places = {place.lesson: place for place in places_of(session)}
    for number, lesson in enumerate(session.lessons, start=1):
        blocks.append(_lesson_button(number, lesson, places.get(lesson.name, Place(lesson.name, 0))))
    if not session.lessons:
        blocks.append(Text(words.NO_LESSONS, tone=Tone.MUTED))
    return tuple(blocks)


def _lesson_button(number: int, lesson: LessonTitle, place: Place) -> Button:
    label = words.lesson(number, lesson.title, finished=place.ticked)
    scene = 0 if place.scene == FINISHED else place.scene
    return Button(StartLesson(lesson.name, scene), label, detail=lesson.goal)
