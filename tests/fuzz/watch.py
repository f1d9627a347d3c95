"""What a piece of code touches, holds and uses while it reads something hostile.

Files are watched through Python's audit events (PEP 578), memory by tracemalloc, and a limit of processor
time stands for an end that never comes: it is no measure of speed, and so wide that no load reaches it.
"""

from __future__ import annotations

import io
import os
import signal
import sys
import tracemalloc
from collections.abc import Iterator
from contextlib import contextmanager, redirect_stderr, redirect_stdout
from pathlib import Path
from types import FrameType
from unittest.mock import patch

MOST_MEMORY = 64 * 2**20
"""Bytes that reading one input may take at most; no input is larger than 64 KiB."""
MOST_WORK = 60.0
"""Seconds of processor time after which reading one input counts as endless."""
_CHANGES = frozenset({
    "os.remove", "os.rename", "os.mkdir", "os.rmdir", "os.symlink", "os.link", "os.truncate", "os.chmod",
    "os.chown", "os.utime", "shutil.rmtree", "shutil.move", "shutil.copyfile", "subprocess.Popen",
    "os.system", "os.exec", "os.fork", "socket.connect",
})  # fmt: skip
_WRITING = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC | os.O_APPEND

_touched: list[str] | None = None


def _hear(event: str, arguments: tuple[object, ...]) -> None:
    if _touched is None:
        return
    if event == "open":
        path, _, flags = arguments
        if isinstance(flags, int) and flags & _WRITING and isinstance(path, str | bytes):
            _touched.append(os.fsdecode(path))
    elif event == "sqlite3.connect":
        _touched.append(str(arguments[0]))
    elif event in _CHANGES:
        named = [each for each in arguments if isinstance(each, str | bytes)]
        _touched.extend(os.fsdecode(each) for each in named)
        if not named:
            _touched.append(event)


sys.addaudithook(_hear)


class EndlessError(AssertionError):
    """Reading did not come to an end."""


@contextmanager
def watched(*allowed: Path) -> Iterator[None]:
    """Raise AssertionError when the block touches what is not ``allowed``, holds too much, or never ends."""
    global _touched

    def stop(_signal: int, _frame: FrameType | None) -> None:
        raise EndlessError(f"more than {MOST_WORK:.0f} seconds of processor time")

    # What Python keeps of a module that is imported only now is no file of the reader's.
    keeps_nothing, sys.dont_write_bytecode = sys.dont_write_bytecode, True
    before = signal.signal(signal.SIGPROF, stop)
    signal.setitimer(signal.ITIMER_PROF, MOST_WORK)
    tracemalloc.start()
    _touched = []
    try:
        yield
        touched, (_, most) = _touched, tracemalloc.get_traced_memory()
    finally:
        _touched = None
        sys.dont_write_bytecode = keeps_nothing
        tracemalloc.stop()
        signal.setitimer(signal.ITIMER_PROF, 0.0)
        signal.signal(signal.SIGPROF, before)
    assert most < MOST_MEMORY, f"{most} bytes were held"
    astray = [path for path in touched if not is_within(path, allowed)]
    assert not astray, f"touched: {astray}"


@contextmanager
def at_home(home: Path) -> Iterator[io.StringIO]:
    """Commands of the block keep to this home, and are watched; what they say of errors."""
    said = io.StringIO()
    with (
        patch.dict(os.environ, PAIRWRIGHT_HOME=str(home)),
        redirect_stderr(said),
        redirect_stdout(io.StringIO()),
        watched(home),
    ):
        yield said


def is_within(path: str, allowed: tuple[Path, ...]) -> bool:
    """Whether a path, or an address of a database, lies in a folder allowed; what has no place counts too."""
    if path in (":memory:", "", os.devnull):
        return True
    plain = Path(path.removeprefix("file://").partition("?")[0]).resolve()
    return any(plain.is_relative_to(folder.resolve()) for folder in allowed)
