"""The Home screen: where one was, the lessons, and free play."""

from __future__ import annotations

from tutor.session.actions import action_name
from tutor.session.commands import Open, StartLesson
from tutor.session.state import LessonTitle, Session
from tutor.session.view import Block, Button, Gap, Screen, Text, TextStyle, Tone, View
from tutor.session.view_parts import screen_view

REST = "Long drilling strains hands and wrists. Turn gently, and rest them when they ask for it."


def home(session: Session) -> View:
    """The Home screen."""
    return screen_view(
        session,
        "Pairwright",
        page=(_welcome(session), _lessons(session)),
    )


def _welcome(session: Session) -> tuple[Block, ...]:
    blocks: list[Block] = [
        Text("The first two layers, pair by pair", TextStyle.TITLE),
        Text(
            "Match a corner with its edge in five small steps: find both, raise both to the top layer, "
            "part them, join them so that they match, insert them. You turn; every turn is checked."
        ),
        Gap(1),
    ]
    if session.lesson is not None:
        play = session.lesson
        label = f"Continue: {play.lesson.title}"
        detail = f"Scene {play.scene + 1} of {len(play.lesson.scenes)}"
        blocks.append(Button(action_name(Open(Screen.LESSON)), label, primary=True, detail=detail))
    elif session.lessons:
        first = session.lessons[0]
        start = action_name(StartLesson(first.name))
        blocks.append(Button(start, f"Start: {first.title}", primary=True, detail=first.goal))
    blocks += [
        Button(
            action_name(Open(Screen.FREE_PLAY)),
            "Free play",
            detail="Any position, any slot; take back and make again without end.",
        ),
        Button(
            action_name(Open(Screen.CASE_BOOK)),
            "Case book",
            detail="All 41 cases, in any slot, mirrored, played slowly.",
        ),
        Gap(1),
        Text(REST, TextStyle.SMALL, Tone.MUTED),
    ]
    return tuple(blocks)


def _lessons(session: Session) -> tuple[Block, ...]:
    blocks: list[Block] = [Text("Lessons", TextStyle.HEADING)]
    places = dict(session.last_scene)
    for number, lesson in enumerate(session.lessons, start=1):
        blocks.append(_lesson_button(number, lesson, places.get(lesson.name, 0)))
    if not session.lessons:
        blocks.append(Text("No lessons were found.", tone=Tone.MUTED))
    return tuple(blocks)


def _lesson_button(number: int, lesson: LessonTitle, scene: int) -> Button:
    return Button(
        action_name(StartLesson(lesson.name, scene)), f"{number}. {lesson.title}", detail=lesson.goal
    )
