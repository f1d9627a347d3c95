"""The command line: which command to run, and what to say when its arguments are wrong.

Answers go to standard output; whatever is wrong is said on standard error in one sentence, with exit status
2. Without a command the window opens.
"""

from __future__ import annotations

import argparse
import os
import re
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import NoReturn

from tutor.app.cli.program_name import as_called, program
from tutor.app.cli.words import program as words

WRONG_ARGUMENTS = 2
INTERRUPTED = 130
"""128 and the number of the signal, as shells report it (POSIX)."""
PIPE_CLOSED = 141
_NEGATIVE = re.compile(r"-[\d.]")


class _Parser(argparse.ArgumentParser):
    """Says what is wrong in one line instead of repeating how the program is used."""

    def format_help(self) -> str:
        """Examples call the program as it was called now."""
        return as_called(super().format_help())

    def error(self, message: str) -> NoReturn:
        self.exit(WRONG_ARGUMENTS, f"{words.refused(self.prog, message)}\n")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command that the arguments name (by default those of the process) and return its exit status.

    Like any program, it exits by SystemExit after printing a help text or refusing an argument.
    """
    for stream in (sys.stdout, sys.stderr):
        # A terminal that cannot show a character gets a stand-in instead of an exception.
        if reconfigure := getattr(stream, "reconfigure", None):
            reconfigure(errors="replace")
    given = sys.argv[1:] if arguments is None else list(arguments)
    # The window alone needs no command, and does not wait for what the commands bring along.
    chosen = _parser().parse_args(_views_joined(given)) if given else argparse.Namespace(run=_run_window)
    try:
        status: int = _run_command(chosen) if given else chosen.run(chosen)
        sys.stdout.flush()
    except BrokenPipeError:
        # Whoever read the answers has seen enough. What is still buffered must go nowhere, or Python
        # complains when it exits.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return PIPE_CLOSED
    except KeyboardInterrupt:
        return INTERRUPTED
    return status


def _views_joined(arguments: Sequence[str]) -> list[str]:
    """The arguments with a view that begins with a minus joined to its option, or it would look like one."""
    joined: list[str] = []
    for each in arguments:
        if joined and joined[-1] == "--camera" and _NEGATIVE.match(each):
            joined[-1] = f"--camera={each}"
        else:
            joined.append(each)
    return joined


def _run_command(chosen: argparse.Namespace) -> int:
    from tutor.app.cli.task_request import RequestError
    from tutor.app.drawing import CannotDrawError

    try:
        status: int = chosen.run(chosen)
    except (RequestError, CannotDrawError) as fault:
        print(f"{program()} {chosen.command}: {as_called(str(fault))}", file=sys.stderr)
        return WRONG_ARGUMENTS
    return status


def _parser() -> argparse.ArgumentParser:
    from tutor.app.checkup import command as checkup
    from tutor.app.cli import cases, explain, film, lesson, picture, progress, sheet, turns

    parser = _Parser(
        prog=program(),
        allow_abbrev=False,
        description=words.DESCRIPTION,
        epilog=words.EPILOG,
    )
    parser.add_argument("--lessons", type=Path, metavar="FOLDER", help=words.LESSONS_HELP)
    parser.add_argument("--board", metavar="LIST", help=words.BOARD_HELP)
    parser.add_argument("--shared", type=Path, metavar="FOLDER", help=words.SHARED_HELP)
    parser.set_defaults(run=_run_window, command="window")
    commands = parser.add_subparsers(title=words.COMMANDS, metavar="COMMAND", dest="command")
    for each in (turns, explain, cases, lesson, picture, progress, film, sheet, checkup):
        each.add_to(commands)
    return parser


def _run_window(chosen: argparse.Namespace) -> int:
    # Imported here, so that the other commands neither need nor wait for what a window needs.
    from tutor.app.start import run_window

    return run_window(chosen)
