"""``lesson``: check lesson scripts, begin a new one, and print their words."""

from __future__ import annotations

import argparse
from collections.abc import Callable
from contextlib import ExitStack
from functools import cache
from pathlib import Path
from typing import Any

from tutor.app.cli import lesson_text
from tutor.app.cli.program_name import program
from tutor.app.cli.solver import open_solver
from tutor.app.cli.task_request import RequestError
from tutor.atomic_file import creating
from tutor.cube.position import SLOTS, Position, Slot
from tutor.lesson.checker import check_file
from tutor.lesson.draft import draft, parse_name
from tutor.method.answer import Answer, answer
from tutor.method.cases import UnknownCaseError, parse_case
from tutor.solver.search import Solver
from tutor.solver.task import Task

_EPILOG = """\
examples:
  python -m tutor lesson check my-lesson.toml
  python -m tutor lesson new my-lesson --case corner-up-edge-left-front-up
  python -m tutor lesson text made-pair"""


def add_to(commands: argparse._SubParsersAction[Any]) -> None:
    """Add this command to those of the command line."""
    parser = commands.add_parser(
        "lesson",
        help="check lesson scripts, begin a new one, or print their words",
        description="For teachers: lessons are text files, described in lessons/FORMAT.md.",
        epilog=_EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    actions = parser.add_subparsers(
        title="what to do", metavar="check|new|text", dest="action", required=True
    )
    check = actions.add_parser(
        "check",
        help="tell everything wrong with scripts",
        description="Tells everything wrong with each file, with line, key and what would be right. "
        "The exit status is 1 when anything is wrong.",
        allow_abbrev=False,
    )
    check.add_argument("files", nargs="+", type=Path, metavar="FILE", help="a lesson script (TOML)")
    check.set_defaults(run=run_check)
    new = actions.add_parser(
        "new",
        help="write a draft made from a case's own route",
        description="Writes NAME.toml, a commented draft that can be played at once.",
        allow_abbrev=False,
    )
    new.add_argument("name", metavar="NAME", help="small letters, digits and hyphens")
    new.add_argument("--case", required=True, metavar="CASE", help="the case's name; “cases” lists all")
    new.add_argument("--slot", default="FR", metavar="SLOT", help="FR (usual), FL, BL or BR")
    new.add_argument("--folder", type=Path, default=Path(), help="where to write it (usually here)")
    new.set_defaults(run=run_new)
    lesson_text.add_to(actions)


def run_check(chosen: argparse.Namespace) -> int:
    """Check the files, print what is wrong, and return the exit status."""
    bad = 0
    with ExitStack() as stack:
        answers = _answers(stack)
        for file in chosen.files:
            problems = check_file(file, answers)
            bad += bool(problems)
            for problem in problems:
                print(problem)
            if not problems:
                print(f"{file}: nothing wrong")
    return 1 if bad else 0


def run_new(chosen: argparse.Namespace) -> int:
    """Write the draft and return the exit status. Raises RequestError."""
    if chosen.slot not in Slot.__members__:
        raise RequestError(
            f"“{chosen.slot[:20]}” is no slot; a slot is one of {', '.join(s.name for s in SLOTS)}"
        )
    try:
        name, case = parse_name(chosen.name), parse_case(chosen.case)
    except UnknownCaseError as fault:
        raise RequestError(f"{fault}; “python -m tutor cases” lists all") from None
    except ValueError as fault:
        raise RequestError(str(fault)) from None
    with ExitStack() as stack:
        text = draft(name, case, Slot[chosen.slot], _answers(stack))
    path = chosen.folder / f"{name}.toml"
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with creating(path) as beside:
            beside.write_text(text, encoding="utf-8")
    except FileExistsError:
        raise RequestError(f"{path} is there already; choose another name") from None
    except OSError as fault:
        raise RequestError(f"{path} cannot be written: {fault.strerror}; choose another folder") from None
    print(f"{path} is written; play it with: {program()} --lessons {path.parent}")
    return 0


def _answers(stack: ExitStack) -> Callable[[Position, Task], Answer]:
    """Exact answers from a solver that is opened when the first one is wanted."""

    @cache
    def solver() -> Solver:
        return stack.enter_context(open_solver())

    return lambda position, task: answer(solver(), position, task)
