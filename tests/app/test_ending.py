"""How the program ends: once, whoever asks; and what a signal ends while it is written is not there."""

from __future__ import annotations

import gc
import os
import signal
import subprocess
import sys
import time
from argparse import Namespace
from collections.abc import Callable
from pathlib import Path
from threading import Event, Thread

import pytest

from tests.virtual_screen import PATIENCE
from tutor.app.cli.command_line import main
from tutor.app.ending import ENDING_SIGNALS, Ending, on_signals
from tutor.app.start import run_window

ROOT = Path(__file__).parents[2]


def test_the_ending_is_carried_out_once_the_last_first_and_a_fault_keeps_nothing_from_it() -> None:
    ending, done = Ending(), []
    ending.add(lambda: done.append("first"))
    ending.add(lambda: 1 / 0)
    ending.add(ending.carry_out)
    ending.add(lambda: done.append("last"))
    with pytest.raises(ZeroDivisionError):
        ending.carry_out()
    ending.carry_out()
    assert done == ["last", "first"]


def test_another_thread_that_asks_waits_until_it_is_done() -> None:
    # As Windows' handler of a console that closes must: when it returns, the process is gone.
    ending, begun, go_on = Ending(), Event(), Event()
    heard: list[str] = []

    def slow() -> None:
        begun.set()
        go_on.wait(PATIENCE)
        heard.append("done")

    def second() -> None:
        ending.carry_out()
        heard.append("returned")

    ending.add(slow)
    first, other = Thread(target=ending.carry_out), Thread(target=second)
    first.start()
    begun.wait(PATIENCE)
    other.start()
    go_on.set()
    first.join(PATIENCE)
    other.join(PATIENCE)
    assert heard == ["done", "returned"]


def test_the_first_signal_is_heard_the_second_changes_nothing_and_all_is_as_before_then() -> None:
    before = [signal.getsignal(each) for each in ENDING_SIGNALS]
    assert {each.name for each in ENDING_SIGNALS} == {"SIGTERM", "SIGHUP", "SIGINT"}
    for number in ENDING_SIGNALS:
        heard: list[int] = []
        with on_signals(heard.append):
            os.kill(os.getpid(), number)
            os.kill(os.getpid(), signal.SIGTERM)
            assert signal.getsignal(number) == signal.SIG_DFL
        assert heard == [number]
    assert [signal.getsignal(each) for each in ENDING_SIGNALS] == before


def test_where_the_system_ends_the_process_from_within_the_window_the_ending_is_carried_out(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    collects: list[bool] = []

    def ended_by_the_system(make_port: object, end: Callable[[], None]) -> None:
        # As a Mac does: the window's loop never returns, and its last act is this call.
        collects.append(gc.isenabled())
        end()
        collects.append(gc.isenabled())

    monkeypatch.setattr("render.window.window.run", ended_by_the_system)
    assert run_window(Namespace()) == 0
    assert collects == [False, True]


def test_a_signal_that_is_ignored_from_outside_stays_so() -> None:
    before = signal.signal(signal.SIGHUP, signal.SIG_IGN)
    try:
        with on_signals(lambda _: None):
            assert signal.getsignal(signal.SIGHUP) == signal.SIG_IGN
    finally:
        signal.signal(signal.SIGHUP, before)


@pytest.fixture
def ended_while_writing(monkeypatch: pytest.MonkeyPatch) -> None:
    """In the midst of every file that is written, the system asks the process to end."""
    whole = Path.write_bytes
    signals = iter(ENDING_SIGNALS * 10)

    def half(path: Path, content: bytes) -> int:
        whole(path, content[: len(content) // 2])
        os.kill(os.getpid(), next(signals))
        raise AssertionError(f"{path} is written on")

    monkeypatch.setattr(Path, "write_bytes", half)


EXPORTS = (
    ("progress", "export", "a.csv"),
    ("progress", "group", "--out", "a.html"),
    ("picture", "3", "--size", "64x64", "--out", "a.png"),
    ("film", "3", "--script", "--out", "a.txt"),
)


@pytest.mark.usefixtures("ended_while_writing")
def test_an_export_that_a_signal_ends_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PAIRWRIGHT_HOME", str(tmp_path / "home"))
    (tmp_path / "out").mkdir()
    monkeypatch.chdir(tmp_path / "out")
    statuses = [main(export) for export in EXPORTS]
    assert statuses == [128 + number for number in (*ENDING_SIGNALS, ENDING_SIGNALS[0])]
    assert not list((tmp_path / "out").iterdir())


TWO_FILMS = """
import sys
from tutor.app.cli import film_collection
from tutor.app.cli.command_line import main
film_collection.CASES = film_collection.CASES[:2]
sys.exit(main())
"""


def children_of(process: int) -> list[int]:
    """The processes that it has started (Linux, proc(5))."""
    return [int(each) for each in Path(f"/proc/{process}/task/{process}/children").read_text().split()]


def ends(process: int) -> bool:
    """Whether a process comes to be gone; one that nobody has asked after yet is a zombie."""
    stat, end = Path(f"/proc/{process}/stat"), time.monotonic() + PATIENCE
    while time.monotonic() < end:
        try:
            if stat.read_text().rpartition(")")[2].split()[0] == "Z":
                return True
        except FileNotFoundError:
            return True
        time.sleep(0.05)
    return False


def test_films_that_a_signal_ends_leave_no_part_and_no_process(tmp_path: Path) -> None:
    command = [sys.executable, "-c", TWO_FILMS, "film", "--all", "--size", "320x240", "--out", str(tmp_path)]
    with subprocess.Popen(command, cwd=ROOT, stderr=subprocess.PIPE, text=True) as films:
        end = time.monotonic() + PATIENCE
        while not list(tmp_path.glob(".*.part")) and films.poll() is None and time.monotonic() < end:
            time.sleep(0.05)
        started = children_of(films.pid)
        films.send_signal(signal.SIGTERM)
        assert films.wait(PATIENCE) == 128 + signal.SIGTERM
        assert films.stderr is not None
        said = films.stderr.read()
    assert started
    assert [each for each in started if not ends(each)] == []
    assert not list(tmp_path.glob(".*.part"))
    assert "Traceback" not in said
    assert said.splitlines()[-1].startswith("You stopped it. ")
