"""Where the progress file lies on Windows; the forms of addresses are SQLite's own (sqlite.org/uri.html)."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path, PureWindowsPath

import pytest

from tutor.progress import connection
from tutor.progress.backup import FILE
from tutor.progress.file_address import file_address, is_elsewhere
from tutor.progress.store import AttemptStore

SHARE = PureWindowsPath(r"\\club\files\a b\progress.sqlite")
ADDRESSES = {
    SHARE: "file:////club/files/a%20b/progress.sqlite",
    PureWindowsPath(r"C:\Users\ilva\progress.sqlite"): "file:///C:/Users/ilva/progress.sqlite",
}


def test_a_path_on_another_machine_has_four_slashes() -> None:
    assert {path: file_address(path) for path in ADDRESSES} == ADDRESSES


def test_what_sqlite_takes_for_a_machine_it_refuses_and_four_slashes_it_takes(tmp_path: Path) -> None:
    (tmp_path / "a").touch()
    plain = file_address(tmp_path / "a")
    with pytest.raises(sqlite3.OperationalError, match="authority"):
        sqlite3.connect(plain.replace("file:///", "file://club/", 1), uri=True)
    with closing(sqlite3.connect(plain.replace("file:///", "file:////", 1), uri=True)) as opened:
        assert opened.execute("SELECT 1").fetchone() == (1,)


def test_drives_of_other_machines_are_told_by_the_system() -> None:
    asked: list[str] = []

    def drive_type(root: str) -> int:
        asked.append(root)
        return {"Z:\\": 4}.get(root, 3)

    paths = (SHARE, PureWindowsPath(r"Z:\club\progress.sqlite"), PureWindowsPath(r"C:\progress.sqlite"))
    assert [is_elsewhere(path, drive_type) for path in paths] == [True, True, False]
    assert asked == ["Z:\\", "C:\\"]
    assert not is_elsewhere(Path("/home/ilva"))


@pytest.mark.parametrize(("elsewhere", "mode"), [(True, "delete"), (False, "wal")])
def test_on_another_machine_there_is_no_write_ahead_log(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, elsewhere: bool, mode: str
) -> None:
    # A file that had one before loses it.
    AttemptStore.open(tmp_path).close()
    monkeypatch.setattr(connection, "is_elsewhere", lambda _: elsewhere)
    AttemptStore.open(tmp_path).close()
    with closing(sqlite3.connect(tmp_path / FILE)) as opened:
        assert opened.execute("PRAGMA journal_mode").fetchone() == (mode,)
