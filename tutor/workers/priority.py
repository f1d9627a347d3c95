"""Work that leaves the processor to the window."""

from __future__ import annotations

import ctypes
import os
import sys
from ctypes.wintypes import DWORD, HANDLE
from typing import Any

GENTLE = 5
"""How much processor time a process leaves to others (POSIX nice)."""
BELOW_NORMAL = 0x4000
"""The same on Windows, where there is no nice: BELOW_NORMAL_PRIORITY_CLASS (winbase.h)."""


def let_others_go_first() -> None:
    """Lower the priority of this process, for good."""
    if sys.platform == "win32":
        lower(ctypes.WinDLL("kernel32"))
    else:
        os.nice(GENTLE)


def lower(system: Any) -> None:
    """Lower it by Windows' kernel32; one that is refused changes only how soon others get on."""
    system.GetCurrentProcess.restype = HANDLE
    system.SetPriorityClass.argtypes = HANDLE, DWORD
    system.SetPriorityClass(system.GetCurrentProcess(), BELOW_NORMAL)
