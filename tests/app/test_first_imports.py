"""A start imports nothing that Home does not show: it is read from a fresh process of the real window."""

import json
import os
import subprocess
import sys
from collections.abc import Iterator
from importlib.util import find_spec
from pathlib import Path

import pytest

from tests.virtual_screen import PATIENCE, VirtualScreen, virtual_screen
from tutor.app.warming import BEHIND_HOME

ROOT = Path(__file__).parents[2]
NAMES_ONLY = {
    "tutor.coach": {"guidance"},
    "tutor.lesson": {"library", "problems"},
    "tutor.method": {"terms"},
    "tutor.progress": {"attempt"},
    "tutor.publish": set(),
    "tutor.session.views": {"failure", "first", "frame", "home", "keys", "saving"},
    "tutor.solver": {"task"},
}
"""Of these packages, the modules that a session at Home is made of, or that it names things by."""
NOT_AT_HOME = {
    "tutor.session.update",
    "tutor.session.translate",
    "tutor.session.turning",
    "tutor.session.showing",
    "tutor.session.lesson_play",
    "tutor.cube.repairs",
}
OTHER_LIBRARIES = {"av", "fpdf", "fsrs", "freetype", "scipy", "tomlkit"}

START = """
import json, sys
import render.window
from tutor.app.command_line import main

paint = render.window.Window._paint

def painted(window):
    paint(window)
    with open(sys.argv[1], "w") as file:
        json.dump(sorted(sys.modules), file)
    window.close()

render.window.Window._paint = painted
main([])
"""


@pytest.fixture(scope="module")
def screen() -> Iterator[VirtualScreen]:
    with virtual_screen() as screen:
        yield screen


@pytest.fixture(scope="module")
def imported(screen: VirtualScreen, tmp_path_factory: pytest.TempPathFactory) -> set[str]:
    """The modules of a process whose window has just shown Home for the first time."""
    folder = tmp_path_factory.mktemp("start")
    environment = {**screen.environment, "PAIRWRIGHT_HOME": str(folder / "home")}
    told = folder / "modules.json"
    command = [sys.executable, "-c", START, os.fspath(told)]
    subprocess.run(command, cwd=ROOT, env=environment, check=True, timeout=PATIENCE)
    return set(json.loads(told.read_text(encoding="utf-8")))


@pytest.mark.parametrize("package", NAMES_ONLY)
def test_of_what_lies_behind_home_only_names_are_there(imported: set[str], package: str) -> None:
    found = {name.removeprefix(f"{package}.") for name in imported if name.startswith(f"{package}.")}
    assert found <= NAMES_ONLY[package]


def test_what_happens_to_a_session_is_not_there_before_a_key(imported: set[str]) -> None:
    assert "tutor.session.views.home" in imported
    assert not imported & NOT_AT_HOME


def test_no_library_is_there_that_home_does_not_need(imported: set[str]) -> None:
    assert {"pyglet", "numpy"} <= imported
    assert not imported & OTHER_LIBRARIES


def test_all_that_is_brought_along_after_home_exists_and_was_not_there(imported: set[str]) -> None:
    assert all(find_spec(name) is not None for name in BEHIND_HOME)
    assert not imported & set(BEHIND_HOME)
