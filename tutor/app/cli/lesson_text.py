"""``lesson text``: all that a learner reads in lessons, printed as one text."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from contextlib import ExitStack
from itertools import groupby
from textwrap import fill
from typing import Any, assert_never

from tutor.app.cli.handouts import answers, bad_lesson
from tutor.app.cli.words import lesson_text as words
from tutor.app.terminal import tell
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import lesson_names, load_lesson
from tutor.lesson.problems import LessonError
from tutor.lesson.scenes import Alone, Ask, Find, Lesson, LessonSegment, Quiz, Recap, Scene, Show, Tell
from tutor.method.steps import TURNING_STEPS
from tutor.screens.lesson.questions import options

_WIDTH = 88


def add_to(actions: argparse._SubParsersAction[Any]) -> None:
    """Add this action to those of ``lesson``."""
    parser = actions.add_parser("text", help=words.HELP, description=words.DESCRIPTION, allow_abbrev=False)
    parser.add_argument("names", nargs="*", metavar="NAME", help=words.NAMES_HELP)
    parser.set_defaults(run=run)


def run(chosen: argparse.Namespace) -> int:
    """Print the lessons and return the exit status. Raises RequestError."""
    known = lesson_names(chosen.lessons)
    with ExitStack() as stack:
        setting = LessonSetting(answers(stack))
        for place, name in enumerate(chosen.names or known):
            try:
                lesson = load_lesson(name, setting, chosen.lessons)
            except LessonError as fault:
                raise bad_lesson(fault) from fault
            number = known.index(lesson.name) + 1 if lesson.name in known else 0
            gap = "\n\n" if place else ""
            tell(f"{gap}{lesson_as_text(number, lesson)}")
    return 0


def lesson_as_text(number: int, lesson: Lesson) -> str:
    """All that a learner reads in a lesson; ``number`` is its place in the course, or 0."""
    heading = words.lesson_heading(number, lesson.title)
    lines = [heading, "=" * len(heading), _wrapped(words.goal(lesson.goal))]
    for count, scene in enumerate(lesson.scenes, start=1):
        lines += ["", f"{count}. {_heading(scene)}", _wrapped(scene.card_text, 3)]
        lines += [_wrapped(text, 6) for text in _besides(scene)]
    return "\n".join(lines)


def _heading(scene: Scene) -> str:
    match scene:
        case Tell():
            return words.TELL
        case Show():
            return words.SHOW
        case Ask():
            return words.YOUR_TURN[scene.extent]
        case Find():
            return words.FIND
        case Quiz():
            return words.QUIZ
        case Alone():
            return words.ALONE
        case Recap():
            return words.RECAP
        case _:
            assert_never(scene)


def _besides(scene: Scene) -> Iterator[str]:
    """What is read in a scene besides its text."""
    if scene.caption:
        yield scene.caption
    if isinstance(scene, Show):
        yield from _shown(scene)
    for text, true in options(scene):
        yield f"- {text} {words.RIGHT}" if true else f"- {text}"
    said = scene.because if isinstance(scene, Quiz) else getattr(scene, "afterwards", "")
    if said:
        yield f"{words.AFTERWARDS}{said}"
    if isinstance(scene, Recap):
        yield from (f"- {point}" for point in scene.points)


def _shown(scene: Show) -> Iterator[str]:
    """Each part with its turns, by steps, and its words."""
    for _, segments in groupby(scene.segments, key=lambda segment: segment.part):
        part = tuple(segments)
        yield f"[{', '.join(map(_turns, part))}] {part[0].text}"


def _turns(segment: LessonSegment) -> str:
    turns = " ".join(turn.notation for turn in segment.turns)
    if segment.slip:
        return f"{words.SLIP}: {turns}"
    return f"{segment.step.capitalize()}: {turns}" if segment.step in TURNING_STEPS else turns


def _wrapped(text: str, indent: int = 0) -> str:
    margin = " " * indent
    return fill(text, _WIDTH, initial_indent=margin, subsequent_indent=margin, break_on_hyphens=False)
