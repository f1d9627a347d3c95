"""Drills: the program itself, in a process of its own, where something fails (see DEVELOPERS.md).

It says what fails and where, in a sentence; it neither hangs nor ends with a traceback, and loses nothing.
Needs Debian's xvfb and xdotool, as the README's test command installs them.
"""

from __future__ import annotations

import json
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack, suppress
from pathlib import Path
from threading import Thread

import numpy as np
import pytest
from PIL import ImageGrab

from tests.virtual_screen import PATIENCE, VirtualScreen, virtual_screen
from tutor.app.files.log import FILE as LOG
from tutor.app.files.places import FILE as PLACES
from tutor.app.files.settings import FILE as SETTINGS
from tutor.progress.backup import FILE as STORE
from tutor.progress.store import AttemptStore

ROOT = Path(__file__).parents[2]
LIMITED = """
import resource, runpy, signal
# Writing beyond this size fails, as on a full disk, for the superuser, too (setrlimit(2), RLIMIT_FSIZE).
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (0, resource.RLIM_INFINITY))
runpy.run_module("tutor", run_name="__main__", alter_sys=True)
"""
WITH_AN_ATTEMPT = """
import os, sys
from pathlib import Path
# The first two streams fail, as where nobody looks after them.
os.dup2(os.open("/dev/full", os.O_WRONLY), 1)
sys.stdin = None
from tutor.app import compose
from tutor.app.cli.command_line import main
from tutor.progress.interchange import parse_record
from tutor.session.record_commands import Record
lines = Path("tests/progress/form_3/attempts.jsonl").read_text().splitlines()
made = compose.make_application
def with_an_attempt(*given):
    application = made(*given)
    # As the session asks for it when a learner has solved a case.
    application._carry_out(Record(parse_record(lines[0])))
    return application
compose.make_application = with_an_attempt
sys.exit(main([]))
"""
WITHOUT_TYPEFACES = """
import runpy, sys
sys.modules["font_source_sans_pro"] = None
runpy.run_module("tutor", run_name="__main__", alter_sys=True)
"""
Start = Callable[..., "Program"]


class Program:
    """The program in its window, and what it says."""

    def __init__(self, display: VirtualScreen, home: Path, *arguments: str, **environment: str) -> None:
        self.display = display
        self.process = subprocess.Popen(
            [sys.executable, *(arguments or ("-m", "tutor"))],
            env={**display.environment, "PAIRWRIGHT_HOME": str(home), **environment},
            cwd=ROOT,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
        )
        self._lines: list[str] = []
        self._listening = Thread(target=self._listen, daemon=True)
        self._listening.start()

    def _listen(self) -> None:
        assert self.process.stdout is not None
        self._lines += self.process.stdout

    def shows_home(self) -> bool:
        """Whether there comes to be a picture of more than a few shades while the program runs."""
        return self._until(lambda: shades(self.display) > 50)

    def _until(self, there: Callable[[], bool]) -> bool:
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end and self.process.poll() is None:
            if there():
                return True
            time.sleep(0.2)
        return False

    def until(self, there: Callable[[], bool]) -> None:
        """Wait for something that must come while the program runs."""
        assert self._until(there)

    def leaves(self) -> str:
        """Leave by Ctrl+Q, pressed until it is heard; what was said. An exit status but 0 fails."""

        def pressed() -> bool:
            # The window may go away between one key and the next.
            with suppress(subprocess.CalledProcessError):
                self.display.press("ctrl+q")
            return False

        self._until(pressed)
        assert self.process.wait(PATIENCE) == 0, self.said
        return self.said

    @property
    def said(self) -> str:
        """All that the program, once it has ended, and its processes have said."""
        self._listening.join(PATIENCE)
        return "".join(self._lines)


def shades(display: VirtualScreen) -> int:
    picture = np.asarray(ImageGrab.grab(xdisplay=display.name).convert("L"))
    return len(np.unique(picture))


@pytest.fixture
def display() -> Iterator[VirtualScreen]:
    with virtual_screen() as screen:
        yield screen


@pytest.fixture
def start(display: VirtualScreen) -> Iterator[Start]:
    with ExitStack() as ending:

        def begin(home: Path, *arguments: str, **environment: str) -> Program:
            program = Program(display, home, *arguments, **environment)
            ending.callback(program.process.wait, PATIENCE)
            ending.callback(program.process.kill)
            return program

        yield begin


def test_a_driver_that_is_too_old_is_told_in_one_sentence(start: Start, tmp_path: Path) -> None:
    # Mesa pretends to be as old as that (Mesa's environment variables), or its language for shaders.
    old = {"MESA_GL_VERSION_OVERRIDE": "2.1"}
    old_language = {"MESA_GL_VERSION_OVERRIDE": "3.3", "MESA_GLSL_VERSION_OVERRIDE": "130"}
    for program in [start(tmp_path / "home", **played) for played in (old, old_language)]:
        assert program.process.wait(PATIENCE) == 2
        assert len(program.said.strip().splitlines()) == 1
        assert "OpenGL 3.3" in program.said


def test_typefaces_that_are_missing_are_told_in_one_sentence(start: Start, tmp_path: Path) -> None:
    program = start(tmp_path / "home", "-c", WITHOUT_TYPEFACES)
    assert program.process.wait(PATIENCE) == 2
    assert len(program.said.strip().splitlines()) == 1
    assert "pip install --force-reinstall font-source-sans-pro" in program.said


def test_a_screen_that_goes_away_ends_the_window_and_the_next_finds_all_in_order(tmp_path: Path) -> None:
    home = tmp_path / "home"
    with ExitStack() as ending:
        with virtual_screen() as lost:
            first = Program(lost, home)
            ending.callback(first.process.wait, PATIENCE)
            ending.callback(first.process.kill)
            assert first.shows_home()
            first.until((home / STORE).exists)
        # With its screen the program has lost its window and its OpenGL context.
        first.process.wait(PATIENCE)
    assert not list(home.glob("*damaged*"))
    with AttemptStore.open(home) as store:
        assert store.notices == ()


def test_a_home_that_cannot_be_written_is_named_and_the_window_works(start: Start, tmp_path: Path) -> None:
    # A file in its place refuses the superuser, too.
    home = tmp_path / "home"
    home.write_text("in the way")
    program = start(home)
    assert program.shows_home(), program.said
    said = program.leaves()
    assert "Traceback" not in said
    assert str(home) in said
    assert home.read_text() == "in the way"


def test_a_full_disk_stops_nothing_and_leaves_no_half_file(start: Start, tmp_path: Path) -> None:
    home = tmp_path / "home"
    home.mkdir()
    program = start(home, "-c", LIMITED)
    assert program.shows_home()
    said = program.leaves()
    assert "Traceback" not in said
    assert str(home) in said
    assert [file.name for file in home.rglob("*") if file.is_file() and file.stat().st_size] == []


def test_with_settings_store_and_places_damaged_the_window_works_and_the_first_two_are_set_aside(
    start: Start, tmp_path: Path
) -> None:
    damaged = {SETTINGS: b"look = [", STORE: b"SQLite format 3\0" + bytes(5000), PLACES: b"[[["}
    home = tmp_path / "home"
    home.mkdir()
    for name, content in damaged.items():
        (home / name).write_bytes(content)
    program = start(home)
    assert program.shows_home()
    program.until(lambda: any(home.glob("*damaged*")))
    assert "Traceback" not in program.leaves()
    kept = [file.read_bytes() for file in home.iterdir() if file.is_file()]
    assert damaged[SETTINGS] in kept
    assert damaged[STORE] in kept


def test_a_killed_window_leaves_nothing_that_keeps_the_next_from_starting(
    start: Start, tmp_path: Path
) -> None:
    home = tmp_path / "home"
    first = start(home)
    assert first.shows_home()
    first.process.send_signal(signal.SIGKILL)
    first.process.wait(PATIENCE)
    second = start(home)
    assert second.shows_home()
    assert "Traceback" not in second.leaves()
    assert not (home / LOG).exists()


def test_two_windows_run_side_by_side_on_one_store(start: Start, tmp_path: Path) -> None:
    home = tmp_path / "home"
    first, second = start(home), start(home)
    assert first.shows_home()
    assert second.shows_home()
    first.until((home / STORE).exists)
    for program in (first, second):
        # Keys go to the window that has the focus; without a window manager each is ended by a signal.
        program.process.send_signal(signal.SIGTERM)
        program.process.wait(PATIENCE)
        assert "Traceback" not in program.said
    assert not list(home.glob("*damaged*"))
    with AttemptStore.open(home) as store:
        assert store.notices == ()


@pytest.fixture(scope="module")
def asked_to_end(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Program, Path]]:
    """A window on a strange machine, with an attempt that cannot be written, ended as a shutdown ends it.

    The screen cannot say which one is the main, the time zone means nothing, two streams fail, and the folder
    of the attempts is a file, while the log could be written.
    """
    home = tmp_path_factory.mktemp("home")
    (home / "data").write_text("in the way")
    places = {f"XDG_{kind}_HOME": str(home / kind.lower()) for kind in ("CONFIG", "STATE", "DATA", "CACHE")}
    with virtual_screen("1600x1000", "-extension", "RANDR") as screen:
        environment = {**places, "PAIRWRIGHT_HOME": "", "HOME": str(home), "TZ": "Nonsense/Zone"}
        program = Program(screen, home, "-c", WITH_AN_ATTEMPT, **environment)
        try:
            assert program.shows_home(), program.said
            # What a service manager sends when it ends a session (systemd.kill(5), SendSIGHUP).
            for number in (signal.SIGTERM, signal.SIGHUP):
                program.process.send_signal(number)
            program.process.wait(PATIENCE)
            yield program, home
        finally:
            program.process.kill()
            program.process.wait(PATIENCE)


def test_signals_end_the_window_as_a_person_does(asked_to_end: tuple[Program, Path]) -> None:
    program, home = asked_to_end
    assert program.process.returncode == 0, program.said
    assert "Traceback" not in program.said
    assert "Traceback" not in (home / "state" / "pairwright" / LOG).read_text()


def test_attempts_that_could_not_be_saved_are_rescued_and_the_file_is_named(
    asked_to_end: tuple[Program, Path],
) -> None:
    program, home = asked_to_end
    (rescued,) = home.glob("*.jsonl")
    assert json.loads(rescued.read_text())["learner"] == "Ilva"
    assert str(rescued) in program.said
    assert str(rescued) in (home / "state" / "pairwright" / LOG).read_text()


def test_a_screen_smaller_than_the_smallest_window_shows_it_all_the_same(tmp_path: Path) -> None:
    with virtual_screen("320x240") as small:
        program = Program(small, tmp_path / "home")
        try:
            assert program.shows_home()
            assert "Traceback" not in program.leaves()
        finally:
            program.process.kill()
            program.process.wait(PATIENCE)


def test_with_the_largest_text_the_window_works(start: Start, tmp_path: Path) -> None:
    home = tmp_path / "home"
    home.mkdir()
    (home / SETTINGS).write_text("[look]\ntext_scale = 2.0\n")
    program = start(home)
    assert program.shows_home()
    assert "Traceback" not in program.leaves()
    assert not list(home.glob("*damaged*"))
