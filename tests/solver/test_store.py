"""Tables on disk: whole or not there, checked, shared, and never in the way when they cannot be written."""

from __future__ import annotations

import multiprocessing
import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from tutor.solver import store as store_module
from tutor.solver.store import NoticeKind, Store, TableError, default_folder, read_table, write_table

TABLE = np.arange(30_000, dtype=np.int32).reshape(-1, 3)


def build_a_table(folder: Path, seed: int) -> None:
    """What a second process does in the test of two builders; the table does not depend on who makes it."""
    store = Store(folder)
    for _ in range(20):
        store.save("table", TABLE)
        kept = store.load("table")
        if kept is None or not np.array_equal(kept, TABLE) or store.notices:
            os._exit(seed)


@pytest.fixture
def stored(tmp_path: Path) -> Path:
    write_table(tmp_path / "table.table", "table", TABLE)
    return tmp_path / "table.table"


def made_again(path: Path) -> list[NoticeKind]:
    """Ask for the table at a path; it must be right, and right on disk afterwards."""
    store = Store(path.parent)
    assert np.array_equal(store.get("table", lambda: TABLE), TABLE)
    assert np.array_equal(read_table(path, "table"), TABLE)
    return [notice.kind for notice in store.notices]


def test_a_table_comes_back_as_it_was_and_cannot_be_written_to(stored: Path) -> None:
    table = read_table(stored, "table")
    assert np.array_equal(table, TABLE)
    assert table.dtype == TABLE.dtype
    with pytest.raises(ValueError, match="read-only"):
        table[0, 0] = 1
    assert isinstance(table.base, np.memmap)


def test_a_stored_table_is_not_built_again(stored: Path) -> None:
    def never() -> np.ndarray[tuple[int, ...], np.dtype[np.int32]]:
        raise AssertionError

    assert np.array_equal(Store(stored.parent).get("table", never), TABLE)


@pytest.mark.parametrize("size", [0, 10, 4095, 4096, 5000, -1])
def test_a_truncated_table_is_made_again_and_said_so(stored: Path, size: int) -> None:
    whole = stored.stat().st_size
    with stored.open("r+b") as file:
        file.truncate(size if size >= 0 else whole - 1)
    assert made_again(stored) == [NoticeKind.DAMAGED]


@pytest.mark.parametrize("place", [0, 40, 4096, 60_000])
def test_a_changed_byte_is_noticed(stored: Path, place: int) -> None:
    content = bytearray(stored.read_bytes())
    content[place] ^= 0x55
    stored.write_bytes(bytes(content))
    assert made_again(stored) in ([NoticeKind.DAMAGED], [NoticeKind.OUTDATED])


def test_no_changed_byte_of_the_first_line_gives_another_table(stored: Path) -> None:
    whole = stored.read_bytes()
    for place in range(whole.index(b"\n") + 1):
        for byte in b'0e-,<>u]" ':
            stored.write_bytes(whole[:place] + bytes((byte,)) + whole[place + 1 :])
            try:
                table = read_table(stored, "table")
            except TableError:
                continue
            assert np.array_equal(table, TABLE)
            assert table.dtype == TABLE.dtype


@pytest.mark.parametrize(
    "content", [b"", b"garbage", b"{}", b"[1, 2]\n", b"\xff" * 9000, b"null" + b" " * 5000]
)
def test_garbage_is_made_again_and_said_so(stored: Path, content: bytes) -> None:
    stored.write_bytes(content)
    assert made_again(stored) == [NoticeKind.DAMAGED]


def test_a_table_of_another_version_is_made_again(stored: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(store_module, "TABLE_VERSION", store_module.TABLE_VERSION + 1)
    assert made_again(stored) == [NoticeKind.OUTDATED]
    monkeypatch.undo()
    with pytest.raises(TableError, match="it has version 2, and this program uses version 1"):
        read_table(stored, "table")


def test_a_table_under_another_name_is_not_taken_for_it(stored: Path) -> None:
    stored.rename(stored.with_name("other.table"))
    with pytest.raises(TableError, match="it holds another table than its name says"):
        read_table(stored.with_name("other.table"), "other")


def test_what_was_half_written_when_a_process_died_is_not_seen(tmp_path: Path) -> None:
    (tmp_path / ".table-abc.part").write_bytes(b"half")
    store = Store(tmp_path)
    assert store.load("table") is None
    assert store.notices == []


def test_a_failed_write_leaves_the_old_table_and_nothing_beside_it(
    stored: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space"):
        write_table(stored, "table", TABLE + 1)
    assert [path.name for path in stored.parent.iterdir()] == ["table.table"]
    assert np.array_equal(read_table(stored, "table"), TABLE)
    store = Store(stored.parent / "elsewhere")
    assert np.array_equal(store.save("new", TABLE), TABLE)
    assert [notice.kind for notice in store.notices] == [NoticeKind.READ_ONLY]


@pytest.fixture
def unwritable(tmp_path: Path) -> Path:
    """A folder that cannot be made, not even by the superuser: a file is in its way."""
    (tmp_path / "file").write_text("in the way")
    return tmp_path / "file" / "tables"


def test_a_folder_that_cannot_be_written_gives_way_to_a_temporary_one(unwritable: Path) -> None:
    store = Store(unwritable)
    kept = store.get("table", lambda: TABLE)
    assert isinstance(kept.base, np.memmap)
    assert store.spare is not None
    sharing = Store(unwritable, store.spare).load("table")
    assert np.array_equal(sharing, TABLE)  # type: ignore[arg-type]
    assert [notice.kind for notice in store.notices] == [NoticeKind.READ_ONLY]
    spare = store.spare
    del kept, store
    assert not spare.exists()


def test_with_no_place_to_write_at_all_tables_stay_in_memory(
    unwritable: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(**options: str) -> str:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("tempfile.mkdtemp", refuse)
    store = Store(unwritable)
    assert store.get("table", lambda: TABLE) is TABLE
    assert [notice.kind for notice in store.notices] == [NoticeKind.READ_ONLY]


LOCKED = """
import mmap, os, sys  # mmap here, since the superuser's Python may be out of reach once numpy asks for it
from pathlib import Path
import numpy as np
from tutor.solver.store import Store
locked, spare = Path(sys.argv[1], "locked"), Path(sys.argv[1], "spare")
locked.mkdir()
locked.chmod(0)
spare.mkdir()
spare.chmod(0o777)
if os.getuid() == 0:
    os.setuid(65534)  # rights do not bind the superuser
store = Store(locked, spare)
before = store.has("table")
store.save("table", np.arange(9))
print(before, store.has("table"), *(notice.kind.value for notice in store.notices))
"""


def test_a_folder_that_may_not_be_looked_into_gives_way_to_a_temporary_one(open_folder: Path) -> None:
    command = [sys.executable, "-c", LOCKED, str(open_folder)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.stdout.split() == ["False", "True", "read-only"], done.stderr


def test_two_processes_may_build_at_once(tmp_path: Path) -> None:
    context = multiprocessing.get_context("spawn")
    builders = [context.Process(target=build_a_table, args=(tmp_path, seed)) for seed in (1, 2)]
    for builder in builders:
        builder.start()
    for builder in builders:
        builder.join(60)
    assert [builder.exitcode for builder in builders] == [0, 0]
    assert [path.name for path in tmp_path.iterdir()] == ["table.table"]


def test_tables_are_kept_in_the_users_cache_folder(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setattr("platformdirs.user_cache_dir", lambda name, appauthor: str(tmp_path / name))
    assert default_folder() == tmp_path / "pairwright" / "tables"
    assert Store().folder == default_folder()
