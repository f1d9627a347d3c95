"""The table “When things fail” of the contributor's guide names tests that exist, for every failure."""

from __future__ import annotations

import ast
import re
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
FAILURES = (
    "no display", "no OpenGL, or too old", "lost context", "no font", "read-only home", "full disk",
    "damaged cache", "damaged store", "damaged settings", "killed process", "shared folder gone or full",
    "ended from outside", "closed or full stream", "hostile text", "unusable name", "second instance",
    "odd file (a pipe, a device, links in a circle)", "large folder of lessons", "clock set back",
    "very small window", "very large text",
)  # fmt: skip
COLUMNS = 4


def rows() -> list[list[str]]:
    """The table's rows, each a list of its cells; the first is its head, the second its rule."""
    guide = (ROOT / "DEVELOPERS.md").read_text("utf-8")
    section = re.search(r"^## When things fail$(.*?)^## ", guide, re.MULTILINE | re.DOTALL)
    assert section is not None
    lines = [line for line in section[1].splitlines() if line.startswith("|")]
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in lines]


@cache
def names_in(path: str) -> frozenset[str]:
    """The names of the tests at the top level of a file, as it is parsed, without running it."""
    parsed = ast.parse((ROOT / path).read_text("utf-8"))
    return frozenset(each.name for each in parsed.body if isinstance(each, ast.FunctionDef))


def test_every_failure_has_its_row_and_every_row_is_full() -> None:
    found = rows()[2:]
    assert tuple(row[0] for row in found) == FAILURES
    assert all(len(row) == COLUMNS and all(row) for row in found)


@pytest.mark.parametrize("row", rows()[2:], ids=lambda row: row[0])
def test_the_tests_that_hold_a_failure_exist(row: list[str]) -> None:
    named = re.findall(r"`(tests/[\w/]+\.py)::(test_\w+)`", row[3])
    assert len(named) == row[3].count("::") > 0
    missing = [f"{path}::{name}" for path, name in named if name not in names_in(path)]
    assert missing == []
