"""The program as a person meets it: a real window on a virtual screen, real keys, pictures of the screen.

Needs Debian's xvfb and xdotool, as the README's test command installs them.
"""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

from tests.session.pilot import Pilot
from tests.virtual_screen import PATIENCE, VirtualScreen, virtual_screen
from tutor.solver.search import Solver


@pytest.fixture
def display() -> Iterator[VirtualScreen]:
    with virtual_screen() as screen:
        yield screen


@pytest.fixture
def program(display: VirtualScreen, tmp_path: Path) -> Iterator[subprocess.Popen[str]]:
    """The program in a home of its own."""
    environment = {**display.environment, "PAIRWRIGHT_HOME": str(tmp_path)}
    command = [sys.executable, "-m", "tutor"]
    process = subprocess.Popen(
        command, env=environment, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
    )
    yield process
    process.kill()
    process.wait(PATIENCE)


def test_keys_turn_the_cube_on_the_screen_and_every_turn_is_judged(
    display: VirtualScreen, program: subprocess.Popen[str], solver: Solver
) -> None:
    pilot = Pilot(solver, titles=True)
    assert display.becomes(pilot), "Home never came up"
    display.press("tab", "tab", "tab", "enter")
    pilot.give_keys("tab", "tab", "tab", "enter")
    pilot.settle()
    assert display.becomes(pilot), "free play never came up"
    untouched = display.picture()
    display.press("r", "u", "R", "bracket right", "bracket left", "l")
    pilot.give_keys("r", "u", "R", "bracket right", "bracket left", "l")
    pilot.wait(10.0)
    assert display.becomes(pilot), "the turns or their verdicts are not what they should be"
    assert np.abs(display.picture() - untouched).mean() > 1.0
    display.press("backspace")
    pilot.give_keys("backspace")
    pilot.wait(10.0)
    assert display.becomes(pilot), "the turn was not taken back"
    display.press("ctrl+q")
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
