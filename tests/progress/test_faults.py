"""Nothing is lost: killed processes, damaged files, full disks, closed folders, newer files."""

import json
import random
import shutil
import signal
import sqlite3
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from tutor.progress import schema
from tutor.progress.attempt import Attempt
from tutor.progress.forms import format_line, parse_line
from tutor.progress.results import results_of
from tutor.progress.safekeeping import BACKUPS, FILE, daily_backups
from tutor.progress.schema import NewerStoreError
from tutor.progress.store import Store, StoreError

# ----------------------------------------------------------------------------------------------------- killed

RECORD_UNTIL_KILLED = """
import sys
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path
from tutor.cube.position import Slot
from tutor.method.cases import CASES
from tutor.progress.attempt import Attempt, Mode, Outcome
from tutor.progress.store import Store
store = Store.open(Path(sys.argv[1]))
print("open", flush=True)
for index in count():
    time = datetime(2026, 3, 3, tzinfo=UTC) + timedelta(seconds=index)
    case = CASES[index % 41].slug
    attempt = Attempt("Ilva", time, case, Slot.BL, 0, Mode.DUE, Outcome.HOME, 3, 3, 4.0)
    print("begun", attempt.uuid.hex, flush=True)
    if store.record(attempt):
        print("kept", attempt.uuid.hex, flush=True)
"""


def killed_after(folder: Path, seconds: float) -> tuple[set[str], set[str]]:
    """Record in a process of its own and kill it so long after it opened; what it began and said it kept."""
    writer = subprocess.Popen(
        [sys.executable, "-c", RECORD_UNTIL_KILLED, str(folder)], stdout=subprocess.PIPE, text=True
    )
    assert writer.stdout is not None
    assert writer.stdout.readline() == "open\n"
    # The pipe holds 64 KiB at least, about a thousand attempts; nobody needs to empty it so soon.
    time.sleep(seconds)
    writer.send_signal(signal.SIGKILL)
    said = writer.stdout.read()
    assert writer.wait() == -signal.SIGKILL
    writer.stdout.close()
    words = [
        line.split() for line in said.splitlines() if line.count(" ") == 1 and len(line.split()[1]) == 32
    ]
    return {word for what, word in words if what == "begun"}, {word for what, word in words if what == "kept"}


def kill_again_and_again(folder: Path, times: int) -> int:
    drawn = random.Random(7)
    begun: set[str] = set()
    kept: set[str] = set()
    for _ in range(times):
        more_begun, more_kept = killed_after(folder, drawn.uniform(0.0, 0.06))
        begun |= more_begun
        kept |= more_kept
    with Store.open(folder) as store:
        found = {attempt.uuid.hex for attempt in store.attempts()}
        # Nothing that was said to be kept is missing, nothing is there that nobody made, and it adds up.
        assert kept <= found <= begun
        assert store.notices == ()
        assert len(store.results("Ilva")) == len(found)
    with closing(sqlite3.connect(folder / FILE)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    assert not list(folder.glob("*damaged*"))
    return len(kept)


def test_a_process_killed_ten_times_loses_no_finished_attempt(tmp_path: Path) -> None:
    assert kill_again_and_again(tmp_path, 10) > 0


@pytest.mark.slow
def test_a_process_killed_two_hundred_times_loses_no_finished_attempt(tmp_path: Path) -> None:
    kept = kill_again_and_again(tmp_path, 200)
    print(f"{kept} attempts were kept, none was lost")
    assert kept > 200


# ---------------------------------------------------------------------------------------------------- damaged


def filled(folder: Path, attempts: list[Attempt], clock: Any) -> None:
    with Store.open(folder, clock) as store:
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
    Store.open(tmp_path, clock).close()
    new = [attempt(day=1 + number / 100) for number in range(20)]
    filled(tmp_path, new, clock)
    path = tmp_path / FILE
    broken = damage(path.read_bytes())
    path.write_bytes(broken)

    with Store.open(tmp_path, clock) as store:
        found = store.attempts()
        assert set(old) <= set(found) <= {*old, *new}
        assert store.results("Ilva").tobytes() == results_of(found).tobytes()
        (notice,) = store.notices
        assert "backup progress-2026-03-04.sqlite" in notice
        (aside,) = tmp_path.glob("progress-damaged-2026-03-04-183000.sqlite")
        assert aside.name in notice
        assert aside.read_bytes() == broken
        assert store.record(attempt(day=2))
    with Store.open(tmp_path, clock) as store:
        assert store.notices == ()
        assert len(store.attempts()) == len(found) + 1


def test_damage_without_a_backup_starts_afresh_and_says_so(tmp_path: Path, attempt: Any, clock: Any) -> None:
    (tmp_path / FILE).write_bytes(b"no database at all " * 500)
    with Store.open(tmp_path, clock) as store:
        assert store.attempts() == ()
        assert "an empty one" in store.notices[0]
        assert store.record(attempt())


def test_what_can_still_be_read_of_a_damaged_file_is_saved(tmp_path: Path, attempt: Any, clock: Any) -> None:
    made = [attempt(day=number / 100) for number in range(200)]
    filled(tmp_path, made, clock)
    path = tmp_path / FILE
    content = path.read_bytes()
    path.write_bytes(content[: len(content) * 3 // 4 // 4096 * 4096])
    with Store.open(tmp_path, clock) as store:
        assert 0 < len(store.attempts()) < len(made)
        assert set(store.attempts()) <= set(made)
        assert "still readable" in store.notices[0]


def test_a_damaged_backup_is_passed_over_for_an_older_one(tmp_path: Path, attempt: Any, clock: Any) -> None:
    old = attempt()
    filled(tmp_path, [old], clock)
    Store.open(tmp_path, clock).close()
    clock.go_on(days=1)
    Store.open(tmp_path, clock).close()
    daily_backups(tmp_path)[0].write_bytes(b"garbage" * 1000)
    (tmp_path / FILE).write_bytes(b"garbage" * 1000)
    with Store.open(tmp_path, clock) as store:
        assert store.attempts() == (old,)
        assert "progress-2026-03-03.sqlite" in store.notices[0]


def test_a_file_that_is_gone_comes_back_from_the_backup(tmp_path: Path, attempt: Any, clock: Any) -> None:
    filled(tmp_path, [attempt()], clock)
    Store.open(tmp_path, clock).close()
    (tmp_path / FILE).unlink()
    with Store.open(tmp_path, clock) as store:
        assert len(store.attempts()) == 1
        assert "was gone" in store.notices[0]


def test_damage_while_the_program_runs_loses_no_attempt_made_after(
    tmp_path: Path, attempt: Any, clock: Any
) -> None:
    old = [attempt(day=number / 100) for number in range(60)]
    filled(tmp_path, old, clock)
    with Store.open(tmp_path, clock) as store:
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
    with Store.open(tmp_path) as store:
        store.merge(made)
        with closing(sqlite3.connect(tmp_path / FILE)) as connection:
            connection.execute("UPDATE attempts SET line = '{' WHERE uuid = ?", (made[0].uuid.hex,))
            connection.commit()
        assert store.attempts() == (made[1],)
        assert "1 record in the file of your progress cannot be read" in store.notices[0]


# ------------------------------------------------------------------------------- where nothing can be written


@pytest.fixture
def open_folder() -> Iterator[Path]:
    """A folder that other users of the machine can reach, unlike pytest's own."""
    folder = Path(tempfile.mkdtemp())
    folder.chmod(0o777)
    yield folder
    folder.chmod(0o777)
    shutil.rmtree(folder)


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
from tutor.progress.forms import parse_line
from tutor.progress.store import Store
lines = sys.argv[2:]
store = Store.open(Path(sys.argv[1]))
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
# Writing beyond this size fails from now on, as on a full disk (setrlimit(2), RLIMIT_FSIZE).
resource.setrlimit(resource.RLIMIT_FSIZE, (20_000, resource.RLIM_INFINITY))
kept = [store.record(parse_line(line)) for line in lines]
waiting, notices, seen = len(store.waiting), store.notices, len(store.attempts())
brief = len(store.results("Ilva"))
resource.setrlimit(resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY, resource.RLIM_INFINITY))
after = store.retry()
told = {"kept": kept, "waiting": waiting, "notices": notices, "seen": seen, "brief": brief, "after": after}
print(json.dumps(told | {"still": len(store.waiting), "notices_after": store.notices}))
"""


def test_on_a_full_disk_attempts_are_kept_in_memory_and_written_when_there_is_room(
    tmp_path: Path, attempt: Any
) -> None:
    made = [attempt(day=number / 100) for number in range(30)]
    told = run(DISK_FULL, str(tmp_path), *(format_line(each) for each in made))
    assert told["kept"][-1] is False
    assert told["waiting"] > 0
    assert told["seen"] == told["brief"] == len(made)
    assert f"{told['waiting']} attempts are not on the disk yet" in told["notices"][-1]
    assert (told["after"], told["still"], told["notices_after"]) == (True, 0, [])
    with Store.open(tmp_path) as store:
        assert store.attempts() == tuple(made)


READ_ONLY = """
import json, os, sys
from pathlib import Path
from tutor.progress.forms import parse_line
from tutor.progress.store import Store, StoreError
folder = Path(sys.argv[1])
folder.chmod(0o555)
if os.getuid() == 0:
    os.setuid(65534)  # rights do not bind the superuser
store = Store.open(folder)
first = store.record(parse_line(sys.argv[2]))
try:
    store.merge([parse_line(sys.argv[3])])
    refused = ""
except StoreError as fault:
    refused = str(fault)
told = {"first": first, "seen": len(store.attempts()), "brief": len(store.results("Ilva"))}
print(json.dumps(told | {"notices": store.notices, "refused": refused}))
"""


def test_in_a_folder_that_cannot_be_written_the_session_goes_on(open_folder: Path, attempt: Any) -> None:
    old, new, other = attempt(), attempt(day=1), attempt(day=2)
    filled(open_folder, [old], lambda: old.time)
    before = (open_folder / FILE).read_bytes()
    told = run(READ_ONLY, str(open_folder), format_line(new), format_line(other))
    assert told["first"] is False
    assert told["seen"] == told["brief"] == 2
    assert f"cannot be written to {open_folder}" in told["notices"][0]
    assert "1 attempt is not on the disk yet" in told["notices"][-1]
    assert "cannot be written" in told["refused"]
    assert (open_folder / FILE).read_bytes() == before


def test_once_the_folder_can_be_written_what_waited_is_written(tmp_path: Path, attempt: Any) -> None:
    blocked = tmp_path / "folder"
    blocked.write_text("a file where the folder should be", encoding="utf-8")
    first, second = attempt(), attempt(day=1)
    with Store.open(blocked) as store:
        assert not store.record(first)
        assert store.attempts() == (first,)
        assert store.learners() == ("Guest", "Ilva")
        with pytest.raises(StoreError):
            store.reset()
        blocked.unlink()
        assert store.record(second)
        assert store.notices == ()
    with Store.open(blocked) as store:
        assert store.attempts() == (first, second)


def test_what_cannot_be_written_to_the_end_is_put_where_it_can_be_taken_in_from(
    tmp_path: Path, attempt: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    blocked = tmp_path / "folder"
    blocked.write_text("a file where the folder should be", encoding="utf-8")
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    made = [attempt(), attempt(day=1)]
    store = Store.open(blocked)
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
    with Store.open(blocked) as store:
        store.record(made)
        assert store.undo(made.uuid)
        assert (store.attempts(), store.waiting) == ((), ())


def test_a_store_locked_for_long_keeps_the_attempt_in_memory(
    tmp_path: Path, attempt: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tutor.progress.opening.BUSY_SECONDS", 0.05)
    made = attempt()
    with Store.open(tmp_path) as store, closing(sqlite3.connect(tmp_path / FILE)) as other:
        other.execute("BEGIN IMMEDIATE")
        assert not store.record(made)
        assert "locked" in store.notices[0]
        other.execute("ROLLBACK")
        assert store.retry()
        assert store.attempts() == (made,)


# ---------------------------------------------------------------------------------------- clocks and versions


def test_a_clock_set_back_loses_nothing_and_keeps_the_order_of_time(
    tmp_path: Path, attempt: Any, clock: Any
) -> None:
    with Store.open(tmp_path, clock) as store:
        store.record(attempt(day=3))
        clock.go_on(days=-400)
        store.record(attempt(day=-400))
        assert [each.time for each in store.attempts()] == [attempt(day=-400).time, attempt(day=3).time]
    with Store.open(tmp_path, clock) as store:
        assert len(store.attempts()) == 2


def test_a_newer_file_is_refused_and_untouched(tmp_path: Path, attempt: Any) -> None:
    filled(tmp_path, [attempt()], lambda: attempt().time)
    with closing(sqlite3.connect(tmp_path / FILE)) as connection:
        connection.execute(f"PRAGMA user_version = {len(schema.MIGRATIONS) + 1}")
    before = {path.name: path.read_bytes() for path in tmp_path.iterdir() if path.is_file()}
    with pytest.raises(NewerStoreError, match=r"newer version of the program .*left as it is"):
        Store.open(tmp_path)
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir() if path.is_file()} == before


def test_an_older_file_is_brought_up_to_date_and_a_copy_kept(
    tmp_path: Path, attempt: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = attempt()
    filled(tmp_path, [made], lambda: made.time)

    def add_a_column(connection: sqlite3.Connection) -> None:
        connection.execute("ALTER TABLE learners ADD COLUMN colour TEXT")

    monkeypatch.setattr(schema, "MIGRATIONS", (*schema.MIGRATIONS, add_a_column))
    monkeypatch.setattr("tutor.progress.opening.MIGRATIONS", schema.MIGRATIONS)
    with Store.open(tmp_path) as store:
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
            Store.open(tmp_path)
    with Store.open(tmp_path) as store:
        assert len(store.attempts()) == 1
