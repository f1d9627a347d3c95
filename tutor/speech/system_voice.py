"""What each system's speech is: a program, how to run it, and how to get it."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Mapping
from pathlib import Path

from msgspec import Struct, field


class SystemVoice(Struct, frozen=True):
    """A program that reads a text from its standard input and speaks it, aloud or to a file.

    ``aloud`` are its arguments to speak; ``arguments`` and ``environment`` are for the file to write.
    ``install`` says how to get the program.
    """

    program: str
    aloud: tuple[str, ...]
    arguments: Callable[[Path], tuple[str, ...]]
    install: str
    environment: Callable[[Path], Mapping[str, str]] = field(default=lambda _: {})

    @property
    def found(self) -> str | None:
        """Where the program is; None where it is not."""
        return shutil.which(self.program)
