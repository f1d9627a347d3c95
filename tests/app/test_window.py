"""The program as a person meets it: a real window on a virtual screen, real keys, pictures of the screen.

Needs Debian's xvfb and xdotool, as the README's test command installs them.
"""

from __future__ import annotations

import os
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import ImageGrab

from render.picture import picture_of
from tests.session.pilot import Pilot
from tutor.solver.search import Solver

SIZE = (1280, 800)
PATIENCE = 60.0
"""Seconds a slow machine may take for any one thing."""


@pytest.fixture
def display() -> Iterator[str]:
    """A virtual screen; X picks a free number and tells it."""
    read, write = os.pipe()
    command = ["Xvfb", "-displayfd", str(write), "-screen", "0", "1600x1000x24", "-nolisten", "tcp"]
    server = subprocess.Popen(command, pass_fds=[write], stderr=subprocess.DEVNULL)
    os.close(write)
    with os.fdopen(read) as told:
        number = told.readline().strip()
    assert number, "the virtual screen did not start"
    yield f":{number}"
    server.terminate()
    server.wait(PATIENCE)


@pytest.fixture
def program(display: str, tmp_path: Path) -> Iterator[subprocess.Popen[str]]:
    """The program in a home of its own."""
    environment = {**os.environ, "DISPLAY": display, "PAIRWRIGHT_HOME": str(tmp_path)}
    command = [sys.executable, "-m", "tutor"]
    process = subprocess.Popen(
        command, env=environment, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
    )
    yield process
    process.kill()
    process.wait(PATIENCE)


def press(display: str, *keys: str) -> None:
    for key in keys:
        subprocess.run(["xdotool", "key", key], env={**os.environ, "DISPLAY": display}, check=True)
        time.sleep(0.15)


def screen(display: str) -> NDArray[np.int16]:
    """The window's part of the screen; without a window manager it stands in the corner."""
    grabbed = ImageGrab.grab(xdisplay=display).convert("RGB")
    return np.asarray(grabbed, dtype=np.int16)[: SIZE[1], : SIZE[0]]


def difference(display: str, pilot: Pilot) -> float:
    """Mean difference of a colour value between the screen and the picture that ought to be there."""
    picture = picture_of(pilot.view, *SIZE)[..., :3].astype(np.int16)
    return float(np.abs(screen(display) - picture).mean())


def becomes(display: str, pilot: Pilot) -> bool:
    """Whether the screen comes to look like the pilot's view."""
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end:
        if difference(display, pilot) < 0.5:
            return True
        time.sleep(0.3)
    return False


def test_keys_turn_the_cube_on_the_screen_and_every_turn_is_judged(
    display: str, program: subprocess.Popen[str], solver: Solver
) -> None:
    pilot = Pilot(solver, titles=True)
    assert becomes(display, pilot), "Home never came up"
    press(display, "Tab", "Tab", "Tab", "Return")
    pilot.give_keys("tab", "tab", "tab", "enter")
    pilot.settle()
    assert becomes(display, pilot), "free play never came up"
    untouched = screen(display)
    press(display, "r", "u", "shift+r", "bracketright", "bracketleft", "l")
    pilot.give_keys("r", "u", "R", "bracket right", "bracket left", "l")
    pilot.wait(10.0)
    assert becomes(display, pilot), "the turns or their verdicts are not what they should be"
    assert np.abs(screen(display) - untouched).mean() > 1.0
    press(display, "BackSpace")
    pilot.give_keys("backspace")
    pilot.wait(10.0)
    assert becomes(display, pilot), "the turn was not taken back"
    press(display, "ctrl+q")
    assert program.wait(PATIENCE) == 0
    assert program.stdout is not None
    assert "Traceback" not in program.stdout.read()


def test_without_a_display_one_sentence_says_what_is_missing(tmp_path: Path) -> None:
    environment = {
        name: value for name, value in os.environ.items() if name not in ("DISPLAY", "WAYLAND_DISPLAY")
    }
    environment["PAIRWRIGHT_HOME"] = str(tmp_path)
    ended = subprocess.run(
        [sys.executable, "-m", "tutor"],
        env=environment,
        capture_output=True,
        text=True,
        timeout=PATIENCE,
        check=False,
    )
    assert ended.returncode == 2
    assert "Traceback" not in ended.stderr
    assert "display" in ended.stderr
    assert len(ended.stderr.strip().splitlines()) == 1
