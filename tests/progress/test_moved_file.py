"""The file taken from under a running program: set aside by another window, deleted, or replaced."""

from pathlib import Path
from typing import Any

import pytest

from tutor.progress.safekeeping import FILE, set_aside
from tutor.progress.store import Store


def test_what_is_recorded_after_another_window_set_the_file_aside_is_in_the_new_one(
    tmp_path: Path, attempt: Any, clock: Any
) -> None:
    old, new, undone = attempt(), attempt(day=1), attempt(day=2)
    with Store.open(tmp_path, clock) as store:
        store.merge([old, undone])
        store.back_up()
        set_aside(tmp_path, clock())
        with Store.open(tmp_path, clock) as other:
            assert store.record(new)
            assert store.undo(undone.uuid)
            assert other.attempts() == store.attempts() == (old, new)
    with Store.open(tmp_path, clock) as again:
        assert again.attempts() == (old, new)


@pytest.mark.parametrize("backed_up", [True, False])
def test_a_file_deleted_while_the_program_runs_is_made_anew(
    tmp_path: Path, attempt: Any, clock: Any, backed_up: bool
) -> None:
    old, new = attempt(), attempt(day=1)
    with Store.open(tmp_path, clock) as store:
        assert store.record(old)
        if backed_up:
            store.back_up()
        for file in tmp_path.glob(f"{FILE}*"):
            file.unlink()
        assert store.record(new)
        assert store.attempts() == (old, new)
        assert any("was gone" in notice for notice in store.notices) is backed_up
    with Store.open(tmp_path, clock) as again:
        assert again.attempts() == (old, new)


def test_where_nothing_can_be_put_in_its_place_what_was_open_is_read_and_the_attempt_waits(
    tmp_path: Path, attempt: Any
) -> None:
    folder = tmp_path / "folder"
    old, new = attempt(), attempt(day=1)
    with Store.open(folder) as store:
        assert store.record(old)
        folder.rename(tmp_path / "elsewhere")
        folder.write_text("a file where the folder should be", encoding="utf-8")
        assert store.record(new) is False
        assert store.attempts() == (old, new)
        assert "1 attempt is not on the disk yet" in store.notices[-1]
        assert "Errno" not in store.notices[-1]
        folder.unlink()
        assert store.retry()
        assert store.notices == ()
    with Store.open(folder) as again:
        assert again.attempts() == (old, new)
