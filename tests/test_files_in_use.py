"""Files as Windows keeps them: what this process has open or mapped is not renamed, replaced or removed.

Which files those are Linux tells itself (proc(5): /proc/self/fd and /proc/self/maps). What Windows answers is
from its list of system error codes (learn.microsoft.com, "System Error Codes").
"""

from __future__ import annotations

import gc
import logging
import os
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from random import Random
from typing import Any

import numpy as np
import pytest

from tests.progress.conftest import AttemptMaker
from tutor.app.files import log
from tutor.atomic_file import put_in_place, replacing, tidy_away, write_new, write_whole
from tutor.progress.backup import FILE
from tutor.progress.store import AttemptStore
from tutor.progress.words import in_memory_only
from tutor.solver.store import NoticeKind, Store, write_table

ACCESS_DENIED, SHARING_VIOLATION = 5, 32


def held(path: str | os.PathLike[str]) -> bool:
    """Whether this process has the file open or mapped."""
    wanted = os.path.realpath(path)
    open_now = []
    for number in Path("/proc/self/fd").iterdir():
        with suppress(OSError):
            open_now.append(str(number.readlink()))
    mapped = (line.split(maxsplit=5)[-1] for line in Path("/proc/self/maps").read_text().splitlines())
    return wanted in open_now or wanted in mapped


def refused(path: str | os.PathLike[str], number: int = SHARING_VIOLATION) -> PermissionError:
    """The system's refusal, as Python raises it there."""
    fault = PermissionError(13, "The process cannot access the file", str(path))
    fault.winerror = number  # type: ignore[attr-defined]
    return fault


@pytest.fixture(autouse=True)
def _files_in_use(monkeypatch: pytest.MonkeyPatch) -> None:
    """Here files are held as long as they are open."""
    monkeypatch.setattr("tutor.solver.store.HELD_WHILE_OPEN", True)
    monkeypatch.setattr("tutor.atomic_file.PATIENCE", 0.0)
    for name, ends in (("rename", 2), ("replace", 2), ("unlink", 1), ("remove", 1)):
        monkeypatch.setattr(os, name, _guarded(getattr(os, name), ends))


def _guarded(act: Callable[..., Any], ends: int) -> Callable[..., Any]:
    def guarded(*paths: str, **where: Any) -> Any:
        folder = where.get("dir_fd")
        for path in paths[:ends]:
            full = path if folder is None else Path(f"/proc/self/fd/{folder}") / path
            if held(full):
                raise refused(path)
        return act(*paths, **where)

    return guarded


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_what_a_scanner_holds_for_a_moment_is_replaced_all_the_same(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_whole(tmp_path / "a", b"first")
    scanner = (tmp_path / "a").open("rb")
    tries: list[float] = []

    def pause(seconds: float) -> None:
        tries.append(seconds)
        if len(tries) == 2:
            scanner.close()

    monkeypatch.setattr("tutor.atomic_file.PATIENCE", 600.0)
    monkeypatch.setattr("tutor.atomic_file.sleep", pause)
    write_whole(tmp_path / "a", b"second")
    assert (tmp_path / "a").read_bytes() == b"second"
    assert len(tries) == 2
    assert names(tmp_path) == ["a"]


def test_what_is_held_for_long_stays_and_the_fault_is_the_systems(tmp_path: Path) -> None:
    write_whole(tmp_path / "a", b"first")
    refusal = pytest.raises(PermissionError, match="cannot access")
    with (tmp_path / "a").open("rb"), refusal, replacing(tmp_path / "a") as beside:
        beside.write_bytes(b"second")
    assert (tmp_path / "a").read_bytes() == b"first"
    assert names(tmp_path) == ["a"]


def test_where_a_folder_cannot_be_written_nobody_waits(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(os, "replace", refuse)
    monkeypatch.setattr("tutor.atomic_file.sleep", lambda _: pytest.fail("it waits"))
    with pytest.raises(PermissionError):
        put_in_place(tmp_path / "a", tmp_path / "b")


def test_a_file_that_was_written_is_so_even_when_what_lies_beside_it_is_held(tmp_path: Path) -> None:
    held_by_a_scanner: list[Any] = []

    def write(beside: Path) -> None:
        beside.write_bytes(b"whole")
        held_by_a_scanner.append(beside.open("rb"))

    made = write_new(tmp_path, "case", ".png", write)
    assert made.read_bytes() == b"whole"
    held_by_a_scanner[0].close()
    tidy_away(tmp_path / ".case")


TABLE = np.arange(5000, dtype=np.int32)


def test_of_two_first_starts_the_later_takes_the_table_that_is_there(tmp_path: Path) -> None:
    first, second = Store(tmp_path), Store(tmp_path)
    mapped = first.save("table", TABLE)
    assert isinstance(mapped.base, np.memmap)
    taken = second.save("table", TABLE)
    assert np.array_equal(taken, TABLE)
    assert isinstance(taken.base, np.memmap)
    assert second.notices == []
    assert names(tmp_path) == ["table.table"]


def test_a_damaged_table_that_somebody_uses_gives_way_to_one_in_memory(tmp_path: Path) -> None:
    write_table(tmp_path / "table.table", "table", TABLE)
    in_use = Store(tmp_path).load("table")
    with (tmp_path / "table.table").open("r+b") as file:
        file.seek(-1, os.SEEK_END)
        file.write(b"x")
    store = Store(tmp_path)
    assert np.array_equal(store.get("table", lambda: TABLE), TABLE)
    assert [notice.kind for notice in store.notices] == [NoticeKind.DAMAGED, NoticeKind.READ_ONLY]
    assert names(tmp_path) == ["table.table"]
    del in_use


def test_a_temporary_folder_for_tables_can_be_removed_while_they_are_used(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    store = Store(tmp_path / "file" / "tables")
    kept, spare = store.get("table", lambda: TABLE), store.spare
    again = store.load("table")
    assert again is not None
    assert spare is not None
    del store
    gc.collect()
    assert not spare.exists()
    assert np.array_equal(kept, TABLE)
    assert np.array_equal(again, TABLE)


def damage(store: AttemptStore, file: Path) -> None:
    store._connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    # What the library still holds in memory would hide the damage for a while.
    store._connection.execute("PRAGMA shrink_memory")
    with file.open("r+b") as opened:
        opened.write(Random(5).randbytes(file.stat().st_size))


def test_a_store_damaged_while_it_is_open_is_set_aside(tmp_path: Path) -> None:
    attempt = AttemptMaker()
    old, new = [attempt(day=number / 100) for number in range(60)], attempt(day=1)
    with AttemptStore.open(tmp_path) as store:
        store.merge(old)
        damage(store, tmp_path / FILE)
        assert store.record(new)
        assert new in store.attempts()
    assert list(tmp_path.glob("progress-damaged-*.sqlite"))


def test_a_damaged_store_that_a_second_window_holds_goes_on_in_memory(tmp_path: Path) -> None:
    attempt = AttemptMaker()
    old, new = [attempt(day=number / 100) for number in range(60)], attempt(day=1)
    with AttemptStore.open(tmp_path) as store:
        store.merge(old)
        damage(store, tmp_path / FILE)
        with (tmp_path / FILE).open("rb"):
            assert not store.record(new)
            assert store.attempts()[-1] == new
            reason = "The process cannot access the file"
            assert store.notices[0] == in_memory_only(tmp_path, reason)
        # Once the other window has let go of it, all is written.
        assert store.retry()
    with AttemptStore.open(tmp_path) as store:
        assert new in store.attempts()


def test_a_log_that_a_second_window_holds_goes_on_in_the_same_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(log, "LARGEST", 2000)
    begun = log.start_log(tmp_path)
    logger = logging.getLogger("tests.two_windows")
    try:
        with (tmp_path / log.FILE).open("a"):
            for number in range(40):
                logger.warning("a line of some length that fills the file, number %d", number)
            assert "number 39" in (tmp_path / log.FILE).read_text()
            assert names(tmp_path) == [log.FILE]
        logger.warning("the last")
        assert names(tmp_path) == [log.FILE, f"{log.FILE}.1"]
    finally:
        log.stop_log(begun)
    assert capsys.readouterr().err == ""
