"""What the README says can be typed, typed."""

from __future__ import annotations

import io
import json
import os
import re
import shlex
import subprocess
import sys
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest

from tutor.app.cli.command_line import main
from tutor.cube.position import Slot
from tutor.method.cases import CASES
from tutor.progress.attempt import AttemptRecord, Mode, Outcome
from tutor.progress.interchange import format_line

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"^```\n(.*?)^```", README, flags=re.MULTILINE | re.DOTALL)
# A comment stands two or more spaces behind its command.
EXAMPLES = [
    re.split(r"\s{2,}", line)[0]
    for block in BLOCKS
    for line in block.splitlines()
    if line.startswith("pairwright ") and "my-lessons" not in line and "--shared" not in line
]
"""Commands without a window; ``tests/app/test_two_machines.py`` opens windows that share a folder."""
FIRST = {line.split()[1]: line for line in reversed(EXAMPLES)}
"""The first example of every command."""
Run = Callable[[list[str], str, Path], subprocess.CompletedProcess[str]]

FEW_PICTURES = ("--rate", "5")
TRIED = AttemptRecord(
    "Ilva", datetime(2026, 3, 3, 18, 30, tzinfo=UTC), CASES[0].slug, Slot.FR, 0, Mode.TODAY, Outcome.SOLVED,
    5, 5, 12.0,
)  # fmt: skip
QUICKLY = ("--pace", "real", *FEW_PICTURES)


def started(arguments: list[str], given: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """Run a command by a process of its own."""
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    command = [sys.executable, "-m", "tutor", *arguments]
    return subprocess.run(
        command, input=given, capture_output=True, text=True, timeout=900, check=False, cwd=folder,
        env=environment,
    )  # fmt: skip


@pytest.fixture
def told(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Run:
    """Run a command in this process."""

    def telling(arguments: list[str], given: str, folder: Path) -> subprocess.CompletedProcess[str]:
        monkeypatch.chdir(folder)
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(given.encode())))
        status = main(arguments)
        written = capsys.readouterr()
        return subprocess.CompletedProcess(arguments, status, written.out, written.err)

    return telling


@pytest.mark.parametrize(
    "example",
    [pytest.param(line, marks=pytest.mark.slow) if "--all" in line else line for line in EXAMPLES],
)
def test_every_example_works_as_printed(
    example: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, told: Run
) -> None:
    """The first example of every command is a process of its own, the others run in this one."""
    words = shlex.split(example)
    run = started if example in FIRST.values() else told
    (tmp_path / "lessons").symlink_to(ROOT / "lessons")
    if words[1] == "progress":
        monkeypatch.setenv("PAIRWRIGHT_HOME", str(tmp_path / "home"))
    given = ""
    if "<" in words:
        words = words[: words.index("<")]
        given = '{"setup": "R U R\'", "slot": "FR", "keep": ["FL", "BL", "BR"]}\n'
    if "import" in words:
        (tmp_path / words[3]).write_text(f"{format_line(TRIED)}\n", encoding="utf-8")
    # Films are made as printed but for the pictures a second, and all cases without the slower showing.
    quicker = () if words[1] != "film" else QUICKLY if "--all" in words else FEW_PICTURES
    ended = run([*words[1:], *quicker], given, tmp_path)
    assert ended.returncode == 0, ended.stderr
    assert ended.stdout
    if "--json" in words or "--batch" in words:
        assert json.loads(ended.stdout.splitlines()[0])
    if "--out" in words:
        target = tmp_path / words[words.index("--out") + 1]
        assert target.is_dir() or target.stat().st_size > 1000


def test_there_are_examples() -> None:
    assert len(EXAMPLES) >= 12
    commands = {line.split()[1] for line in EXAMPLES}
    assert {"turns", "cases", "lesson", "picture", "film", "sheet", "progress"} <= commands


def test_the_job_stands_at_the_top_and_every_picture_exists() -> None:
    first = README.split("\n\n")[1]
    assert "first two layers" in first
    pictures = re.findall(r"!\[[^\]]+\]\(([^)]+)\)", README)
    assert pictures
    assert all((ROOT / picture).is_file() for picture in pictures)


def test_start_and_test_are_one_line_each() -> None:
    below_test = README[README.index("\n## Test\n") :]
    lines = [
        BLOCKS[0].strip(),
        re.findall(r"^```\n(.*?)^```", below_test, re.MULTILINE | re.DOTALL)[0].strip(),
    ]
    assert all("\n" not in line for line in lines)
    assert "pip install ." in lines[0]
    assert "pytest" in lines[1]
