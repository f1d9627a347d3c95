"""What the commands that make handouts share: their arguments, what they show, and how it is drawn."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from contextlib import ExitStack
from functools import cache
from pathlib import Path

from tutor.app.cli.solver import open_solver
from tutor.app.cli.task_request import RequestError, read_slot, task_request
from tutor.app.cli.words import handouts as words
from tutor.cube.faces import Face
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import parse_moves
from tutor.cube.position import SLOTS, SOLVED, Position, Slot
from tutor.cube.stickers import COLOUR_NAMES
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.draft import TOPS
from tutor.lesson.library import load_facing_lesson
from tutor.lesson.problems import LessonError
from tutor.lesson.scenes import Lesson
from tutor.lesson.variation import Variation
from tutor.method.answer import Answer, answer
from tutor.method.cases import CASES, Case, UnknownCaseError, parse_case
from tutor.publish.film import Passage
from tutor.publish.passages import line_passage, route_passage, steps_of, told_of, turns_passage
from tutor.publish.subject import Shot, Subject, case_subject, subject_of, usual_camera
from tutor.publish.words import after_setup
from tutor.quoting import quotable
from tutor.session.settings_options import PALETTES, THEMES
from tutor.solver.search import Solver
from tutor.solver.task import Task
from tutor.ui.view import Camera, Look

SMALLEST, LARGEST = 64, 8192
"""Pixels of a side."""


def add_subject(parser: argparse.ArgumentParser) -> None:
    """The arguments that say which cube is shown."""
    parser.add_argument("case", nargs="?", metavar="CASE", help=words.CASE_HELP)
    parser.add_argument("--setup", metavar="MOVES", help=words.SETUP_HELP)
    parser.add_argument("--slot", metavar="SLOT", help=words.SLOT_HELP)
    parser.add_argument("--top", default="", choices=TOPS, metavar="TURN", help=words.TOP_HELP)
    add_cross(parser)


def add_cross(parser: argparse.ArgumentParser) -> None:
    """The cross colour."""
    told = words.cross_help(COLOUR_NAMES)
    parser.add_argument("--cross", default="white", choices=COLOUR_NAMES, metavar="COLOUR", help=told)


def add_look(parser: argparse.ArgumentParser, size: str | None, usual: str) -> None:
    """The arguments that say how it looks.

    ``size`` is the size by default, None if the command chooses it; ``usual`` says it in the help.
    """
    switch = argparse.BooleanOptionalAction
    parser.add_argument("--size", default=size, metavar="WxH", help=words.size_help(usual))
    parser.add_argument("--theme", default="light", choices=THEMES, help=words.THEME_HELP)
    parser.add_argument("--palette", default="usual", choices=PALETTES, help=words.PALETTE_HELP)
    parser.add_argument("--letters", action=switch, default=False, help=words.LETTERS_HELP)
    parser.add_argument("--mirrors", action=switch, default=True, help=words.MIRRORS_HELP)
    parser.add_argument("--marks", action=switch, default=True, help=words.MARKS_HELP)
    parser.add_argument("--camera", metavar="YAW,PITCH", help=words.CAMERA_HELP)


def add_target(parser: argparse.ArgumentParser, what: str, *, required: bool = True) -> None:
    """Where the handout goes."""
    parser.add_argument("--out", required=required, type=Path, metavar="FILE", help=what)
    parser.add_argument("--force", action="store_true", help=words.FORCE_HELP)


def shot_of(chosen: argparse.Namespace, slot: Slot | None) -> Shot:
    """How it is looked at, from the arguments of ``add_look``. Raises RequestError."""
    look = Look(chosen.theme, chosen.palette, mirrors=chosen.mirrors, letters=chosen.letters)
    camera = usual_camera(slot, chosen.mirrors) if chosen.camera is None else _camera(chosen.camera)
    return Shot(look, _size(chosen.size), camera, chosen.marks)


def subject_from(chosen: argparse.Namespace) -> Subject:
    """What is shown, from the arguments of ``add_subject``. Raises RequestError."""
    if (chosen.case is None) == (chosen.setup is None):
        raise RequestError(words.WRITE_A_CASE)
    cross = cross_of(chosen)
    if chosen.case is not None:
        slot = read_slot(chosen.slot or "FR")
        return case_subject(case_named(chosen.case), slot, TOPS.index(chosen.top), cross)
    if chosen.top:
        raise RequestError(words.TOP_WITHOUT_CASE)
    asked = task_request(chosen.setup, chosen.slot or "FR", None)
    cube = HeldCube(SOLVED).held_for(cross).after(parse_moves(chosen.setup))
    return subject_of(cube, _task(asked.position, chosen.slot), after_setup(chosen.setup))


def _task(position: Position, slot: str | None) -> Task | None:
    """The task of the slot named; without a name, of the only slot that is not home, if there is just one."""
    if slot is not None:
        return Task.at(position, read_slot(slot))
    away = [each for each in SLOTS if not position.pair_home(each)]
    return Task.at(position, away[0]) if len(away) == 1 and position.cross_home else None


def case_named(name: str) -> Case:
    """The case of this number or name. Raises RequestError with near names."""
    try:
        return parse_case(name)
    except UnknownCaseError as fault:
        raise RequestError(words.no_case(quotable(fault.text, 60), fault.near, len(CASES))) from None


def cross_of(chosen: argparse.Namespace) -> Face:
    """The cross colour."""
    return Face(COLOUR_NAMES.index(chosen.cross))


def _size(text: str) -> tuple[int, int]:
    parts = text.lower().split("x")
    if len(parts) == 2 and all(part.isascii() and part.isdigit() and len(part) <= 5 for part in parts):
        width, height = (int(part) for part in parts)
        if SMALLEST <= width <= LARGEST and SMALLEST <= height <= LARGEST:
            return width, height
    raise RequestError(words.no_size(quotable(text), SMALLEST, LARGEST))


def _camera(text: str) -> Camera:
    try:
        yaw, pitch = (float(part) for part in text.split(","))
    except ValueError:
        yaw = pitch = float("nan")
    if not (-180 <= yaw <= 180 and -60 <= pitch <= 60):
        raise RequestError(words.no_view(quotable(text)))
    return Camera(yaw, pitch)


def answers(stack: ExitStack) -> Callable[[Position, Task], Answer]:
    """Exact answers from a solver that is opened when the first one is wanted."""

    @cache
    def solver() -> Solver:
        return stack.enter_context(open_solver())

    return lambda position, task: answer(solver(), position, task)


def lesson_as_played(
    name: str, chosen: argparse.Namespace, answered: Callable[[Position, Task], Answer]
) -> Lesson:
    """A lesson as the window shows it, with the cross colour chosen. Raises RequestError."""
    setting = LessonSetting(answered, Variation(cross=cross_of(chosen)))
    try:
        return load_facing_lesson(name, setting, chosen.lessons)
    except LessonError as fault:
        raise bad_lesson(fault) from fault


def bad_lesson(fault: LessonError) -> RequestError:
    """The refusal of a lesson that cannot be read."""
    first, *others = fault.problems
    return RequestError(words.bad_lesson(str(first), more=bool(others)))


def passage_of(subject: Subject, show: str, answered: Callable[[Position, Task], Answer]) -> Passage:
    """What is shown of a subject. Raises ValueError when it cannot be shown."""
    if show not in ("route", "line"):
        turns = parse_moves(show)
        return turns_passage(subject, turns, told_of(subject, turns, steps_of(subject, turns), answered))
    if subject.task is None:
        raise RequestError(words.needs_pair(show))
    return (route_passage if show == "route" else line_passage)(subject, answered)
