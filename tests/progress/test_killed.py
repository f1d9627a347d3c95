"""A process killed at any moment loses no finished attempt, and nothing that was given to do."""

import multiprocessing
import random
import sqlite3
import time
from contextlib import closing
from datetime import UTC, datetime, timedelta
from itertools import count
from multiprocessing.connection import Connection
from pathlib import Path
from signal import SIGKILL

import pytest

from tutor.cube.position import Slot
from tutor.method.cases import CASES
from tutor.progress.assignment import Assignment, lesson_task
from tutor.progress.attempt import AttemptRecord, Mode, Outcome
from tutor.progress.backup import FILE
from tutor.progress.store import AttemptStore

PROCESSES = multiprocessing.get_context("forkserver")
"""A process begun from one that has imported everything is there at once."""
PROCESSES.set_forkserver_preload([__name__])


def record_until_killed(folder: Path, told: Connection) -> None:
    """Record attempts and give tasks without end; tell of each when it is begun and when it is kept."""
    store = AttemptStore.open(folder)
    told.send(("open", ""))
    for index in count():
        moment = datetime(2026, 3, 3, tzinfo=UTC) + timedelta(seconds=index)
        case = CASES[index % 41].slug
        attempt = AttemptRecord("Ilva", moment, case, Slot.BL, 0, Mode.TODAY, Outcome.SOLVED, 3, 3, 4.0)
        told.send(("begun", attempt.uuid.hex))
        if store.record(attempt):
            told.send(("kept", attempt.uuid.hex))
        if index % 5 == 0:
            task = lesson_task(attempt.uuid.hex)
            told.send(("begun", task))
            store.assign(Assignment("Ilva", task, moment, moment))
            told.send(("kept", task))


def killed_after(folder: Path, seconds: float) -> tuple[set[str], set[str]]:
    """Record in a process of its own and kill it so long after it opened; what it began and said it kept."""
    hearing, telling = PROCESSES.Pipe(duplex=False)
    writer = PROCESSES.Process(target=record_until_killed, args=(folder, telling))
    writer.start()
    telling.close()
    assert hearing.recv() == ("open", "")
    # The pipe holds 64 KiB at least, about a thousand attempts; nobody needs to empty it so soon.
    time.sleep(seconds)
    writer.kill()
    writer.join()
    assert writer.exitcode == -SIGKILL
    said: dict[str, set[str]] = {"begun": set(), "kept": set()}
    try:
        while True:
            what, number = hearing.recv()
            said[what].add(number)
    except (EOFError, OSError):
        # All has been heard; the last word may have been cut off.
        hearing.close()
    return said["begun"], said["kept"]


def kill_again_and_again(folder: Path, times: int) -> int:
    drawn = random.Random(7)
    begun: set[str] = set()
    kept: set[str] = set()
    for _ in range(times):
        more_begun, more_kept = killed_after(folder, drawn.uniform(0.0, 0.06))
        begun |= more_begun
        kept |= more_kept
    with AttemptStore.open(folder) as store:
        found = {attempt.uuid.hex for attempt in store.attempts()}
        found |= {each.task for each in store.assignments()}
        # Nothing that was said to be kept is missing, and nothing is there that nobody made.
        assert kept <= found <= begun
        assert store.notices == ()
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
