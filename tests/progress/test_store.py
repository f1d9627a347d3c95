"""The store: what is recorded is there, in order, for every reader."""

import sqlite3
import subprocess
import sys
from collections.abc import Iterable
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from datetime import timedelta
from pathlib import Path
from threading import Thread
from typing import Any
from uuid import uuid4

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tutor.method.cases import CASES
from tutor.progress.attempt import GUEST, AttemptError
from tutor.progress.backup import DAILY_KEPT, FILE, daily_backups
from tutor.progress.names import known_as
from tutor.progress.store import AttemptStore, Merged


def test_a_new_store_knows_the_guest_and_nothing_else(tmp_path: Path) -> None:
    with AttemptStore.open(tmp_path / "new" / "folder") as store:
        assert store.learners() == (GUEST,)
        assert store.attempts() == ()
        assert (store.notices, store.waiting) == ((), ())


def test_what_is_recorded_is_there_for_another_reader_at_once(tmp_path: Path, attempt: Any) -> None:
    made = attempt()
    with AttemptStore.open(tmp_path) as store:
        assert store.record(made)
        # Read by the library alone, past the program.
        with closing(sqlite3.connect(tmp_path / FILE)) as reader:
            assert reader.execute("SELECT count(*) FROM attempts").fetchone() == (1,)
        with AttemptStore.open(tmp_path) as other:
            assert other.attempts("Ilva") == (made,)
            assert other.learners() == (GUEST, "Ilva")


def test_the_log_is_flushed_at_every_commit(tmp_path: Path) -> None:
    with AttemptStore.open(tmp_path) as store:
        connection = store._connection
        # sqlite.org/pragma.html: 2 is FULL.
        assert connection.execute("PRAGMA synchronous").fetchone() == (2,)
        assert connection.execute("PRAGMA journal_mode").fetchone() == ("wal",)


@settings(max_examples=20)
@given(data=st.data())
def test_attempts_come_back_as_they_were_in_the_order_of_time(
    data: st.DataObject, any_attempt: Any, tmp_path_factory: pytest.TempPathFactory
) -> None:
    made = data.draw(st.lists(any_attempt, max_size=5, unique_by=lambda attempt: attempt.uuid))
    with AttemptStore.open(tmp_path_factory.mktemp("store")) as store:
        assert all(store.record(each) for each in made)
        assert store.attempts() == tuple(sorted(made, key=lambda each: (each.time, each.uuid.hex)))


def test_attempts_can_be_asked_for_by_learner_time_and_number(tmp_path: Path, attempt: Any) -> None:
    made = [attempt(day=day) for day in range(4)]
    with AttemptStore.open(tmp_path) as store:
        for each in (*made, attempt(learner="Ravi")):
            store.record(each)
        assert store.attempts("Ilva", since=made[2].time) == tuple(made[2:])
        assert store.attempts("Ilva", newest=2) == tuple(made[2:])
        assert store.attempts("Ilva", newest=0) == ()
        assert len(store.attempts()) == 5
        assert store.attempts("Nobody") == ()


def test_recording_twice_changes_nothing(tmp_path: Path, attempt: Any) -> None:
    made = attempt()
    with AttemptStore.open(tmp_path) as store:
        assert store.record(made)
        assert store.record(made)
        assert store.attempts() == (made,)


def test_learners_are_added_once_whatever_their_capitals(tmp_path: Path) -> None:
    with AttemptStore.open(tmp_path) as store:
        assert store.add_learner(" Ravi ") == "Ravi"
        assert store.add_learner("RAVI") == "Ravi"
        assert store.add_learner("guest") == GUEST
        with pytest.raises(AttemptError, match="cannot be a learner's name"):
            store.add_learner("=cmd")
    with AttemptStore.open(tmp_path) as store:
        assert store.learners() == (GUEST, "Ravi")


def test_an_undone_attempt_is_gone_and_no_merge_brings_it_back(tmp_path: Path, attempt: Any) -> None:
    made = [attempt(day=day) for day in range(3)]
    with AttemptStore.open(tmp_path) as store:
        for each in made:
            store.record(each)
        assert store.undo(made[1].uuid)
        assert not store.undo(made[1].uuid)
        assert not store.undo(uuid4())
        assert store.attempts() == (made[0], made[2])
        assert store.merge(made) == Merged(frozenset(), 2, frozenset({made[1].uuid}))
        assert store.attempts() == (made[0], made[2])


def test_merging_loses_and_doubles_nothing(tmp_path: Path, attempt: Any) -> None:
    here, there, both = attempt(day=1), attempt(day=0, learner="Ravi"), attempt(day=2)
    with AttemptStore.open(tmp_path) as store:
        for each in (here, both):
            store.record(each)
        assert store.merge([there, both, both]) == Merged(frozenset({there.uuid}), 1, frozenset())
        assert store.attempts() == (there, here, both)
        assert store.learners() == (GUEST, "Ilva", "Ravi")


def test_a_reset_forgets_one_learner_and_keeps_a_copy(tmp_path: Path, attempt: Any, clock: Any) -> None:
    with AttemptStore.open(tmp_path, clock) as store:
        made = attempt(), attempt(learner="Ravi")
        for each in made:
            store.record(each)
        copy = store.reset("Ravi")
        assert store.attempts() == (made[0],)
        assert store.learners() == (GUEST, "Ilva")
        store.reset()
        assert (store.attempts(), store.learners()) == ((), (GUEST,))
    with closing(sqlite3.connect(copy)) as reader:
        assert reader.execute("SELECT count(*) FROM attempts").fetchone() == (2,)
    # A later restore must not bring back what was forgotten.
    (tmp_path / FILE).unlink()
    with AttemptStore.open(tmp_path, clock) as store:
        assert store.attempts() == ()


def test_a_backup_is_made_each_day_and_only_the_newest_are_kept(
    tmp_path: Path, attempt: Any, clock: Any
) -> None:
    with AttemptStore.open(tmp_path, clock) as store:
        store.record(attempt())
    for _ in range(DAILY_KEPT + 3):
        AttemptStore.open(tmp_path, clock).close()
        AttemptStore.open(tmp_path, clock).close()
        clock.go_on(days=1)
    kept = daily_backups(tmp_path)
    assert len(kept) == DAILY_KEPT
    assert kept[0].name == f"progress-{clock.now - timedelta(days=1):%Y-%m-%d}.sqlite"
    assert not list((tmp_path / "backups").glob(".*"))


def test_a_backup_can_be_put_anywhere(tmp_path: Path, attempt: Any) -> None:
    made = attempt()
    with AttemptStore.open(tmp_path / "store") as store:
        store.record(made)
        target = store.back_up(tmp_path / "elsewhere" / "copy.sqlite")
    assert [path.name for path in target.parent.iterdir()] == ["copy.sqlite"]
    with closing(sqlite3.connect(target)) as reader:
        assert reader.execute("SELECT uuid FROM attempts").fetchall() == [(made.uuid.hex,)]


def test_threads_take_turns(tmp_path: Path, attempt: Any) -> None:
    groups = [[attempt(day=number) for number in range(10)] for _ in range(4)]
    with AttemptStore.open(tmp_path) as store:
        threads = [
            Thread(target=lambda group=group: [store.record(each) for each in group]) for group in groups
        ]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        assert {each.uuid for each in store.attempts()} == {each.uuid for group in groups for each in group}
        assert store.waiting == ()


def test_no_other_thread_writes_while_learners_of_waiting_attempts_are_named(
    tmp_path: Path, attempt: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    blocked = tmp_path / "folder"
    blocked.write_text("a file where the folder should be", encoding="utf-8")
    free: list[bool] = []
    with AttemptStore.open(blocked) as store, ThreadPoolExecutor(1) as other:

        def may_write() -> bool:
            taken = store._lock.acquire(blocking=False)
            if taken:
                store._lock.release()
            return taken

        def asked(name: str, names: Iterable[str]) -> str | None:
            free.append(other.submit(may_write).result())
            return known_as(name, names)

        store.record(attempt())
        monkeypatch.setattr("tutor.progress.store.known_as", asked)
        assert store.learners() == (GUEST, "Ilva")
        assert free == [False]
        assert other.submit(may_write).result()
        blocked.unlink()


RECORD_SOME = """
import sys
from datetime import UTC, datetime
from pathlib import Path
from tutor.cube.position import Slot
from tutor.method.cases import CASES
from tutor.progress.attempt import AttemptRecord, Mode, Outcome
from tutor.progress.store import AttemptStore
with AttemptStore.open(Path(sys.argv[1])) as store:
    for index in range(25):
        time = datetime(2026, 3, 3, 18, index, tzinfo=UTC)
        case = CASES[index].slug
        attempt = AttemptRecord(sys.argv[2], time, case, Slot.BL, 0, Mode.TODAY, Outcome.SOLVED, 3, 3, 4.0)
        assert store.record(attempt)
"""


def test_two_processes_write_at_once_and_nothing_is_lost(tmp_path: Path) -> None:
    writers = [
        subprocess.Popen([sys.executable, "-c", RECORD_SOME, str(tmp_path), name])
        for name in ("Ilva", "Ravi")
    ]
    assert [writer.wait() for writer in writers] == [0, 0]
    with AttemptStore.open(tmp_path) as store:
        for name in ("Ilva", "Ravi"):
            assert {each.case for each in store.attempts(name)} == {case.slug for case in CASES[:25]}
        assert store.notices == ()
