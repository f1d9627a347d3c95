"""The standard streams: what is said on them, and what happens where one is closed, full or nobody's.

An answer that cannot be written is a fault, and told; what is said on standard error goes nowhere then, since
there is no other place to say it. Whatever is written is visible text, in lines.
"""

from __future__ import annotations

import io
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from errno import EBADF
from pathlib import Path
from typing import TYPE_CHECKING, TextIO, cast

from tutor.quoting import visible_lines

if TYPE_CHECKING:
    from rich.console import Console


class UnwritableError(Exception):
    """The answer cannot be written; ``reason`` is the system's."""

    def __init__(self, reason: str) -> None:
        super().__init__(reason)
        self.reason = reason


class _Closed(io.TextIOBase):
    """In place of a standard output that is closed: it refuses whatever is written, as the system does."""

    def write(self, _: str) -> int:
        raise OSError(EBADF, os.strerror(EBADF))


def open_streams() -> None:
    """See to it that there are standard streams, and that none fails over a character.

    The first file that is opened would take the number of a closed one, and be written to in its place.
    """
    for number in range(3):
        with suppress(OSError):
            _open_number(number)
    # Python has None where a stream is closed, and where there is no terminal on Windows.
    sys.stdin = sys.stdin or _nowhere("r")
    sys.stdout = sys.stdout or _Closed()
    sys.stderr = sys.stderr or _nowhere("w")
    for stream in (sys.stdout, sys.stderr):
        # A terminal that cannot show a character gets a stand-in instead of an exception.
        if reconfigure := getattr(stream, "reconfigure", None):
            # A code page of Windows, which a file or another program gets, lacks most of all letters.
            paged = str(stream.encoding).lower().startswith("cp")
            reconfigure(errors="replace", **({"encoding": "utf-8"} if paged else {}))


def _nowhere(mode: str) -> TextIO:
    # Open as long as the process.
    return cast(TextIO, Path(os.devnull).open(mode, encoding="utf-8"))


def _open_number(number: int) -> None:
    try:
        os.fstat(number)
    except OSError:
        # The lowest number that is free is this one. Processes that are started must have it, too.
        os.set_inheritable(os.open(os.devnull, os.O_RDWR), True)


@contextmanager
def answering() -> Iterator[None]:
    """In this block nothing but standard output is written; raises UnwritableError when that fails.

    A reader that has gone away still is a BrokenPipeError.
    """
    try:
        yield
    except BrokenPipeError:
        raise
    except OSError as fault:
        raise UnwritableError(fault.strerror or str(fault)) from fault


def tell(text: object = "", end: str = "\n") -> None:
    """Write an answer on standard output."""
    with answering():
        sys.stdout.write(f"{visible_lines(str(text))}{end}")


def complain(text: object) -> None:
    """Say something on standard error; never raises."""
    try:
        sys.stderr.write(f"{visible_lines(str(text))}\n")
        sys.stderr.flush()
    except (OSError, ValueError):
        silence(sys.stderr)


def is_heard() -> bool:
    """Whether there is a standard error; a program that Windows starts without a console has none."""
    return str(getattr(sys.stderr, "name", "")) != os.devnull


def finish() -> None:
    """Write what is still waiting. Raises as ``answering``."""
    with answering():
        sys.stdout.flush()


def silence(stream: TextIO) -> None:
    """Have what still waits in a stream go nowhere, or Python complains of it when it exits."""
    with suppress(OSError, ValueError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, stream.fileno())
        os.close(nowhere)


def answer_console(*, markup: bool = True) -> Console:
    """What tables are printed on; it raises as ``tell`` does."""
    # Imported here, so that what prints no table does not wait for it.
    import rich.console

    class Answers(rich.console.Console):
        def print(self, *objects: object, **how: object) -> None:
            with answering():
                super().print(*objects, **how)  # type: ignore[arg-type]

        def on_broken_pipe(self) -> None:
            # The library would end the process with a status of its own.
            raise

    return Answers(highlight=False, markup=markup)
