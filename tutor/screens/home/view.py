"""The Home screen: where one was, the lessons, and free play."""

from __future__ import annotations

from functools import lru_cache

from tutor.screens.learners.commands import NAME as LEARNERS
from tutor.screens.lesson.commands import StartLesson
from tutor.screens.parts.frame import screen_view
from tutor.session.commands import Open
from tutor.session.house import Session
from tutor.session.places import FINISHED, places_of
from tutor.session.record_commands import ChooseLearner
from tutor.session.state import LessonTitle
from tutor.ui.view import Block, Button, ButtonRow, Gap, Text, TextStyle, Tone, View

REST = "Long practice strains hands and wrists. Turn gently, and rest them when they ask for it."
NAMES_AT_HOME = 4
"""So many learners are at Home; the others one page further."""


@lru_cache(maxsize=2)
def home(session: Session) -> View:
    """The Home screen."""
    return screen_view(
        session,
        "Pairwright",
        page=(_welcome(session), _lessons(session)),
    )


def _welcome(session: Session) -> tuple[Block, ...]:
    return (
        Text("The first two layers, pair by pair", TextStyle.TITLE),
        Text(
            "Match a corner with its edge in five small steps: find both, raise both to the top layer, "
            "part them, join them so that they match, insert them. You turn; every turn is checked."
        ),
        Gap(1),
        *_learner(session),
        Gap(1),
        *session.house.doors(session.room, session),
        Gap(1),
        Text(REST, TextStyle.SMALL, Tone.MUTED),
    )


def _learner(session: Session) -> tuple[Block, ...]:
    """Who learns: a line, or, where there are several, their names to choose from."""
    records = session.records
    if len(records.learners) < 2:
        change = Button(Open(LEARNERS), "Change")
        return (Text(f"Learner: {records.learner}", TextStyle.SMALL, Tone.MUTED), ButtonRow((change,)))
    others = [name for name in records.learners if name != records.learner]
    names = (records.learner, *others[: NAMES_AT_HOME - 1])
    buttons = [Button(ChooseLearner(name), name, selected=name == records.learner) for name in names]
    buttons.append(Button(Open(LEARNERS), "Somebody else"))
    return (Text("Who is learning?", TextStyle.QUESTION), ButtonRow(tuple(buttons)))


def _lessons(session: Session) -> tuple[Block, ...]:
    blocks: list[Block] = [Text("Lessons", TextStyle.HEADING)]
    places = dict(places_of(session))
    for number, lesson in enumerate(session.lessons, start=1):
        blocks.append(_lesson_button(number, lesson, places.get(lesson.name, 0)))
    if not session.lessons:
        blocks.append(Text("No lessons were found.", tone=Tone.MUTED))
    return tuple(blocks)


def _lesson_button(number: int, lesson: LessonTitle, scene: int) -> Button:
    label, finished = f"{number}. {lesson.title}", scene == FINISHED
    if finished:
        label += "  ✓"
    return Button(StartLesson(lesson.name, 0 if finished else scene), label, detail=lesson.goal)
