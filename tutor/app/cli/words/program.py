"""What the command line says as a whole: its own help, and where to get help on a command."""

from __future__ import annotations

from tutor.quoting import visible

DESCRIPTION = (
    "Pairwright teaches the first two layers of the 3x3x3 cube. Type no command, and its window opens."
)
LESSONS_HELP = "a folder with lessons of your own, for the window"
BOARD_HELP = "begin with the board, at cases such as 3,14,7-9, a lesson's name, or slipping"
SHARED_HELP = "share attempts and to-do lists with other windows over a folder, for the window"
COMMANDS = "commands that need no window"
EPILOG = "“pairwright COMMAND --help” explains a command and gives an example."


def refused(program: str, fault: str) -> str:
    """The arguments have a fault; ``program`` is how the program or command was called."""
    return f"{program}: {fault}; type “{program} --help” to see what you can write"


def unwritable(program: str, reason: str) -> str:
    """Standard output takes no answer."""
    return f"{program}: the program cannot write its answer: {reason}; send it to a file or another program"


def unusable_file(path: str, reason: str) -> str:
    """The system refuses a file or a folder."""
    return f"the program cannot use {visible(path)}: {reason}; choose another name or folder"
