"""A virtual screen with real keys, pointer and pictures, for tests that meet the program as a person does.

Needs Debian's xvfb and xdotool, as the README's test command installs them.
"""

from __future__ import annotations

import os
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray
from PIL import ImageGrab

from render.picture import picture_of
from tests.session.pilot import Pilot

SIZE = (1280, 800)
PATIENCE = 60.0
"""Seconds a slow machine may take for any one thing."""
ALIKE = 0.5
"""Mean difference of a colour value, 0 to 255, below which a screen looks as it should."""
KEYSYMS = {
    "enter": "Return", "escape": "Escape", "tab": "Tab", "backspace": "BackSpace", "delete": "Delete",
    "left": "Left", "right": "Right", "up": "Up", "down": "Down", "home": "Home", "end": "End",
    "page up": "Page_Up", "page down": "Page_Down", "bracket left": "bracketleft",
    "bracket right": "bracketright", **{f"f{number}": f"F{number}" for number in range(1, 13)},
}  # fmt: skip
"""X's names of the keys (keysymdef.h) whose names differ from ours."""


class VirtualScreen(Struct, frozen=True):
    """A screen that nobody sees; ``name`` is what DISPLAY is set to."""

    name: str

    @property
    def environment(self) -> dict[str, str]:
        return {**os.environ, "DISPLAY": self.name}

    def tool(self, *arguments: str) -> str:
        """Run xdotool; what it says."""
        command = ["xdotool", *arguments]
        return subprocess.run(
            command, env=self.environment, check=True, capture_output=True, text=True
        ).stdout

    def press(self, *keys: str) -> None:
        """Keys by our own names, a capital letter with Shift."""
        for key in keys:
            capital = len(key) == 1 and key.isupper()
            self.tool("key", f"shift+{key.lower()}" if capital else KEYSYMS.get(key, key))
            time.sleep(0.15)

    def picture(self) -> NDArray[np.int16]:
        """The window's part of the screen; without a window manager it stands in the corner."""
        grabbed = ImageGrab.grab(xdisplay=self.name).convert("RGB")
        return np.asarray(grabbed, dtype=np.int16)[: SIZE[1], : SIZE[0]]

    def becomes(self, pilot: Pilot, patience: float = PATIENCE) -> bool:
        """Whether the screen comes to look like the pilot's view."""
        end = time.monotonic() + patience
        picture = picture_of(pilot.view, *SIZE)[..., :3].astype(np.int16)
        while time.monotonic() < end:
            if np.abs(self.picture() - picture).mean() < ALIKE:
                return True
            time.sleep(0.3)
        return False


@contextmanager
def virtual_screen(size: str = "1600x1000", *more: str) -> Iterator[VirtualScreen]:
    """A screen of a size in pixels, with more options of the server; X picks a free number and tells it.

    Without ``-noreset`` (Xserver(1)) it starts anew when its last client leaves, here whoever takes a
    picture, and throws out a program that connects in that moment.
    """
    read, write = os.pipe()
    command = [
        "Xvfb",
        "-displayfd",
        str(write),
        "-screen",
        "0",
        f"{size}x24",
        "-nolisten",
        "tcp",
        "-noreset",
        *more,
    ]
    server = subprocess.Popen(command, pass_fds=[write], stderr=subprocess.DEVNULL)
    os.close(write)
    with os.fdopen(read) as told:
        number = told.readline().strip()
    assert number, "the virtual screen did not start"
    try:
        yield VirtualScreen(f":{number}")
    finally:
        server.terminate()
        server.wait(PATIENCE)
