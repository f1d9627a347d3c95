"""Damaged, missing, older and newer files, and a clock that was set back."""

import random
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from tutor.progress import schema
from tutor.progress.attempt import AttemptRecord
from tutor.progress.backup import BACKUPS, FILE, daily_backups
from tutor.progress.schema import NewerStoreError
from tutor.progress.store import AttemptStore


def filled(folder: Path, attempts: list[AttemptRecord], clock: Any) -> None:
    with AttemptStore.open(folder, clock) as store:
        store.merge(attempts)


def cut_in_half(content: bytes) -> bytes:
    return content[: len(content) // 2]


def cut_short(content: bytes) -> bytes:
    return content[:50]


def emptied(content: bytes) -> bytes:
    return b""


def all_garbage(content: bytes) -> bytes:
    return random.Random(1).randbytes(len(content))


def garbage_at_the_head(content: bytes) -> bytes:
    return random.Random(2).randbytes(100) + content[100:]


def garbage_in_the_middle(content: bytes) -> bytes:
    middle = len(content) // 2
    return content[:middle] + random.Random(3).randbytes(8192) + content[middle + 8192 :]


def all_zeros(content: bytes) -> bytes:
    return bytes(len(content))


DAMAGES = (
    cut_in_half,
    cut_short,
    emptied,
    all_garbage,
    garbage_at_the_head,
    garbage_in_the_middle,
    all_zeros,
)


@pytest.mark.parametrize("damage", DAMAGES)
def test_a_damaged_file_is_set_aside_and_the_backup_taken(
    tmp_path: Path, attempt: Any, clock: Any, damage: Any
) -> None:
    old = [attempt(day=number / 100) for number in range(60)]
    filled(tmp_path, old, clock)
    clock.go_on(days=1)
    # Opening makes the backup of the day, with all that is old.
    AttemptStore.open(tmp_path, clock).close()
    new = [attempt(day=1 + number / 100) for number in range(20)]
    filled(tmp_path, new, clock)
    path = tmp_path / FILE
    broken = damage(path.read_bytes())
    path.write_bytes(broken)

    with AttemptStore.open(tmp_path, clock) as store:
        found = store.attempts()
        assert set(old) <= set(found) <= {*old, *new}
        (notice,) = store.notices
        assert "backup progress-2026-03-04.sqlite" in notice
        (aside,) = tmp_path.glob("progress-damaged-2026-03-04-183000.sqlite")
        assert aside.name in notice
        assert aside.read_bytes() == broken
        assert store.record(attempt(day=2))
    with AttemptStore.open(tmp_path, clock) as store:
        assert store.notices == ()
        assert len(store.attempts()) == len(found) + 1


def test_damage_without_a_backup_starts_afresh_and_says_so(tmp_path: Path, attempt: Any, clock: Any) -> None:
    (tmp_path / FILE).write_bytes(b"no database at all " * 500)
    with AttemptStore.open(tmp_path, clock) as store:
        assert store.attempts() == ()
        assert "an empty one" in store.notices[0]
        assert store.record(attempt())


def test_what_can_still_be_read_of_a_damaged_file_is_saved(tmp_path: Path, attempt: Any, clock: Any) -> None:
    made = [attempt(day=number / 100) for number in range(200)]
    filled(tmp_path, made, clock)
    path = tmp_path / FILE
    content = path.read_bytes()
    path.write_bytes(content[: len(content) * 3 // 4 // 4096 * 4096])
    with AttemptStore.open(tmp_path, clock) as store:
        assert 0 < len(store.attempts()) < len(made)
        assert set(store.attempts()) <= set(made)
        assert " attempts from the damaged file." in store.notices[0]


def test_a_damaged_backup_is_passed_over_for_an_older_one(tmp_path: Path, attempt: Any, clock: Any) -> None:
    old = attempt()
    filled(tmp_path, [old], clock)
    AttemptStore.open(tmp_path, clock).close()
    clock.go_on(days=1)
    AttemptStore.open(tmp_path, clock).close()
    daily_backups(tmp_path)[0].write_bytes(b"garbage" * 1000)
    (tmp_path / FILE).write_bytes(b"garbage" * 1000)
    with AttemptStore.open(tmp_path, clock) as store:
        assert store.attempts() == (old,)
        assert "progress-2026-03-03.sqlite" in store.notices[0]


def test_a_file_that_is_gone_comes_back_from_the_backup(tmp_path: Path, attempt: Any, clock: Any) -> None:
    filled(tmp_path, [attempt()], clock)
    AttemptStore.open(tmp_path, clock).close()
    (tmp_path / FILE).unlink()
    with AttemptStore.open(tmp_path, clock) as store:
        assert len(store.attempts()) == 1
        assert "The file of your progress was missing." in store.notices[0]


def test_damage_while_the_program_runs_loses_no_attempt_made_after(
    tmp_path: Path, attempt: Any, clock: Any
) -> None:
    old = [attempt(day=number / 100) for number in range(60)]
    filled(tmp_path, old, clock)
    with AttemptStore.open(tmp_path, clock) as store:
        store._connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
        # What the library still holds in memory would hide the damage for a while.
        store._connection.execute("PRAGMA shrink_memory")
        (tmp_path / FILE).write_bytes(random.Random(5).randbytes((tmp_path / FILE).stat().st_size))
        new = attempt(day=1)
        assert store.record(new)
        assert set(store.attempts()) == {*old, new}
        assert "damaged" in store.notices[0]


def test_a_record_that_cannot_be_read_is_left_out_and_told(tmp_path: Path, attempt: Any) -> None:
    made = attempt(), attempt(day=1)
    with AttemptStore.open(tmp_path) as store:
        store.merge(made)
        with closing(sqlite3.connect(tmp_path / FILE)) as connection:
            connection.execute("UPDATE attempts SET line = '{' WHERE uuid = ?", (made[0].uuid.hex,))
            connection.commit()
        assert store.attempts() == (made[1],)
        assert (
            "The program cannot read one record in the file of your progress and leaves it out."
            in store.notices[0]
        )


def test_a_clock_set_back_loses_nothing_and_keeps_the_order_of_time(
    tmp_path: Path, attempt: Any, clock: Any
) -> None:
    with AttemptStore.open(tmp_path, clock) as store:
        store.record(attempt(day=3))
        clock.go_on(days=-400)
        store.record(attempt(day=-400))
        assert [each.time for each in store.attempts()] == [attempt(day=-400).time, attempt(day=3).time]
    with AttemptStore.open(tmp_path, clock) as store:
        assert len(store.attempts()) == 2


def test_a_newer_file_is_refused_and_untouched(tmp_path: Path, attempt: Any) -> None:
    filled(tmp_path, [attempt()], lambda: attempt().time)
    with closing(sqlite3.connect(tmp_path / FILE)) as connection:
        connection.execute(f"PRAGMA user_version = {len(schema.MIGRATIONS) + 1}")
    before = {path.name: path.read_bytes() for path in tmp_path.iterdir() if path.is_file()}
    with pytest.raises(NewerStoreError, match=r"newer version of the program wrote .*The file is unchanged"):
        AttemptStore.open(tmp_path)
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir() if path.is_file()} == before


def test_an_older_file_is_brought_up_to_date_and_a_copy_kept(
    tmp_path: Path, attempt: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = attempt()
    filled(tmp_path, [made], lambda: made.time)

    def add_a_column(connection: sqlite3.Connection) -> None:
        connection.execute("ALTER TABLE learners ADD COLUMN colour TEXT")

    monkeypatch.setattr(schema, "MIGRATIONS", (*schema.MIGRATIONS, add_a_column))
    monkeypatch.setattr("tutor.progress.connection.MIGRATIONS", schema.MIGRATIONS)
    with AttemptStore.open(tmp_path) as store:
        assert store.attempts() == (made,)
        assert store._connection.execute("SELECT colour FROM learners").fetchall() == [(None,), (None,)]
    assert len(list((tmp_path / BACKUPS).glob("before-update-*.sqlite"))) == 1


def test_a_migration_that_fails_changes_nothing(
    tmp_path: Path, attempt: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    filled(tmp_path, [attempt()], lambda: attempt().time)

    def fail(connection: sqlite3.Connection) -> None:
        connection.execute("DROP TABLE attempts")
        raise RuntimeError("in the middle")

    with monkeypatch.context() as patch:
        patch.setattr(schema, "MIGRATIONS", (*schema.MIGRATIONS, fail))
        with pytest.raises(RuntimeError):
            AttemptStore.open(tmp_path)
    with AttemptStore.open(tmp_path) as store:
        assert len(store.attempts()) == 1
