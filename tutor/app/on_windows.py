"""What only Windows asks of the program: to hear its console close, and to speak where there is no console.

The calls are those of kernel32 and user32; the numbers are from the Windows SDK (wincon.h, winuser.h).
"""

from __future__ import annotations

import ctypes
import sys
from collections.abc import Callable
from ctypes.wintypes import BOOL, DWORD
from typing import Any

from tutor.app.ending import Ending

CLOSING = frozenset((2, 5, 6))
"""CTRL_CLOSE_EVENT, CTRL_LOGOFF_EVENT, CTRL_SHUTDOWN_EVENT; Ctrl+C and Ctrl+Break come as signals."""
PATIENCE = 3.0
"""Seconds for the window to close by itself; the system ends the process after five."""
_ERROR_IN_FRONT = 0x10 | 0x10000
"""MB_ICONERROR and MB_SETFOREGROUND."""


_WINDOWS: Any = ctypes
"""Some of its names are there on Windows only, and types know them only there."""


class Calls:
    """What the program asks of the system."""

    def hear_console(self, handler: Callable[[int], bool]) -> None:
        """SetConsoleCtrlHandler: called on a thread of its own; when it returns, the process is gone."""
        # The system keeps only its address.
        self._handler = _WINDOWS.WINFUNCTYPE(BOOL, DWORD)(handler)
        _WINDOWS.WinDLL("kernel32").SetConsoleCtrlHandler(self._handler, True)

    def show_message(self, text: str, title: str) -> None:
        """MessageBoxW: stays until somebody has read it."""
        _WINDOWS.WinDLL("user32").MessageBoxW(None, text, title, _ERROR_IN_FRONT)


def real_calls() -> Calls | None:
    """The system's own; None on other systems."""
    return Calls() if sys.platform == "win32" else None


def hear_console_close(calls: Calls, ending: Ending, close: Callable[[], None]) -> None:
    """When the console closes, close the window as a signal does, and wait until the ending is over."""

    def handler(event: int) -> bool:
        if event not in CLOSING:
            return False
        close()
        if not ending.wait(PATIENCE):
            ending.carry_out()
        return True

    calls.hear_console(handler)
