"""The command line: which command to run, and what to say when its arguments are wrong.

Answers go to standard output; whatever is wrong is said on standard error in one sentence, with exit status
2. Without a command the window opens.
"""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Sequence
from difflib import get_close_matches
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn

from tutor.app.cli.program_name import as_called, program
from tutor.app.cli.words import program as words
from tutor.app.ending import SIGNALLED, SignalledError, on_signals, raise_signalled
from tutor.app.terminal import UnwritableError, complain, finish, open_streams, silence, tell
from tutor.quoting import ToldError, visible

if TYPE_CHECKING:
    from _typeshed import SupportsWrite

WRONG_ARGUMENTS = 2
INTERRUPTED, PIPE_CLOSED = 130, 141
"""128 and the number of the signal that would have ended it, as shells report it (POSIX)."""
UNWRITABLE = 1
"""The answer was there, and nobody could be given it."""
LESSONS = "--lessons"
"""The one option of the program that commands read, too."""
_NEGATIVE = re.compile(r"-[\d.]")


class _Parser(argparse.ArgumentParser):
    """Says what is wrong in one line instead of repeating how the program is used."""

    def __init__(self, **how: Any) -> None:
        super().__init__(**how)
        # The parser of the command wins over that of the program.
        self.set_defaults(parser=self)

    def refuse(self, unknown: Sequence[str], every: argparse.ArgumentParser) -> NoReturn:
        """Refuse arguments that no parser took; ``every`` has the options that go before a command."""
        typed = next((each for each in unknown if each.startswith("-")), unknown[0]).partition("=")[0]
        if self is not every and typed in every._option_string_actions:
            told = words.before_the_command if typed == LESSONS else words.for_the_window
            every.error(told(typed))
        self.error(words.unknown(unknown, get_close_matches(typed, self._option_string_actions, 1)))

    def format_help(self) -> str:
        """Examples call the program as it was called now."""
        return as_called(super().format_help())

    def error(self, message: str) -> NoReturn:
        # It quotes what was typed, which is one line here whatever it was.
        complain(visible(words.refused(self.prog, message)))
        self.exit(WRONG_ARGUMENTS)

    def _print_message(self, message: str, file: SupportsWrite[str] | None = None) -> None:
        # The library passes over what cannot be written.
        if file is sys.stdout:
            tell(message, end="")
        else:
            complain(message.rstrip("\n"))


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command that the arguments name (by default those of the process) and return its exit status.

    Like any program, it exits by SystemExit after printing a help text or refusing an argument.
    """
    open_streams()
    given = sys.argv[1:] if arguments is None else list(arguments)
    try:
        with on_signals(raise_signalled):
            return _status(given)
    except BrokenPipeError:
        # Whoever read the answers has seen enough.
        silence(sys.stdout)
        return PIPE_CLOSED
    except UnwritableError as fault:
        silence(sys.stdout)
        complain(words.unwritable(program(), fault.reason))
        return UNWRITABLE
    except ToldError as fault:
        complain(f"{program()}: {fault}")
        return WRONG_ARGUMENTS
    except SignalledError as fault:
        return SIGNALLED + fault.number
    except KeyboardInterrupt:
        return INTERRUPTED


def _status(given: list[str]) -> int:
    """The exit status, once all is written."""
    try:
        if not given:
            # The window alone needs no command, and does not wait for what the commands bring along.
            return _run_window(argparse.Namespace())
        parser = _parser(given)
        chosen, unknown = parser.parse_known_args(_views_joined(given))
        if unknown:
            chosen.parser.refuse(unknown, parser)
        return _run_command(chosen)
    finally:
        finish()


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
    try:
        status: int = chosen.run(chosen)
    except ToldError as fault:
        complain(f"{_called(chosen)}: {as_called(str(fault))}")
        return WRONG_ARGUMENTS
    except OSError as fault:
        # Such as a name that is too long, wherever a file is looked for.
        if fault.filename is None or isinstance(fault, BrokenPipeError):
            raise
        told = words.unusable_file(str(fault.filename), fault.strerror or str(fault))
        complain(f"{_called(chosen)}: {told}")
        return WRONG_ARGUMENTS
    return status


def _parser(given: Sequence[str]) -> argparse.ArgumentParser:
    """The parser for these arguments: only the command that they name is there with all its options."""
    parser = _Parser(
        prog=program(),
        allow_abbrev=False,
        description=words.DESCRIPTION,
        epilog=words.EPILOG,
    )
    parser.add_argument(LESSONS, type=Path, metavar="FOLDER", help=words.LESSONS_HELP)
    parser.add_argument("--board", metavar="LIST", help=words.BOARD_HELP)
    parser.add_argument("--shared", type=Path, metavar="FOLDER", help=words.SHARED_HELP)
    parser.set_defaults(run=_run_window)
    commands = parser.add_subparsers(title=words.COMMANDS, metavar="COMMAND", dest="command")
    for name, about in words.COMMAND_HELP.items():
        if name in given:
            # What a command brings along takes far longer than to say what there is.
            module = "tutor.app.checkup.command" if name == "checkup" else f"tutor.app.cli.{name}"
            import_module(module).add_to(commands, about)
        else:
            commands.add_parser(name, help=about)
    return parser


def _called(chosen: argparse.Namespace) -> str:
    """How the program was called, with the command if there was one."""
    return f"{program()} {chosen.command}" if chosen.command else program()


def _run_window(chosen: argparse.Namespace) -> int:
    # Imported here, so that the other commands neither need nor wait for what a window needs.
    from tutor.app.start import run_window

    return run_window(chosen)
