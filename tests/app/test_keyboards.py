"""Keyboards other than the one of the key table, in a real window on a virtual screen.

Where keys lie is from xkeyboard-config: AE01 to AE12 have the key codes 10 to 21 (keycodes/evdev), Shift 50,
AltGr 108, Tab 23; what they write is from symbols/fr and symbols/de. Needs Debian's xvfb, with which
setxkbmap comes, and xdotool, as the README's test command installs them.
"""

from __future__ import annotations

import subprocess
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.virtual_screen import PATIENCE, VirtualScreen, virtual_screen

SHIFT, ALT_GR = "50", "108"
TELLS = """
from render.window.window import Frame, run
from tests.render.sample_views import home
from tutor.ui.inputs import KeyPressed

class Port:
    told = False
    def opened(self, window): self.window = window
    def poll(self): return False
    def failed(self, error): raise error
    def frame(self):
        if not self.told:
            self.told = True
            print("open", flush=True)
        return Frame(home())
    def handle(self, event):
        if isinstance(event, KeyPressed):
            print(*(flag.name.lower() for flag in event.modifiers), event.key, flush=True)
        if event == KeyPressed("escape"):
            self.window.close()
        return True

run(Port)
"""


@dataclass
class Hearing:
    """A window that tells which keys it hears."""

    screen: VirtualScreen
    process: subprocess.Popen[str]

    def layout(self, name: str) -> None:
        subprocess.run(["setxkbmap", "-layout", name], env=self.screen.environment, check=True)
        time.sleep(0.5)

    def strike(self, code: str, held: str = "", *, held_first_up: bool = False) -> None:
        """A key by its code, while another is held that is let go last, or first."""
        down = ["keydown", held] if held else []
        up = ["keyup", held] if held else []
        ends = [*up, "keyup", code] if held_first_up else ["keyup", code, *up]
        self.screen.tool(*down, "keydown", code, *ends)
        time.sleep(0.15)

    def heard(self) -> list[str]:
        """What was heard, once the window is closed."""
        self.screen.tool("key", "Escape")
        told, _ = self.process.communicate(timeout=PATIENCE)
        *keys, last = told.splitlines()
        assert last == "escape", told
        return keys


@pytest.fixture
def hearing() -> Iterator[Hearing]:
    with virtual_screen() as screen:
        process = subprocess.Popen(
            [sys.executable, "-c", TELLS],
            env=screen.environment,
            cwd=Path(__file__).parents[2],
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
        )
        assert process.stdout is not None
        try:
            assert process.stdout.readline() == "open\n"
            time.sleep(1.0)
            yield Hearing(screen, process)
        finally:
            process.kill()
            process.wait(PATIENCE)


def test_on_a_french_keyboard_digits_are_keys_with_shift(hearing: Hearing) -> None:
    hearing.layout("fr")
    for code in range(10, 18):
        hearing.strike(str(code), SHIFT, held_first_up=code % 2 == 0)
    hearing.strike("11", SHIFT, held_first_up=True)
    hearing.strike("11", SHIFT)
    hearing.strike("11")
    hearing.strike("60", SHIFT)
    assert hearing.heard() == [*"12345678", "2", "2", "slash"]


def test_on_a_german_keyboard_signs_are_keys_with_shift_or_altgr(hearing: Hearing) -> None:
    hearing.layout("de")
    hearing.strike("16", SHIFT)
    hearing.strike("17", ALT_GR)
    hearing.strike("18", ALT_GR, held_first_up=True)
    hearing.strike("18", ALT_GR)
    hearing.strike("11")
    assert hearing.heard() == ["slash", "bracket left", "bracket right", "bracket right", "2"]


def test_tab_with_shift_is_heard_each_time_whichever_is_let_go_first(hearing: Hearing) -> None:
    hearing.strike("23")
    for first in (False, True, True, False):
        hearing.strike("23", SHIFT, held_first_up=first)
    hearing.strike("23")
    assert hearing.heard() == ["tab", *["shift tab"] * 4, "tab"]
