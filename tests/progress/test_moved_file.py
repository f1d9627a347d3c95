"""The file taken from under a running program: set aside by another window, deleted, or replaced."""

import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from tutor.progress import progress_file, schema
from tutor.progress.attempt import AttemptRecord
from tutor.progress.backup import FILE, set_aside
from tutor.progress.notes import add_notes
from tutor.progress.own_words import OwnWords
from tutor.progress.progress_file import ProgressFile
from tutor.progress.store import AttemptStore, StoreError
from tutor.session.record_commands import AttemptUndone, Record, UndoAttempt
from tutor.workers.recorder import Recorder


def test_what_is_recorded_after_another_window_set_the_file_aside_is_in_the_new_one(
    tmp_path: Path, attempt: Any, clock: Any
) -> None:
    old, new, undone = attempt(), attempt(day=1), attempt(day=2)
    with AttemptStore.open(tmp_path, clock) as store:
        store.merge([old, undone])
        store.back_up()
        set_aside(tmp_path, clock())
        with AttemptStore.open(tmp_path, clock) as other:
            assert store.record(new)
            assert store.undo(undone.uuid)
            assert other.attempts() == store.attempts() == (old, new)
    with AttemptStore.open(tmp_path, clock) as again:
        assert again.attempts() == (old, new)


@pytest.mark.parametrize("backed_up", [True, False])
def test_a_file_deleted_while_the_program_runs_is_made_anew(
    tmp_path: Path, attempt: Any, clock: Any, backed_up: bool
) -> None:
    old, new = attempt(), attempt(day=1)
    with AttemptStore.open(tmp_path, clock) as store:
        assert store.record(old)
        if backed_up:
            store.back_up()
        for file in tmp_path.glob(f"{FILE}*"):
            file.unlink()
        assert store.record(new)
        assert store.attempts() == (old, new)
        assert any("was missing" in notice for notice in store.notices) is backed_up
    with AttemptStore.open(tmp_path, clock) as again:
        assert again.attempts() == (old, new)


def test_where_nothing_can_be_put_in_its_place_what_was_open_is_read_and_the_attempt_waits(
    tmp_path: Path, attempt: Any
) -> None:
    folder = tmp_path / "folder"
    old, new = attempt(), attempt(day=1)
    with AttemptStore.open(folder) as store:
        assert store.record(old)
        folder.rename(tmp_path / "elsewhere")
        folder.write_text("a file where the folder should be", encoding="utf-8")
        assert store.record(new) is False
        assert store.attempts() == (old, new)
        assert "One attempt is not saved yet" in store.notices[-1]
        assert "Errno" not in store.notices[-1]
        folder.unlink()
        assert store.retry()
        assert store.notices == ()
    with AttemptStore.open(folder) as again:
        assert again.attempts() == (old, new)


def test_what_cannot_be_carried_over_at_once_is_carried_over_later(
    tmp_path: Path, attempt: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    old, new = attempt(), attempt(day=1)
    with AttemptStore.open(tmp_path) as store:
        assert store.record(old)
        for file in tmp_path.glob(f"{FILE}*"):
            file.unlink()
        with monkeypatch.context() as full:

            def refuse(*_: object) -> None:
                raise sqlite3.OperationalError("database or disk is full")

            full.setattr(progress_file, "add", refuse)
            assert store.record(new) is False
            assert store.attempts() == (old, new)
        assert store.retry()
        assert store.attempts() == (old, new)


def test_a_damaged_file_in_whose_place_a_newer_one_comes_leaves_what_could_be_read(
    tmp_path: Path, attempt: Any, clock: Any
) -> None:
    made = attempt()
    file = ProgressFile(tmp_path, clock)
    file.add((made,))
    add_notes(file.connection, (OwnWords("Ilva", made.case, clock(), "Mine."),))
    put_in_its_place_a_newer_file(tmp_path)
    with pytest.raises(schema.NewerStoreError):
        file._replace_damaged()
    assert file.out_of_reach
    assert [row[0] for row in file.rows("SELECT uuid FROM attempts")] == [made.uuid.hex]
    assert len(file.rows("SELECT line FROM own_words")) == 1
    file.close()


def put_in_its_place_a_newer_file(folder: Path) -> bytes:
    """What another window of a newer version leaves when it found the file damaged; the new one's content."""
    for file in folder.glob(f"{FILE}*"):
        file.rename(file.with_name(f"aside-{file.name}"))
    with closing(sqlite3.connect(folder / FILE)) as connection:
        connection.execute("CREATE TABLE of_tomorrow (name TEXT)")
        connection.execute(f"PRAGMA user_version = {len(schema.MIGRATIONS) + 1}")
    return (folder / FILE).read_bytes()


CHANGES: list[Callable[[AttemptStore, AttemptRecord], object]] = [
    lambda store, made: store.undo(made.uuid),
    lambda store, made: store.merge([made]),
    lambda store, _: store.reset(),
]


@pytest.mark.parametrize("change", CHANGES, ids=["undo", "merge", "reset"])
def test_where_a_newer_file_has_come_nothing_is_changed_and_what_was_open_is_read(
    tmp_path: Path, attempt: Any, change: Callable[[AttemptStore, AttemptRecord], object]
) -> None:
    made, waiting = attempt(), attempt(day=1)
    with AttemptStore.open(tmp_path) as store:
        assert store.record(made)
        content = put_in_its_place_a_newer_file(tmp_path)
        with pytest.raises(StoreError, match="a newer version of the program has written there"):
            change(store, made)
        assert store.attempts() == (made,)
        assert store.learners() == ("Guest", "Ilva")
        assert not store.record(waiting)
        assert store.undo(waiting.uuid)
    assert (tmp_path / FILE).read_bytes() == content


def test_what_still_counts_when_a_newer_file_has_come_is_told(tmp_path: Path, attempt: Any) -> None:
    made = attempt()
    recorder = Recorder(tmp_path)
    recorder.carry_out(Record(made))
    put_in_its_place_a_newer_file(tmp_path)
    told = recorder.carry_out(UndoAttempt(made.uuid, made.learner))
    assert isinstance(told, AttemptUndone)
    assert told.problem == (
        f"This attempt still counts: the program cannot write in the folder {tmp_path}: "
        "a newer version of the program has written there; update this one."
    )
    assert len(told.standing.study.results) == 1
    recorder.close()


def test_a_damaged_file_with_a_backup_of_a_newer_version_keeps_an_attempt_from_being_taken_back(
    tmp_path: Path, attempt: Any, clock: Any
) -> None:
    made = attempt()
    with AttemptStore.open(tmp_path, clock) as store:
        assert store.record(made)
        backup = store.back_up()
        with closing(sqlite3.connect(backup)) as connection:
            connection.execute(f"PRAGMA user_version = {len(schema.MIGRATIONS) + 1}")
        # What the library still holds in memory would hide the damage for a while.
        store._connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        store._connection.execute("PRAGMA cache_size = 0")
        (tmp_path / FILE).write_bytes(b"no database at all " * 500)
        with pytest.raises(StoreError, match="the program cannot read your progress: a newer version"):
            store.undo(made.uuid)
