"""Bytes that a broken disk changed inside records, which SQLite does not see."""

import random
import sqlite3
from contextlib import closing
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest

from tutor.method.cases import CASES
from tutor.progress.attempt import AttemptRecord
from tutor.progress.backup import FILE
from tutor.progress.store import AttemptStore
from tutor.progress.study import Study, load_study


def changed(folder: Path, statement: str, *values: object) -> None:
    with closing(sqlite3.connect(folder / FILE, isolation_level=None)) as file:
        assert file.execute(statement, values).rowcount == 1


def test_a_record_that_is_no_text_any_more_is_left_out_and_told(tmp_path: Path, attempt: Any) -> None:
    made = [attempt(day=day) for day in range(3)]
    with AttemptStore.open(tmp_path) as store:
        store.merge(made)
        broken = "UPDATE attempts SET line = CAST(x'7b22ff7d' AS TEXT) WHERE uuid = ?"
        changed(tmp_path, broken, made[1].uuid.hex)
        assert store.attempts("Ilva") == (made[0], made[2])
        assert any(
            "cannot read one record in the file of your progress and leaves it out" in notice
            for notice in store.notices
        )


def test_a_record_that_took_on_another_number_is_left_out_and_told(tmp_path: Path, attempt: Any) -> None:
    made = [attempt(day=day) for day in range(2)]
    with AttemptStore.open(tmp_path) as store:
        store.merge(made)
        changed(tmp_path, "UPDATE attempts SET uuid = ? WHERE uuid = ?", "0" * 32, made[0].uuid.hex)
        assert store.attempts("Ilva") == (made[1],)
        assert any(
            "cannot read one record in the file of your progress and leaves it out" in notice
            for notice in store.notices
        )


@pytest.mark.parametrize("line", [7, b"{}", "{}"])
def test_a_record_of_another_kind_is_left_out(tmp_path: Path, attempt: Any, line: object) -> None:
    made = [attempt(day=day) for day in range(2)]
    with AttemptStore.open(tmp_path) as store:
        store.merge(made)
        changed(tmp_path, "UPDATE attempts SET line = ? WHERE uuid = ?", line, made[0].uuid.hex)
        assert store.attempts("Ilva") == (made[1],)


def test_a_name_that_is_no_name_any_more_is_left_out(tmp_path: Path) -> None:
    with AttemptStore.open(tmp_path) as store:
        store.add_learner("Ravi")
        changed(tmp_path, "UPDATE learners SET name = CAST(x'52ff' AS TEXT) WHERE name = 'Ravi'")
        assert store.learners() == ("Guest",)


def test_practice_goes_on_without_a_record_that_cannot_be_read(tmp_path: Path, attempt: Any) -> None:
    made = [attempt(case.slug, day) for day in range(3) for case in CASES[:4]]
    now = made[-1].time + timedelta(days=1)
    with AttemptStore.open(tmp_path) as store:
        store.merge(made)
        changed(tmp_path, "UPDATE attempts SET line = '{' WHERE uuid = ?", made[5].uuid.hex)
        study = load_study(store, "Ilva", now)
        assert study.cards == Study.of([*made[:5], *made[6:]], now).cards
        assert any(
            "cannot read one record in the file of your progress and leaves it out" in notice
            for notice in store.notices
        )


def test_what_is_saved_from_a_damaged_file_leaves_out_only_what_is_broken(
    tmp_path: Path, attempt: Any, clock: Any
) -> None:
    made = [attempt(day=day) for day in range(5)]
    with AttemptStore.open(tmp_path, clock) as store:
        store.merge(made)
    broken = "UPDATE attempts SET line = CAST(x'7b22ff7d' AS TEXT) WHERE uuid = ?"
    changed(tmp_path, broken, made[2].uuid.hex)
    content = bytearray((tmp_path / FILE).read_bytes())
    # The root page of an index, past the attempts: found damaged, while the attempts are readable.
    with closing(sqlite3.connect(tmp_path / FILE)) as file:
        (size,) = file.execute("PRAGMA page_size").fetchone()
        of_index = "FROM sqlite_schema WHERE name = 'attempts_by_time'"
        (page,) = file.execute(f"SELECT rootpage {of_index}").fetchone()
    content[(page - 1) * size : page * size] = random.Random(4).randbytes(size)
    (tmp_path / FILE).write_bytes(content)
    with AttemptStore.open(tmp_path, clock) as store:
        assert store.attempts("Ilva") == (*made[:2], *made[3:])
        assert any("was damaged" in notice for notice in store.notices)


def set_aside_and_restored(folder: Path, made: list[AttemptRecord], clock: Any) -> None:
    """Read a store that is damaged in a way seen late or hardly: nothing raised, told, nothing lost."""
    with AttemptStore.open(folder, clock) as store:
        assert store.attempts("Ilva") == tuple(made)
        assert any("was damaged" in notice for notice in store.notices)


def test_an_index_that_points_nowhere_is_found_when_it_is_used(
    tmp_path: Path, attempt: Any, clock: Any
) -> None:
    made = [attempt(day=day) for day in range(5)]
    with AttemptStore.open(tmp_path, clock) as store:
        store.merge(made)
        store.back_up()
    ours = "FROM sqlite_schema WHERE name = 'attempts_by_time'"
    # Rows are taken away while the index is out of sight, so that it goes on pointing to them.
    with closing(sqlite3.connect(tmp_path / FILE, isolation_level=None)) as file:
        entry = file.execute(f"SELECT type, name, tbl_name, rootpage, sql {ours}").fetchone()
        file.execute("PRAGMA writable_schema = ON")
        file.execute(f"DELETE {ours}")
    with closing(sqlite3.connect(tmp_path / FILE, isolation_level=None)) as file:
        file.execute("DELETE FROM attempts WHERE uuid = ?", (made[2].uuid.hex,))
        file.execute("PRAGMA writable_schema = ON")
        file.execute("INSERT INTO sqlite_schema VALUES (?, ?, ?, ?, ?)", entry)
    set_aside_and_restored(tmp_path, made, clock)


@pytest.mark.parametrize(
    ("written", "instead"),
    [(b"line TEXT", b"lime TEXT"), (b"line TEXT", b"lin\xd5 TEXT"), (b"CREATE", b"CR\xd5ATE")],
)
def test_tables_that_are_called_otherwise_are_damage(
    tmp_path: Path, attempt: Any, clock: Any, written: bytes, instead: bytes
) -> None:
    made = [attempt(day=day) for day in range(5)]
    with AttemptStore.open(tmp_path, clock) as store:
        store.merge(made)
        store.back_up()
    content = (tmp_path / FILE).read_bytes()
    assert written in content
    (tmp_path / FILE).write_bytes(content.replace(written, instead, 1))
    set_aside_and_restored(tmp_path, made, clock)


def test_tables_without_a_version_are_damage(tmp_path: Path, attempt: Any, clock: Any) -> None:
    made = [attempt(day=day) for day in range(5)]
    with AttemptStore.open(tmp_path, clock) as store:
        store.merge(made)
        store.back_up()
    with closing(sqlite3.connect(tmp_path / FILE)) as file:
        file.execute("PRAGMA user_version = 0")
    set_aside_and_restored(tmp_path, made, clock)
