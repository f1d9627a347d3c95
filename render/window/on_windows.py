"""What only Windows' window needs: AltGr told from Ctrl, input methods, and the end of the session.

The calls are those of user32 and imm32; the numbers are from the Windows SDK (winuser.h, imm.h).
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from typing import Any, Protocol

from render.window.system import System

ALT_KEY = 0x12
"""VK_MENU: either Alt."""
QUERY_END_SESSION, END_SESSION = 0x0011, 0x0016
"""Messages: may the session end, and does it (then wParam is not 0)."""
DEFAULT_CONTEXT = 0x0010
"""IACE_DEFAULT: the window's usual input method again."""
_DOWN = 0x8000


class Calls(Protocol):
    """The system's functions by their own names."""

    def GetKeyState(self, key: int) -> int:  # noqa: N802
        """The state of a key as of the message at hand."""

    def ImmAssociateContextEx(self, window: int, context: int | None, flags: int) -> int:  # noqa: N802
        """Give a window an input context, or none."""


def real_calls() -> Calls:
    """The system's own."""
    if sys.platform != "win32":
        raise NotImplementedError
    import ctypes
    from ctypes import wintypes

    class Real:
        def __init__(self) -> None:
            # Loaded anew, so that these types are nobody else's.
            self.GetKeyState = ctypes.WinDLL("user32").GetKeyState
            self.GetKeyState.argtypes, self.GetKeyState.restype = (ctypes.c_int,), ctypes.c_short
            self.ImmAssociateContextEx = ctypes.WinDLL("imm32").ImmAssociateContextEx
            self.ImmAssociateContextEx.argtypes = (wintypes.HWND, wintypes.HANDLE, wintypes.DWORD)

    return Real()


class WindowsSystem(System):
    """The window's system where that is Windows."""

    def __init__(self, calls: Calls, window: Any) -> None:
        """``window`` is the library's."""
        self._calls, self._window = calls, window
        self._composing: bool | None = None

    def writes_with(self, control: bool) -> bool:
        """AltGr is told as Ctrl, and held down as Alt, which a message about a key does not say.

        Ctrl with Alt counts as AltGr, as it does for whatever is written here.
        """
        return control and bool(self._calls.GetKeyState(ALT_KEY) & _DOWN)

    def compose(self, wanted: bool) -> None:
        """With an input method at work, keys would be its own and never come as turns."""
        if wanted is not self._composing:
            self._composing = wanted
            self._calls.ImmAssociateContextEx(self._window._hwnd, None, DEFAULT_CONTEXT if wanted else 0)

    def hear_of_the_end(self, end: Callable[[], object]) -> None:
        """The library hears neither message; it looks each one up in this table when it comes."""

        def agreed(_message: int, _w: int, _l: int) -> int:
            return 1

        def ended(_message: int, surely: int, _l: int) -> int:
            if surely:
                end()
            return 0

        self._window._event_handlers |= {QUERY_END_SESSION: agreed, END_SESSION: ended}

    def screen_of(self, window: Any) -> Any:
        """Where most of the window is; the library's own answer is where it was opened."""
        try:
            return window.get_window_screen()
        except IndexError:
            # A screen that was plugged in since the library looked.
            return window.screen
