"""``turns``: the exact answer for one position, or, line by line, for many."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable, Iterator
from functools import partial
from typing import Any, BinaryIO, TextIO

from tutor.app.cli.solver import open_solver
from tutor.app.cli.task_request import EXAMPLE_LINE, RequestError, TaskRequest, request_in_line, task_request
from tutor.coach.feedback import feedback
from tutor.cube.faces import TURNS
from tutor.cube.stickers import COLOUR_NAMES
from tutor.method.answer import Answer, answer, answer_as_dict
from tutor.session.target import colours_as_held
from tutor.solver.search import Solver

LONGEST_LINE = 1 << 16
"""Bytes that a line of a batch may have; longer ones are refused without being held in memory."""

_EXAMPLE = """python -m tutor turns --setup "R U R'" --slot FR"""
_DESCRIPTION = """\
Judges all 18 turns at a position, exactly: how many turns are to go after each, how many it loses, and the
verdict. Turns to go are counted by hand: with the top and the side faces of the slots that are not kept.
The setup is applied to a solved cube held with the cross face down. It may hold wide turns and rotations, as
long as the cross is down again at its end. Slots are named as the cube is then held: FR, FL, BL, BR."""
_EPILOG = f"""\
example:
  {_EXAMPLE}

With --json the answer is one JSON object:
  setup, slot, keep
  settled   whether the cross and the kept pairs are solved
  distance  the fewest of all turns to the end
  by_hand   the fewest turns by hand; null where there is no way by hand
  to_go     by_hand, or distance where by_hand is null
  case      its name, or null
  step      raise, part, join, insert or done
  turns     18 of turn, after (distance after it), cost (what it adds to distance), by_hand (by hand after
            it, or null), verdict, why (the rule of the verdict), says (what the coach says of it, for a cube
            with white down and green in front at first)
  lines     a few of the shortest, by hand unless by_hand is null
  routes    a few of the shortest routes: notation, length, and steps (the turns of each step)

With --batch each line of standard input is a request, and each gets one line of JSON, in the same order:
  {EXAMPLE_LINE}
"keep" may be left out, as on the command line. A line that cannot be answered gets an object with "error",
which names the line's number, and the rest goes on; the exit status is then 1. A line has at most
{LONGEST_LINE} bytes."""


def add_to(commands: argparse._SubParsersAction[Any]) -> None:
    """Add this command to those of the command line."""
    parser = commands.add_parser(
        "turns",
        help="judge every turn at a position",
        description=_DESCRIPTION,
        epilog=_EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("--setup", metavar="MOVES", help="moves from a solved cube, cross down; may be empty")
    parser.add_argument("--slot", metavar="SLOT", help="the slot to be solved: FR, FL, BL or BR")
    parser.add_argument(
        "--keep",
        metavar="SLOTS",
        help="slots to be kept, set apart by commas; by default every other one whose pair is home, "
        "and with an empty text none",
    )
    parser.add_argument("--json", action="store_true", help="answer with JSON instead of a table")
    parser.add_argument("--batch", action="store_true", help="answer requests from standard input, with JSON")
    parser.set_defaults(run=run)


def run(chosen: argparse.Namespace) -> int:
    """Answer what the arguments ask and return the exit status. Raises RequestError for wrong arguments."""
    if chosen.batch:
        if (chosen.setup, chosen.slot, chosen.keep) != (None, None, None):
            raise RequestError("with --batch the setup, slot and keep stand in each line of standard input")
        with open_solver() as solver:
            return answer_lines(sys.stdin.buffer, sys.stdout, partial(_answered, solver))
    if chosen.setup is None or chosen.slot is None:
        raise RequestError(f"say the setup and the slot, as in {_EXAMPLE}, or --batch")
    keep = None if chosen.keep is None else [name.strip() for name in chosen.keep.split(",") if name.strip()]
    asked = task_request(chosen.setup, chosen.slot, keep)
    with open_solver() as solver:
        if chosen.json:
            print(json.dumps(_answered(solver, asked)))
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
                raise RequestError(f"longer than {LONGEST_LINE} bytes; a line is one request")
            reply = answered(request_in_line(line))
        except RequestError as fault:
            reply = {"error": f"line {number}: {fault}"}
            status = 1
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
