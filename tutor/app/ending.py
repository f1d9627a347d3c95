"""How the program ends: what is done then is done once, whoever asks for it; and signals that ask."""

from __future__ import annotations

import signal
import threading
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from types import FrameType

ENDING_SIGNALS = tuple(
    found
    for name in ("SIGTERM", "SIGHUP", "SIGINT", "SIGBREAK")
    if (found := getattr(signal, name, None)) is not None
)
"""What desktops and shutdowns send, what a terminal sends that is closed, Ctrl+C, and Windows' Ctrl+Break."""
SIGNALLED = 128
"""An exit status is this and the number of the signal that ended a command, as shells report it (POSIX)."""
_PATIENCE = 2
"""A signal after so many is not waited for any more: it ends the process at once."""


class SignalledError(KeyboardInterrupt):
    """The system asks the process to end; whatever clears up after Ctrl+C clears up after this."""

    def __init__(self, number: int) -> None:
        super().__init__(number)
        self.number = number


class Ending:
    """What is done before the process ends, the last that was added first.

    Whatever ends the program calls ``carry_out``: the window's end, a signal, the system's own way to close
    programs. The first call does it; one from another thread waits until it is done, and any other does
    nothing.
    """

    def __init__(self) -> None:
        """Nothing is to be done yet."""
        self._stack = ExitStack()
        self._lock = threading.RLock()
        self._begun = False
        self._over = threading.Event()

    def add(self, step: Callable[[], object]) -> None:
        """Do this, too."""
        self._stack.callback(step)

    def carry_out(self) -> None:
        """Do all of it, unless that has begun; a step that fails keeps no other from being done."""
        with self._lock:
            if not self._begun:
                self._begun = True
                try:
                    self._stack.close()
                finally:
                    self._over.set()

    def wait(self, seconds: float) -> bool:
        """Wait at most so long until somebody has carried it out; whether it is."""
        return self._over.wait(seconds)


@contextmanager
def on_signals(act: Callable[[int], None]) -> Iterator[None]:
    """In this block ``act`` is called with the first signal that asks the process to end.

    A second one, which often follows at once, changes nothing; the next ends the process. A signal that is
    ignored from outside, as nohup does, stays ignored.
    """
    if threading.current_thread() is not threading.main_thread():
        # Only there signals can be heard.
        yield
        return
    heard = 0

    def hear(number: int, _: FrameType | None) -> None:
        nonlocal heard
        heard += 1
        if heard >= _PATIENCE:
            for each in before:
                signal.signal(each, signal.SIG_DFL)
        if heard == 1:
            act(number)

    wanted = (each for each in ENDING_SIGNALS if signal.getsignal(each) != signal.SIG_IGN)
    before = {each: signal.signal(each, hear) for each in wanted}
    try:
        yield
    finally:
        for each, handler in before.items():
            signal.signal(each, handler)


def raise_signalled(number: int) -> None:
    """What a command does about a signal: it breaks off, and clears up on the way out."""
    raise SignalledError(number)
