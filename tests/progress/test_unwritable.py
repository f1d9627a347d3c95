"""A full disk, a closed folder, a locked file: the session goes on and nothing is lost."""

import json
import sqlite3
import subprocess
import sys
import tempfile
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from tutor.progress.attempt import AttemptRecord
from tutor.progress.backup import FILE
from tutor.progress.interchange import format_line, parse_line
from tutor.progress.store import AttemptStore, StoreError


def filled(folder: Path, attempts: list[AttemptRecord], clock: Any) -> None:
    with AttemptStore.open(folder, clock) as store:
        store.merge(attempts)


def run(program: str, *arguments: str) -> dict[str, Any]:
    """Run a program in a process of its own; the JSON object it prints."""
    done = subprocess.run(
        [sys.executable, "-c", program, *arguments], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    told: dict[str, Any] = json.loads(done.stdout)
    return told


DISK_FULL = """
import json, resource, signal, sys
from pathlib import Path
from tutor.progress.interchange import parse_line
from tutor.progress.store import AttemptStore
lines = sys.argv[2:]
store = AttemptStore.open(Path(sys.argv[1]))
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
# Writing beyond this size fails from now on, as on a full disk (setrlimit(2), RLIMIT_FSIZE).
resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, resource.RLIM_INFINITY))
kept = [store.record(parse_line(line)) for line in lines]
waiting, notices, seen = len(store.waiting), store.notices, len(store.attempts())
resource.setrlimit(resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY, resource.RLIM_INFINITY))
after = store.retry()
told = {"kept": kept, "waiting": waiting, "notices": notices, "seen": seen, "after": after}
print(json.dumps(told | {"still": len(store.waiting), "notices_after": store.notices}))
"""


def test_on_a_full_disk_attempts_are_kept_in_memory_and_written_when_there_is_room(
    tmp_path: Path, attempt: Any
) -> None:
    made = [attempt(day=number / 100) for number in range(30)]
    told = run(DISK_FULL, str(tmp_path), *(format_line(each) for each in made))
    assert told["kept"][-1] is False
    assert told["waiting"] > 0
    assert told["seen"] == len(made)
    assert f"{told['waiting']} attempts are not saved yet" in told["notices"][-1]
    assert (told["after"], told["still"], told["notices_after"]) == (True, 0, [])
    with AttemptStore.open(tmp_path) as store:
        assert store.attempts() == tuple(made)


FIRST_TABLES_ON_A_FULL_DISK = """
import json, resource, signal, sqlite3, sys
from pathlib import Path
from tutor.progress.schema import migrate
path = Path(sys.argv[1])
connection = sqlite3.connect(path, isolation_level=None)
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
resource.setrlimit(resource.RLIMIT_FSIZE, (4096, resource.RLIM_INFINITY))
try:
    migrate(connection, path)
except sqlite3.Error as fault:
    print(json.dumps({"fault": fault.sqlite_errorname, "open": connection.in_transaction}))
"""


def test_a_commit_that_fails_is_told_by_its_own_fault(tmp_path: Path) -> None:
    # SQLite ends the transaction itself on such a fault (sqlite.org/lang_transaction.html, section 3), so a
    # ROLLBACK would be the next fault.
    told = run(FIRST_TABLES_ON_A_FULL_DISK, str(tmp_path / FILE))
    assert told == {"fault": "SQLITE_IOERR_WRITE", "open": False}


READ_ONLY = """
import json, os, sys
from pathlib import Path
from tutor.progress.interchange import parse_line
from tutor.progress.store import AttemptStore, StoreError
folder = Path(sys.argv[1])
folder.chmod(0o555)
if os.getuid() == 0:
    os.setuid(65534)  # rights do not bind the superuser
store = AttemptStore.open(folder)
first = store.record(parse_line(sys.argv[2]))
try:
    store.merge([parse_line(sys.argv[3])])
    refused = ""
except StoreError as fault:
    refused = str(fault)
told = {"first": first, "seen": len(store.attempts())}
print(json.dumps(told | {"notices": store.notices, "refused": refused}))
"""


def test_in_a_folder_that_cannot_be_written_the_session_goes_on(open_folder: Path, attempt: Any) -> None:
    old, new, other = attempt(), attempt(day=1), attempt(day=2)
    filled(open_folder, [old], lambda: old.time)
    before = (open_folder / FILE).read_bytes()
    told = run(READ_ONLY, str(open_folder), format_line(new), format_line(other))
    assert told["first"] is False
    assert told["seen"] == 2
    assert f"cannot save your progress in {open_folder}" in told["notices"][0]
    assert "One attempt is not saved yet" in told["notices"][-1]
    assert "cannot write in the folder" in told["refused"]
    assert (open_folder / FILE).read_bytes() == before


LOCKED = """
import json, os, sys
from pathlib import Path
from tutor.progress.interchange import parse_line
from tutor.session.record_commands import OpenRecords, Record
from tutor.workers.recorder import Recorder
home, locked = Path(sys.argv[1]), Path(sys.argv[1], "locked")
os.environ["HOME"] = str(home)
locked.mkdir(0o000)
if os.getuid() == 0:
    os.setuid(65534)  # rights do not bind the superuser
recorder = Recorder(locked)
opened = recorder.carry_out(OpenRecords("Ilva")).standing
recorded = recorder.carry_out(Record(parse_line(sys.argv[2])))
told = {"opened": opened.notices, "saved": recorded.saved, "recorded": recorded.standing.notices}
print(json.dumps(told | {"seen": len(recorder.store.attempts()), "closed": recorder.close()}))
"""


def test_in_a_folder_that_may_not_be_looked_into_attempts_are_kept_and_rescued(
    open_folder: Path, attempt: Any
) -> None:
    made = attempt()
    told = run(LOCKED, str(open_folder), format_line(made))
    assert f"cannot save your progress in {open_folder / 'locked'}" in told["opened"][0]
    assert (told["saved"], told["seen"]) == (False, 1)
    assert "One attempt is not saved yet" in told["recorded"][-1]
    (rescued,) = open_folder.glob("pairwright-attempts-*.jsonl")
    assert [parse_line(line) for line in rescued.read_text(encoding="utf-8").splitlines()] == [made]
    assert f"progress import {rescued}" in told["closed"][-1]


def test_once_the_folder_can_be_written_what_waited_is_written(tmp_path: Path, attempt: Any) -> None:
    blocked = tmp_path / "folder"
    blocked.write_text("a file where the folder should be", encoding="utf-8")
    first, second = attempt(), attempt(day=1)
    with AttemptStore.open(blocked) as store:
        assert not store.record(first)
        assert store.attempts() == (first,)
        assert store.learners() == ("Guest", "Ilva")
        with pytest.raises(StoreError):
            store.reset()
        blocked.unlink()
        assert store.record(second)
        assert store.notices == ()
    with AttemptStore.open(blocked) as store:
        assert store.attempts() == (first, second)


@pytest.mark.parametrize("home", [".", "gone"])
def test_what_cannot_be_written_to_the_end_is_put_where_it_can_be_taken_in_from(
    tmp_path: Path, attempt: Any, monkeypatch: pytest.MonkeyPatch, home: str
) -> None:
    blocked = tmp_path / "folder"
    blocked.write_text("a file where the folder should be", encoding="utf-8")
    # A person's own folder first: not every system clears it as it clears the one for temporary files.
    monkeypatch.setenv("HOME", str(tmp_path / home))
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "gone" if home == "." else tmp_path))
    made = [attempt(), attempt(day=1)]
    store = AttemptStore.open(blocked)
    for each in made:
        store.record(each)
    store.close()
    (rescued,) = tmp_path.glob("pairwright-attempts-*.jsonl")
    assert [parse_line(line) for line in rescued.read_text(encoding="utf-8").splitlines()] == made
    assert f"progress import {rescued}" in store.notices[-1]


def test_a_waiting_attempt_can_be_undone(tmp_path: Path, attempt: Any) -> None:
    blocked = tmp_path / "folder"
    blocked.write_text("a file where the folder should be", encoding="utf-8")
    made = attempt()
    with AttemptStore.open(blocked) as store:
        store.record(made)
        assert store.undo(made.uuid)
        assert (store.attempts(), store.waiting) == ((), ())


def test_a_store_locked_for_long_keeps_the_attempt_in_memory(
    tmp_path: Path, attempt: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tutor.progress.connection.BUSY_SECONDS", 0.05)
    made = attempt()
    with AttemptStore.open(tmp_path) as store, closing(sqlite3.connect(tmp_path / FILE)) as other:
        other.execute("BEGIN IMMEDIATE")
        assert not store.record(made)
        assert "locked" in store.notices[0]
        other.execute("ROLLBACK")
        assert store.retry()
        assert store.attempts() == (made,)


def test_what_cannot_be_taken_in_is_refused_as_a_whole(tmp_path: Path, attempt: Any) -> None:
    attempts = [attempt(), attempt()]
    with AttemptStore.open(tmp_path) as store, closing(sqlite3.connect(tmp_path / FILE)) as other:
        other.execute(
            f"CREATE TRIGGER full BEFORE INSERT ON attempts WHEN NEW.uuid = '{attempts[-1].uuid.hex}' "
            "BEGIN SELECT RAISE(ABORT, 'no room'); END"
        )
        with pytest.raises(StoreError, match="no room"):
            store.merge(attempts)
        assert store.attempts() == ()
