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
from tutor.app.cli.words import lesson as words
from tutor.app.terminal import tell
from tutor.atomic_file import creating
from tutor.cube.position import SLOTS, Position, Slot
from tutor.lesson.checker import check_file
from tutor.lesson.draft import draft, parse_name
from tutor.method.answer import Answer, answer
from tutor.method.cases import UnknownCaseError, parse_case
from tutor.solver.search import Solver
from tutor.solver.task import Task


def add_to(commands: argparse._SubParsersAction[Any], about: str) -> None:
    """Add this command to those of the command line; ``about`` says there what it does."""
    parser = commands.add_parser(
        "lesson",
        help=about,
        description=words.ABOUT,
        epilog=words.EXAMPLES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    actions = parser.add_subparsers(
        title=words.ACTIONS, metavar="check|new|text", dest="action", required=True
    )
    check = actions.add_parser(
        "check",
        help=words.CHECK_HELP,
        description=words.CHECK_ABOUT,
        allow_abbrev=False,
    )
    check.add_argument("files", nargs="+", type=Path, metavar="FILE", help=words.FILE_HELP)
    check.set_defaults(run=run_check)
    new = actions.add_parser(
        "new",
        help=words.NEW_HELP,
        description=words.NEW_ABOUT,
        allow_abbrev=False,
    )
    new.add_argument("name", metavar="NAME", help=words.NAME_HELP)
    new.add_argument("--case", required=True, metavar="CASE", help=words.CASE_HELP)
    new.add_argument("--slot", default="FR", metavar="SLOT", help=words.SLOT_HELP)
    new.add_argument("--folder", type=Path, default=Path(), help=words.FOLDER_HELP)
    new.set_defaults(run=run_new)
    lesson_text.add_to(actions)


def run_check(chosen: argparse.Namespace) -> int:
    """Check the files, print what is wrong, and return the exit status."""
    bad = 0
    with ExitStack() as stack:
        answers = _answers(stack)
        for file in chosen.files:
            problems = check_file(file, answers)
            bad += any(not problem.minor for problem in problems)
            for problem in problems:
                tell(problem)
            if not problems:
                tell(words.nothing_wrong(str(file)))
    return 1 if bad else 0


def run_new(chosen: argparse.Namespace) -> int:
    """Write the draft and return the exit status. Raises RequestError."""
    if chosen.slot not in Slot.__members__:
        raise RequestError(words.not_a_slot(chosen.slot[:20], tuple(slot.name for slot in SLOTS)))
    try:
        name, case = parse_name(chosen.name), parse_case(chosen.case)
    except UnknownCaseError as fault:
        raise RequestError(words.not_a_case(str(fault))) from None
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
        raise RequestError(words.taken(str(path))) from None
    except OSError as fault:
        raise RequestError(words.not_written(str(path), str(fault.strerror))) from None
    tell(words.written(str(path), program(), str(path.parent)))
    return 0


def _answers(stack: ExitStack) -> Callable[[Position, Task], Answer]:
    """Exact answers from a solver that is opened when the first one is wanted."""

    @cache
    def solver() -> Solver:
        return stack.enter_context(open_solver())

    return lambda position, task: answer(solver(), position, task)
