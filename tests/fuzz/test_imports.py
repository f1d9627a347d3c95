"""Progress taken in from hostile files: one sentence of error or all of it, and the store stays sound."""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.fuzz.inputs import DOCUMENTS, hostile
from tests.fuzz.test_fuzz import EXAMPLES
from tests.fuzz.watch import at_home
from tutor.app.cli import attempt_files
from tutor.app.cli.command_line import main
from tutor.progress.backup import FILE, is_sound
from tutor.progress.store import AttemptStore

FILES = st.sampled_from([("club.csv", "attempt_table"), ("club.jsonl", "attempt_line")]).flatmap(
    lambda kind: st.tuples(st.just(kind[0]), hostile(kind[1]))
)


def taken_in(name: str, content: bytes) -> tuple[int, str, int]:
    """Take a file in; the exit status, what was said of errors, and the attempts in the store then."""
    with tempfile.TemporaryDirectory() as temporary:
        home, file = Path(temporary) / "home", Path(temporary) / name
        file.write_bytes(content)
        with at_home(home) as said:
            status = main(["progress", "import", str(file)])
            # What was taken in can be shown, whatever it says.
            for sheet in ("group.html", "group.csv") if status == 0 else ():
                assert main(["progress", "group", "--out", str(home / sheet)]) == 0
        assert file.read_bytes() == content
        if not (home / FILE).exists():
            return status, said.getvalue(), 0
        assert is_sound(home / FILE, thorough=True)
        with AttemptStore.open(home) as store:
            return status, said.getvalue(), len(store.attempts())


@settings(
    max_examples=EXAMPLES // 4,
    deadline=None,
    database=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
@given(FILES)
def test_a_hostile_file_is_taken_in_whole_or_not_at_all(named: tuple[str, bytes]) -> None:
    name, content = named
    status, said, kept = taken_in(name, content)
    assert status in (0, 2)
    if status == 2:
        assert said.count("\n") == 1
        assert name in said
        assert kept == 0


def test_a_sound_file_is_taken_in() -> None:
    for name, target in (("club.csv", "attempt_table"), ("club.jsonl", "attempt_line")):
        status, said, kept = taken_in(name, DOCUMENTS[target][0])
        assert (status, said, kept) == (0, "", 1)


def test_a_file_that_is_too_large_is_not_read_on(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(attempt_files, "LARGEST", 1000)
    status, said, kept = taken_in("club.jsonl", b" " * 1001)
    assert (status, kept) == (2, 0)
    assert "too large" in said
    assert taken_in("club.jsonl", b" " * 1000)[0] == 0
