"""Work that leaves the processor to the window."""

from __future__ import annotations

import os
import sys
from typing import Protocol

GENTLE = 5
"""How much processor time a process leaves to others (POSIX nice)."""
BELOW_NORMAL = 0x4000
"""The same on Windows, where there is no nice: BELOW_NORMAL_PRIORITY_CLASS (winbase.h)."""


class Calls(Protocol):
    """Functions of kernel32 by their own names."""

    def GetCurrentProcess(self) -> int:  # noqa: N802
        """This process's handle."""

    def SetPriorityClass(self, process: int, priority: int) -> int:  # noqa: N802
        """Set a process's priority; 0 when that is refused."""


def let_others_go_first() -> None:
    """Lower the priority of this process, for good."""
    if sys.platform == "win32":
        lower(_real_calls())
    else:
        os.nice(GENTLE)


def lower(calls: Calls) -> None:
    """Lower it on Windows; one that is refused changes only how soon others get on."""
    calls.SetPriorityClass(calls.GetCurrentProcess(), BELOW_NORMAL)


def _real_calls() -> Calls:
    if sys.platform != "win32":
        raise NotImplementedError
    import ctypes
    from ctypes import wintypes

    class Real:
        def __init__(self) -> None:
            library = ctypes.WinDLL("kernel32")
            self.GetCurrentProcess = library.GetCurrentProcess
            self.GetCurrentProcess.restype = wintypes.HANDLE
            self.SetPriorityClass = library.SetPriorityClass
            self.SetPriorityClass.argtypes = (wintypes.HANDLE, wintypes.DWORD)

    return Real()
