"""What only Windows' window needs: keys told rightly, input methods, densities, and the end of the session.

What is relied on of the library is in pyglet 2.1: window/win32. The numbers are from the Windows SDK
(winuser.h, imm.h).
"""

from __future__ import annotations

import ctypes
from collections.abc import Callable
from ctypes import c_int, c_short
from ctypes.wintypes import DWORD, HANDLE, HWND, LPCWSTR
from typing import Any

from render import words
from render.system.identity import APPLICATION_ID
from render.system.system import System
from tutor.ui.inputs import Modifier

SHIFT_KEY, ALT_KEY = 0x10, 0x12
"""VK_SHIFT and VK_MENU: either of two keys."""
QUERY_END_SESSION, END_SESSION = 0x0011, 0x0016
"""Messages: may the session end, and does it (then wParam is not 0)."""
DENSITY_CHANGED = 0x02E0
"""WM_DPICHANGED: the window came to a screen of another density."""
DEFAULT_CONTEXT = 0x0010
"""IACE_DEFAULT: the window's usual input method again."""
_DOWN = 0x8000


class WindowsSystem(System):
    """The system where that is Windows."""

    name = words.WINDOWS
    draws_without_display = False
    # Only a context that exists can say which others there are.
    needs_shadow = True

    def __init__(self, load: Callable[[str], Any] | None = None) -> None:
        """``load`` gives a library of the system's by its name, anew, so that its types are nobody else's."""
        load = load or vars(ctypes)["WinDLL"]
        self._user, self._input, self._shell = (load(name) for name in ("user32", "imm32", "shell32"))
        self._user.GetKeyState.argtypes, self._user.GetKeyState.restype = (c_int,), c_short
        self._user.ShutdownBlockReasonCreate.argtypes = HWND, LPCWSTR
        self._user.ShutdownBlockReasonDestroy.argtypes = (HWND,)
        self._input.ImmAssociateContextEx.argtypes = HWND, HANDLE, DWORD
        self._shell.SetCurrentProcessExplicitAppUserModelID.argtypes = (LPCWSTR,)
        self._composing: bool | None = None
        self._half = ""

    def introduce(self) -> None:
        """The task bar would show Python's icon, and this window among Python's."""
        self._shell.SetCurrentProcessExplicitAppUserModelID(APPLICATION_ID)

    def join(self, window: Any, end: Callable[[], object]) -> None:
        """The library hears neither message of the end; it looks each one up in a table when it comes."""
        self._composing, self._half = None, ""
        handlers = window._event_handlers
        rescale = handlers.get(DENSITY_CHANGED)

        def agreed(_message: int, _w: int, _l: int) -> int:
            return 1

        def ended(_message: int, surely: int, _l: int) -> int:
            if surely:
                # What the system shows if it has to wait.
                self._user.ShutdownBlockReasonCreate(window._hwnd, words.SAVING)
                try:
                    end()
                finally:
                    self._user.ShutdownBlockReasonDestroy(window._hwnd)
            return 0

        def rescaled(*message: int) -> Any:
            # The least size on the screen that it left may be too large here; on_scale gives it another.
            window._minimum_size = None
            return rescale(*message)

        handlers |= {QUERY_END_SESSION: agreed, END_SESSION: ended, DENSITY_CHANGED: rescaled}

    def screen_of(self, window: Any) -> Any:
        """Where most of the window is; the library's own answer is where it was opened."""
        try:
            return window.get_window_screen()
        except IndexError:
            # A screen that was plugged in since the library looked.
            return window.screen

    def compose(self, window: Any, wanted: bool) -> None:
        """With an input method at work, keys would be its own and never come as turns."""
        if wanted is not self._composing:
            self._composing = wanted
            self._input.ImmAssociateContextEx(window._hwnd, None, DEFAULT_CONTEXT if wanted else 0)

    def held(self, modifiers: Modifier) -> Modifier:
        """The library asks the keyboard for Shift, and a Shift that stays down by itself (Sticky Keys) is not
        down there."""
        return modifiers | Modifier.SHIFT if self._is_down(SHIFT_KEY) else modifiers & ~Modifier.SHIFT

    def writes_with(self, modifiers: Modifier) -> bool:
        """AltGr is told as Ctrl, and held down as Alt, which a message about a key does not say.

        Ctrl with Alt counts as AltGr, as it does for whatever is written here.
        """
        return Modifier.CONTROL in modifiers and self._is_down(ALT_KEY)

    def _is_down(self, key: int) -> bool:
        """Whether a key is down as of the message at hand."""
        return bool(self._user.GetKeyState(key) & _DOWN)

    def whole(self, text: str) -> str:
        """A character beyond the first 65,536 comes in two halves, each in a message of its own."""
        text, self._half = self._half + text, ""
        if "\ud800" <= text[-1:] <= "\udbff":
            text, self._half = "", text
        return text.encode("utf-16", "surrogatepass").decode("utf-16", "ignore")
