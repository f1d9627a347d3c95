"""What the commands that make handouts share: their arguments, what they show, and how it is drawn."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from contextlib import ExitStack
from functools import cache
from pathlib import Path

from tutor.app.cli.solver import open_solver
from tutor.app.cli.task_request import RequestError, read_slot, task_request
from tutor.cube.faces import Face
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import parse_moves
from tutor.cube.position import SLOTS, SOLVED, Position, Slot
from tutor.cube.stickers import COLOUR_NAMES
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import load_lesson
from tutor.lesson.problems import LessonError
from tutor.lesson.scenes import Lesson
from tutor.lesson.variation import Variation
from tutor.method.answer import Answer, answer
from tutor.method.cases import Case, UnknownCaseError, parse_case
from tutor.publish.film import Passage
from tutor.publish.passages import line_passage, route_passage, turns_passage
from tutor.publish.subject import Shot, Subject, case_subject, subject_of, usual_camera
from tutor.session.attempts import first_hold
from tutor.session.settings_options import PALETTES, THEMES
from tutor.solver.search import Solver
from tutor.solver.task import Task
from tutor.ui.view import Camera, Look

TOPS = ("", "U", "U2", "U'")
"""The top layer turned once more, by alignment."""
SMALLEST, LARGEST = 64, 8192
"""Pixels of a side."""


def add_subject(parser: argparse.ArgumentParser) -> None:
    """The arguments that say which cube is shown."""
    parser.add_argument("case", nargs="?", metavar="CASE", help="a case by its name; “cases” lists all")
    parser.add_argument("--setup", metavar="MOVES", help="instead of a case: moves from a solved cube")
    parser.add_argument("--slot", metavar="SLOT", help="FR, FL, BL or BR; a case is in FR unless you say so")
    parser.add_argument(
        "--top", default="", choices=TOPS, metavar="TURN", help="with a case: the top turned by U, U2 or U'"
    )
    add_cross(parser)


def add_cross(parser: argparse.ArgumentParser) -> None:
    """The cross colour."""
    parser.add_argument(
        "--cross", default="white", choices=COLOUR_NAMES, metavar="COLOUR", help=", ".join(COLOUR_NAMES)
    )


def add_look(parser: argparse.ArgumentParser, size: str | None, *, mirrors: bool = True) -> None:
    """The arguments that say how it looks; with ``size`` None the command settles the usual size itself."""
    switch = argparse.BooleanOptionalAction
    parser.add_argument("--size", default=size, metavar="WxH", help="pixels across and down")
    parser.add_argument("--theme", default="light", choices=THEMES)
    parser.add_argument("--palette", default="usual", choices=PALETTES, help="colours of the stickers")
    parser.add_argument("--letters", action=switch, default=False, help="letters on the stickers")
    parser.add_argument("--mirrors", action=switch, default=mirrors, help="mirrors behind and below the cube")
    parser.add_argument("--marks", action=switch, default=True, help="pair and slot marked, the rest dimmed")
    parser.add_argument("--camera", metavar="YAW,PITCH", help="degrees to the right and up, usually 32,28")


def add_target(parser: argparse.ArgumentParser, what: str) -> None:
    """Where the handout goes."""
    parser.add_argument("--out", required=True, type=Path, metavar="FILE", help=what)
    parser.add_argument("--force", action="store_true", help="replace a file that is there already")


def shot_of(chosen: argparse.Namespace, slot: Slot | None) -> Shot:
    """How it is looked at, from the arguments of ``add_look``. Raises RequestError."""
    look = Look(chosen.theme, chosen.palette, mirrors=chosen.mirrors, letters=chosen.letters)
    camera = usual_camera(slot, chosen.mirrors) if chosen.camera is None else _camera(chosen.camera)
    return Shot(look, _size(chosen.size), camera, chosen.marks)


def subject_from(chosen: argparse.Namespace) -> Subject:
    """What is shown, from the arguments of ``add_subject``. Raises RequestError."""
    if (chosen.case is None) == (chosen.setup is None):
        raise RequestError("say what to show: a case, or --setup with moves")
    cross = cross_of(chosen)
    if chosen.case is not None:
        slot = read_slot(chosen.slot or "FR")
        return case_subject(case_named(chosen.case), slot, TOPS.index(chosen.top), cross)
    if chosen.top:
        raise RequestError("--top goes with a case; end the setup with that turn instead")
    asked = task_request(chosen.setup, chosen.slot or "FR", None)
    cube = HeldCube(SOLVED, first_hold(cross)).after(parse_moves(chosen.setup))
    return subject_of(cube, _task(asked.position, chosen.slot), f"After {chosen.setup}".rstrip())


def _task(position: Position, slot: str | None) -> Task | None:
    """The task of the slot named; without a name, of the only slot that is not home, if there is just one."""
    if slot is not None:
        return Task.at(position, read_slot(slot))
    away = [each for each in SLOTS if not position.pair_home(each)]
    return Task.at(position, away[0]) if len(away) == 1 and position.cross_home else None


def case_named(name: str) -> Case:
    """The case of this name. Raises RequestError with near names."""
    try:
        return parse_case(name)
    except UnknownCaseError as fault:
        raise RequestError(f"{fault}; “python -m tutor cases” lists all") from None


def cross_of(chosen: argparse.Namespace) -> Face:
    """The cross colour."""
    return Face(COLOUR_NAMES.index(chosen.cross))


def _size(text: str) -> tuple[int, int]:
    parts = text.lower().split("x")
    if len(parts) == 2 and all(part.isascii() and part.isdigit() and len(part) <= 5 for part in parts):
        width, height = (int(part) for part in parts)
        if SMALLEST <= width <= LARGEST and SMALLEST <= height <= LARGEST:
            return width, height
    raise RequestError(f"“{text[:20]}” is no size; write 1280x720, with sides from {SMALLEST} to {LARGEST}")


def _camera(text: str) -> Camera:
    try:
        yaw, pitch = (float(part) for part in text.split(","))
    except ValueError:
        yaw = pitch = float("nan")
    if not (-180 <= yaw <= 180 and -60 <= pitch <= 60):
        advice = "write yaw,pitch, such as 32,28, with yaw from -180 to 180 and pitch from -60 to 60"
        raise RequestError(f"“{text[:20]}” is no view; {advice}")
    return Camera(yaw, pitch)


def answers(stack: ExitStack) -> Callable[[Position, Task], Answer]:
    """Exact answers from a solver that is opened when the first one is wanted."""

    @cache
    def solver() -> Solver:
        return stack.enter_context(open_solver())

    return lambda position, task: answer(solver(), position, task)


def lesson_named(chosen: argparse.Namespace, answered: Callable[[Position, Task], Answer]) -> Lesson:
    """The lesson that ``--lesson`` names, with the cross colour chosen. Raises RequestError."""
    setting = LessonSetting(answered, Variation(cross=cross_of(chosen)))
    try:
        return load_lesson(chosen.lesson, setting, chosen.lessons)
    except LessonError as fault:
        more = len(fault.problems) - 1
        others = f", and {more} more; “lesson check” tells all" if more else ""
        raise RequestError(f"{fault.problems[0]}{others}") from fault


def passage_of(subject: Subject, show: str, answer: Answer | None) -> Passage:
    """What is shown of a subject. Raises ValueError when it cannot be shown."""
    if show not in ("route", "line"):
        return turns_passage(subject, parse_moves(show))
    if answer is None:
        raise RequestError(f"a {show} needs a pair to solve; name its slot with --slot, or write turns")
    return route_passage(subject, answer) if show == "route" else line_passage(subject, answer)
