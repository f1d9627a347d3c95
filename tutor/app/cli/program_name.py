"""How the program was called, so that whatever is shown can be typed again."""

from __future__ import annotations

import re
import sys
from pathlib import Path

BY_NAME, BY_MODULE = "pairwright", "python -m tutor"
"""The name that installing gives, and the call from a folder of sources where nothing is installed."""

_IN_A_COMMAND = re.compile(rf"(?<![\w./\\-])(?:{BY_NAME}|{BY_MODULE})(?=\s)")
"""The program's name before a command; in a path or before the brackets of an extra it is something else."""


def program() -> str:
    """The program's name as it was called."""
    return BY_MODULE if Path(sys.argv[0]).parts[-2:] == ("tutor", "__main__.py") else BY_NAME


def as_called(text: str) -> str:
    """The text with every command in it begun as this one was."""
    return _IN_A_COMMAND.sub(program(), text)
