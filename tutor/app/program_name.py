"""How the program was called, so that whatever is shown can be typed again."""

from __future__ import annotations

import sys
from pathlib import Path

BY_MODULE, BY_NAME = "python -m tutor", "pairwright"
"""The two ways to call the program."""


def program() -> str:
    """The program's name as it was called."""
    return BY_NAME if Path(sys.argv[0]).stem == BY_NAME else BY_MODULE


def as_called(text: str) -> str:
    """The text with every ``python -m tutor`` in it turned into the name as it was called."""
    return text.replace(BY_MODULE, program())
