"""What the command line says as a whole: its own help, and where to get help on a command."""

from __future__ import annotations

from collections.abc import Sequence

from tutor.quoting import visible

DESCRIPTION = (
    "Pairwright teaches the first two layers of the 3x3x3 cube. Type no command, and its window opens."
)
LESSONS_HELP = "a folder with lessons of your own, for the window"
BOARD_HELP = "begin with the board, at cases such as 3,14,7-9, a lesson's name, or slipping"
SHARED_HELP = "share attempts and to-do lists with other windows over a folder, for the window"
COMMANDS = "commands that need no window"
COMMAND_HELP = {
    "turns": "judge every turn at a position",
    "explain": "take a sequence of turns apart, step by step",
    "cases": "list the 41 cases",
    "lesson": "check lesson scripts, begin a new one, or print their words",
    "picture": "draw a case as a picture",
    "progress": "show, export, import, merge, back up, restore or reset what learners have practised",
    "film": "make a moving picture of a case or lesson",
    "sheet": "print lessons or cases",
    "checkup": "check what this machine offers and whether your saved data is sound",
}
"""What each command does, in the order in which they are listed."""
EPILOG = "“pairwright COMMAND --help” explains a command and gives an example."


def refused(program: str, fault: str) -> str:
    """The arguments have a fault; ``program`` is how the program or command was called."""
    return f"{program}: {fault}; type “{program} --help” to see what you can write"


def unknown(arguments: Sequence[str], near: Sequence[str]) -> str:
    """Arguments that nothing takes, with the option that was meant, if one is near."""
    meant = f" (did you mean {near[0]}?)" if near else ""
    return f"unrecognized arguments: {' '.join(arguments)}{meant}"


def before_the_command(option: str) -> str:
    """An option of the program after a command."""
    return f"{option} goes before the command"


def for_the_window(option: str) -> str:
    """An option of the window after a command, which opens none."""
    return f"{option} is for the window, which opens without a command"


def unwritable(program: str, reason: str) -> str:
    """Standard output takes no answer."""
    return f"{program}: the program cannot write its answer: {reason}; send it to a file or another program"


def unusable_file(path: str, reason: str) -> str:
    """The system refuses a file or a folder."""
    return f"the program cannot use {visible(path)}: {reason}; choose another name or folder"
