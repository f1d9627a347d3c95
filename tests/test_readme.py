"""What the README says can be typed, typed."""

from __future__ import annotations

import json
import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"^```\n(.*?)^```", README, flags=re.MULTILINE | re.DOTALL)
# A comment stands two or more spaces behind its command.
EXAMPLES = [
    re.split(r"\s{2,}", line)[0]
    for block in BLOCKS
    for line in block.splitlines()
    if line.startswith("pairwright ") and "my-lessons" not in line
]


def run(arguments: list[str], given: str, folder: Path) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "tutor", *arguments]
    return subprocess.run(
        command, input=given, capture_output=True, text=True, timeout=120, check=False, cwd=folder
    )


@pytest.mark.parametrize("example", EXAMPLES)
def test_every_example_works_as_printed(example: str) -> None:
    words = shlex.split(example)
    given = ""
    if "<" in words:
        words = words[: words.index("<")]
        given = '{"setup": "R U R\'", "slot": "FR", "keep": ["FL", "BL", "BR"]}\n'
    ended = run(words[1:], given, ROOT)
    assert ended.returncode == 0, ended.stderr
    assert ended.stdout
    if "--json" in words or "--batch" in words:
        assert json.loads(ended.stdout.splitlines()[0])


def test_there_are_examples() -> None:
    assert len(EXAMPLES) >= 4


def test_the_job_stands_at_the_top_and_every_picture_exists() -> None:
    first = README.split("\n\n")[1]
    assert "first two layers" in first
    pictures = re.findall(r"!\[[^\]]+\]\(([^)]+)\)", README)
    assert pictures
    assert all((ROOT / picture).is_file() for picture in pictures)


def test_start_and_test_are_one_line_each() -> None:
    lines = [block.strip() for block in BLOCKS[:2]]
    assert all("\n" not in line for line in lines)
    assert "pip install ." in lines[0]
    assert "pytest" in lines[1]
