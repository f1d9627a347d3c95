"""Whatever is read, only our own errors come up, memory is bounded, and no file is touched but those given.

``python -m tests.fuzz`` tries far more; hypothesis (hypothesis.readthedocs.io) makes the inputs smaller.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.fuzz.inputs import DOCUMENTS, hostile
from tests.fuzz.targets import TARGETS, solver
from tests.fuzz.watch import watched

EXAMPLES = int(os.environ.get("FUZZ_EXAMPLES", "100"))
"""Inputs for each target."""
SLOW = {"script": 5, "backup": 2, "recordings": 2, "assigning": 10}
"""How many times fewer inputs where each takes long."""


@pytest.mark.parametrize("name", TARGETS)
def test_hostile_input_is_read_or_refused(name: str) -> None:
    solver()

    @settings(
        max_examples=max(10, EXAMPLES // SLOW.get(name, 1)),
        deadline=None,
        database=None,
        suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
    )
    @given(hostile(name))
    def holds(content: bytes) -> None:
        TARGETS[name](content)

    holds()


@pytest.mark.parametrize("name", TARGETS)
def test_real_documents_are_read(name: str) -> None:
    for document in DOCUMENTS[name]:
        TARGETS[name](document)


@pytest.mark.parametrize("name", TARGETS)
@pytest.mark.parametrize(
    "content",
    [b"", b"\x00" * 9, b"[" * 60_000, b"(" * 60_000, b'{"a":' * 10_000, b"R " * 30_000, b'"' * 60_000,
     b"9" * 60_000, b"a.b." * 15_000 + b"c = 1", b"a = [" + b"[" * 50_000, b"a = " + b"{a = " * 12_000,
     b"\n" * 60_000, b"(" * 8 + b"R)9)9)9)9)9)9)9)9"],
    ids=lambda content: f"{content[:6]!r}*{len(content)}",
)  # fmt: skip
def test_what_is_deep_long_or_enormous_is_refused_within_bounds(name: str, content: bytes) -> None:
    TARGETS[name](content)


def test_the_watch_sees_files_that_are_touched(tmp_path: Path) -> None:
    inside, outside = tmp_path / "inside", tmp_path / "outside"
    inside.mkdir()
    with watched(inside):
        (inside / "file").write_text("fine")
    for touch in (lambda: outside.write_text("x"), outside.mkdir, lambda: (inside / "file").rename(outside)):
        with pytest.raises(AssertionError, match="touched"), watched(inside):
            touch()
        if outside.exists():
            (outside.rmdir if outside.is_dir() else outside.unlink)()


def test_the_watch_sees_memory_that_is_held() -> None:
    with pytest.raises(AssertionError, match="bytes were held"), watched():
        bytearray(100 * 2**20)


@settings(max_examples=20, deadline=None, database=None)
@given(st.integers(1, 3), st.text("RUFLDB2' ", max_size=20))
def test_the_watch_lets_through_what_keeps_the_rules(times: int, text: str) -> None:
    for _ in range(times):
        TARGETS["notation"](text.encode())
