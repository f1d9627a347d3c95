"""``turns``: the exact answer for one position, or, line by line, for many."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable, Iterator
from functools import partial
from typing import Any, BinaryIO, TextIO

from tutor.app.cli.solver import open_solver
from tutor.app.cli.task_request import RequestError, TaskRequest, read_keep, request_in_line, task_request
from tutor.app.cli.words import turns as words
from tutor.app.cli.words.requests import long_line
from tutor.app.terminal import answering, tell
from tutor.coach.feedback import feedback
from tutor.cube.faces import TURNS
from tutor.cube.stickers import COLOUR_NAMES
from tutor.method.answer import Answer, answer, answer_as_dict
from tutor.session.target import colours_as_held
from tutor.solver.search import Solver

LONGEST_LINE = 1 << 16
"""Bytes that a line of a batch may have; longer ones are refused without being held in memory."""


def add_to(commands: argparse._SubParsersAction[Any], about: str) -> None:
    """Add this command to those of the command line; ``about`` says there what it does."""
    parser = commands.add_parser(
        "turns",
        help=about,
        description=words.DESCRIPTION,
        epilog=words.epilog(LONGEST_LINE),
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("--setup", metavar="MOVES", help=words.SETUP_HELP)
    parser.add_argument("--slot", metavar="SLOT", help=words.SLOT_HELP)
    parser.add_argument("--keep", metavar="SLOTS", help=words.KEEP_HELP)
    parser.add_argument("--json", action="store_true", help=words.JSON_HELP)
    parser.add_argument("--batch", action="store_true", help=words.BATCH_HELP)
    parser.set_defaults(run=run)


def run(chosen: argparse.Namespace) -> int:
    """Answer what the arguments ask and return the exit status. Raises RequestError for wrong arguments."""
    if chosen.batch:
        if (chosen.setup, chosen.slot, chosen.keep) != (None, None, None):
            raise RequestError(words.BATCH_ALONE)
        with open_solver() as solver:
            return answer_lines(sys.stdin.buffer, sys.stdout, partial(_answered, solver))
    if chosen.setup is None or chosen.slot is None:
        raise RequestError(words.NOTHING_ASKED)
    asked = task_request(chosen.setup, chosen.slot, read_keep(chosen.keep))
    with open_solver() as solver:
        if chosen.json:
            tell(json.dumps(_answered(solver, asked)))
        else:
            _show(answer(solver, asked.position, asked.task), asked.setup)
    return 0


def answer_lines(
    source: BinaryIO, target: TextIO, answered: Callable[[TaskRequest], dict[str, object]]
) -> int:
    """Answer each line of ``source`` with a line on ``target`` before reading the next.

    Returns the exit status: 1 when any line was bad, else 0.
    """
    status = 0
    for number, line in enumerate(_lines(source), start=1):
        try:
            if line is None:
                raise RequestError(long_line(LONGEST_LINE))
            reply = answered(request_in_line(line))
        except RequestError as fault:
            reply = {"error": words.at_line(number, str(fault))}
            status = 1
        with answering():
            print(json.dumps(reply), file=target, flush=True)
    return status


def _lines(source: BinaryIO) -> Iterator[bytes | None]:
    """The lines, each without its end; None for one that is too long, which is read past."""
    while line := source.readline(LONGEST_LINE + 1):
        if line.endswith(b"\n") or len(line) <= LONGEST_LINE:
            yield line.rstrip(b"\r\n")
            continue
        while line and not line.endswith(b"\n"):
            line = source.readline(LONGEST_LINE)
        yield None


def _answered(solver: Solver, asked: TaskRequest) -> dict[str, object]:
    found = answer(solver, asked.position, asked.task)
    colours = colours_as_held(asked.cube, COLOUR_NAMES)
    return answer_as_dict(found, asked.setup, [feedback(found, turn, colours).text for turn in TURNS])


def _show(found: Answer, setup: str) -> None:
    # Imported here, so that neither the window nor JSON waits for it.
    from tutor.app.cli.turns_table import show_answer

    show_answer(found, setup)
