"""Standard streams that are closed, full or nobody's: an exit status, and where possible one sentence."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.virtual_screen import PATIENCE
from tutor.app.cli.command_line import main

ROOT = Path(__file__).parents[2]
FULL, CLOSED = "No space left on device", "Bad file descriptor"
"""What the system says of writing to /dev/full (full(4)) and to no stream (errno(3), EBADF)."""
NUMBERS = """
import os
from tutor.app.terminal import open_streams
open_streams()
assert os.open("/dev/zero", os.O_RDONLY) > 2
assert os.get_inheritable(0) and os.get_inheritable(1) and os.get_inheritable(2)
"""


def unwritable(reason: str) -> str:
    advice = "send it to a file or another program"
    return f"python -m tutor: the program cannot write its answer: {reason}; {advice}\n"


LINES: dict[str, tuple[int, str]] = {
    "cases | head -1": (141, ""),
    "cases >&-": (1, unwritable(CLOSED)),
    "progress show --json >/dev/full": (1, unwritable(FULL)),
    "--help >/dev/full": (1, unwritable(FULL)),
    "progress reset <&-": (
        2,
        "python -m tutor progress: nobody can answer the question here; add --yes to go on without it\n",
    ),
    "nonsense 2>/dev/full": (2, ""),
    ">&- 2>&- <&-": (2, ""),  # the window, where there is no display for it
}
"""Lines of the shell (POSIX, 2.7), each with its exit status and all that it says on standard error."""


@pytest.fixture
def shells(tmp_path: Path) -> Iterator[dict[str, subprocess.Popen[str]]]:
    """All of them at once."""
    environment = {**os.environ, "PAIRWRIGHT_HOME": str(tmp_path), "DISPLAY": ""}
    begun = {}
    for line in LINES:
        call = f"{sys.executable} -m tutor {line}; exit ${{PIPESTATUS[0]}}"
        begun[line] = subprocess.Popen(
            ["bash", "-c", call],
            cwd=ROOT,
            env=environment,
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
            text=True,
        )
    yield begun
    for shell in begun.values():
        shell.kill()
        shell.wait(PATIENCE)


def test_every_stream_that_fails_gives_a_status_and_at_most_one_sentence(
    shells: dict[str, subprocess.Popen[str]],
) -> None:
    ended = {}
    for line, shell in shells.items():
        _, said = shell.communicate(timeout=PATIENCE)
        ended[line] = shell.returncode, said
    assert ended == LINES


def test_no_file_takes_the_place_of_a_closed_stream() -> None:
    call = [sys.executable, "-c", NUMBERS]
    closed = ["bash", "-c", '"$@" <&- >&- 2>&-', "-", *call]
    assert subprocess.run(closed, cwd=ROOT, check=False).returncode == 0


def test_without_any_stream_as_without_a_console_a_command_ends_with_its_status(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # Python has None for each of them under pythonw (sys.__stdout__, in the library's documents).
    monkeypatch.setenv("PAIRWRIGHT_HOME", str(tmp_path))
    windows = []

    def run_window(chosen: object) -> int:
        windows.append(chosen)
        return 0

    monkeypatch.setattr("tutor.app.start.run_window", run_window)
    for arguments, status in ((["progress", "show"], 1), (["cases", "no"], 2), ([], 0)):
        for name in ("stdin", "stdout", "stderr"):
            monkeypatch.setattr(sys, name, None)
        if status == 2:
            with pytest.raises(SystemExit) as end:
                main(arguments)
            assert end.value.code == 2
        else:
            assert main(arguments) == status
    assert len(windows) == 1
