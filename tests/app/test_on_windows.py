"""The program on Windows, played here: its console closes, it has none, the machine sleeps, code pages.

What the system does is from the vendor's documents (learn.microsoft.com: HandlerRoutine, NTSTATUS values,
"Naming Files") and from Python's (sys.stdout is None under pythonw; cp1252 in redirected output).
"""

from __future__ import annotations

import argparse
import io
import sys
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path, PureWindowsPath
from threading import Event, Thread

import pytest

from render import words as drawn
from render.errors import no_opengl
from tests.virtual_screen import PATIENCE
from tutor.app import on_windows, start
from tutor.app.checkup.checks import store_folder
from tutor.app.checkup.graphics_probe import read_told
from tutor.app.drawing import DRAWING
from tutor.app.ending import Ending
from tutor.app.on_windows import hear_console_close
from tutor.app.terminal import complain, is_heard, open_streams, tell
from tutor.app.waking_clock import LONGEST_GAP, WakingClock
from tutor.lesson.draft import parse_name
from tutor.session.saving_commands import Saved, SaveTable
from tutor.workers.saving import saved

CTRL_C, CTRL_CLOSE, CTRL_LOGOFF, CTRL_SHUTDOWN = 0, 2, 5, 6


@dataclass
class Calls(on_windows.Calls):
    """The system's functions."""

    handlers: list[Callable[[int], bool]] = field(default_factory=list)
    shown: list[tuple[str, str]] = field(default_factory=list)

    def hear_console(self, handler: Callable[[int], bool]) -> None:
        self.handlers.append(handler)

    def show_message(self, text: str, title: str) -> None:
        self.shown.append((text, title))


@pytest.mark.parametrize("event", [CTRL_CLOSE, CTRL_LOGOFF, CTRL_SHUTDOWN])
def test_a_console_that_closes_waits_until_the_window_has_ended(event: int) -> None:
    calls, ending, asked = Calls(), Ending(), Event()
    happened: list[str] = []
    ending.add(lambda: happened.append("ended"))
    hear_console_close(calls, ending, asked.set)

    def window() -> None:
        assert asked.wait(PATIENCE)
        ending.carry_out()

    loop = Thread(target=window)
    loop.start()
    # On a thread of the system's; when it returns, the process is gone.
    assert calls.handlers[0](event)
    assert happened == ["ended"]
    loop.join(PATIENCE)


def test_a_window_that_does_not_answer_keeps_nothing_from_being_saved(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(on_windows, "PATIENCE", 0.0)
    calls, ending = Calls(), Ending()
    happened: list[str] = []
    ending.add(lambda: happened.append("ended"))
    hear_console_close(calls, ending, lambda: None)
    assert not calls.handlers[0](CTRL_C)
    assert happened == []
    assert calls.handlers[0](CTRL_CLOSE)
    assert calls.handlers[0](CTRL_SHUTDOWN)
    assert happened == ["ended"]


def test_without_a_console_the_reason_for_no_window_is_shown_in_a_box(
    monkeypatch: pytest.MonkeyPatch, tmp_path: object
) -> None:
    calls = Calls()
    monkeypatch.setenv("PAIRWRIGHT_HOME", str(tmp_path))
    monkeypatch.setattr(start, "real_calls", lambda: calls)
    refusal = no_opengl("1.1")

    def refused(*_: object) -> None:
        raise refusal

    monkeypatch.setattr(start, "_run", refused)
    for name in ("stdin", "stdout", "stderr"):
        monkeypatch.setattr(sys, name, None)
    open_streams()
    assert not is_heard()
    assert start.run_window(argparse.Namespace()) == start.NO_WINDOW
    assert calls.shown == [(str(refusal), "Pairwright")]
    assert len(calls.handlers) == 1


def test_with_a_console_it_is_said_there(monkeypatch: pytest.MonkeyPatch, tmp_path: object) -> None:
    calls, said = Calls(), io.StringIO()
    monkeypatch.setattr(sys, "stderr", said)
    monkeypatch.setenv("PAIRWRIGHT_HOME", str(tmp_path))
    monkeypatch.setattr(start, "real_calls", lambda: calls)
    monkeypatch.setattr(start, "_run", lambda *_: 1 / 0)
    assert start.run_window(argparse.Namespace()) == start.BROKEN_OFF
    assert "The program had to stop (ZeroDivisionError: division by zero)." in said.getvalue()
    assert calls.shown == []


def test_the_remedies_are_those_of_the_system() -> None:
    assert drawn.no_opengl("1.1", "win32") == (
        "The program needs OpenGL 3.3; the driver here offers 1.1. "
        "Install the newest driver of your graphics card. "
        "A remote desktop may offer less than the computer: then start the program at the computer itself."
    )
    for system in ("win32", "darwin"):
        told = drawn.no_opengl("", system), drawn.no_library("GL", "libgl1", system)
        assert not [text for text in (*told, drawn.no_display("", system)) if "Debian" in text]


def test_on_a_code_page_answers_are_utf_8_and_a_terminals_own_encoding_stays(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    page, terminal = (io.TextIOWrapper(io.BytesIO(), encoding=name) for name in ("cp1252", "iso8859-2"))
    monkeypatch.setattr(sys, "stdout", page)
    monkeypatch.setattr(sys, "stderr", terminal)
    open_streams()
    tell("Ilva Kőműves, Żaneta, 木")
    complain("Kőműves 木")
    page.flush()
    assert page.buffer.getvalue().decode("utf-8") == "Ilva Kőműves, Żaneta, 木\n"
    assert terminal.buffer.getvalue().decode("iso8859-2") == "Kőműves ?\n"


def test_sleep_is_absence_and_a_slow_frame_is_not() -> None:
    seconds = iter((100.0, 100.5, 104.5, 104.6, 104.6 + 8 * 3600, 104.6 + 8 * 3600 + 1.0))
    clock = WakingClock(lambda: next(seconds))
    times = [clock() for _ in range(5)]
    assert times == pytest.approx([100.5, 104.5, 104.6, 104.6, 105.6])
    assert LONGEST_GAP < 8 * 3600


def test_a_driver_that_crashes_has_a_positive_status() -> None:
    assert read_told(0xC0000005, "", "").problem == "The graphics driver crashed (0xc0000005)."
    assert "could not try it" in read_told(1, "", "oh no").problem


def test_python_from_the_store_has_a_folder_of_its_own() -> None:
    # As Microsoft's and Python's documents show it: docs.python.org, "Using Python on Windows", 4.4.
    python = PureWindowsPath(
        r"C:\Program Files\WindowsApps\PythonSoftwareFoundation.Python.3.12_3.12.2800.0_x64__qbz5n2kfra8p0"
    )
    kept = store_folder(python, r"C:\Users\ilva\AppData\Local")
    assert str(kept) == (
        r"C:\Users\ilva\AppData\Local\Packages\PythonSoftwareFoundation.Python.3.12_qbz5n2kfra8p0"
        r"\LocalCache\Local"
    )
    assert store_folder(PureWindowsPath(r"C:\Program Files\Python312"), "") is None


@pytest.mark.parametrize("name", ["con", "nul", "com1", "lpt9"])
def test_a_device_is_no_name_for_a_lesson(name: str) -> None:
    with pytest.raises(ValueError, match=f"“{name}” is no name for a lesson: on Windows it is a device"):
        parse_name(name)
    assert parse_name(f"{name}-again") == f"{name}-again"


def test_a_table_saved_in_the_window_begins_with_the_mark_for_spreadsheets(tmp_path: Path) -> None:
    told = saved(SaveTable(1, "group", "Ilva,Żaneta\n"), tmp_path, DRAWING, lambda _: None)
    assert isinstance(told, Saved)
    assert (tmp_path / told.name).read_bytes() == b"\xef\xbb\xbfIlva,\xc5\xbbaneta\n"
