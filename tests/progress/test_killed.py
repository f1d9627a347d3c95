"""A process killed at any moment loses nothing kept or given to do, also while it changes learners."""

import multiprocessing
import random
import sqlite3
import time
from collections import defaultdict
from collections.abc import Callable
from contextlib import closing, suppress
from datetime import UTC, datetime, timedelta
from itertools import count
from multiprocessing.connection import Connection
from pathlib import Path
from signal import SIGKILL

import pytest

from tutor.atomic_file import write_whole
from tutor.cube.position import Slot
from tutor.method.cases import CASES
from tutor.progress.assignment import Assignment, lesson_task
from tutor.progress.attempt import GUEST, AttemptRecord, Mode, Outcome
from tutor.progress.backup import FILE
from tutor.progress.belongings import Belongings, FolderMove
from tutor.progress.exchange import Exchange
from tutor.progress.shared_folder import SharedFolder
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


def change_until_killed(folder: Path, told: Connection) -> None:
    """Record attempts and solves of Ilva, and make Ylva of her, by a new name or by a join, without end.

    In between everything is restored from a backup that was made just before.
    """
    store, own = AttemptStore.open(folder), Belongings(folder)
    own.settle(store.has_anything_of)
    told.send(("open", ""))
    for index in count():
        attempt = AttemptRecord(
            ("Ilva", "ILVA")[index % 2], datetime(2026, 3, 3, tzinfo=UTC), CASES[index % 41].slug, Slot.BL, 0,
            Mode.TODAY, Outcome.SOLVED, 3, 3, 4.0,
        )  # fmt: skip
        told.send(("begun", attempt.uuid.hex))
        if store.record(attempt):
            told.send(("kept", attempt.uuid.hex))
        write_whole(own.of("ilva") / "solves" / f"{attempt.uuid.hex}.txt", b"a solve")
        told.send(("solved", attempt.uuid.hex))
        with own.following(FolderMove("Ilva", str(own.of("Ylva")))):
            if "Ylva" in store.learners():
                store.join("Ilva", "Ylva")
            else:
                store.rename("ilva", "Ylva")
        told.send(("changed", attempt.uuid.hex))
        if index % 2 == 0:
            store.restore(store.back_up())
            told.send(("restored", attempt.uuid.hex))


def share_until_killed(folder: Path, told: Connection) -> None:
    """Record and exchange over a folder without end; tell of each attempt when it is begun and when kept."""
    store = AttemptStore.open(folder / "one")
    exchange = Exchange(store, SharedFolder(folder / "shared"))
    told.send(("open", ""))
    moment, case = datetime(2026, 3, 3, tzinfo=UTC), CASES[0].slug
    while True:
        attempt = AttemptRecord("Ilva", moment, case, Slot.BL, 0, Mode.TODAY, Outcome.SOLVED, 3, 3, 4.0)
        told.send(("begun", attempt.uuid.hex))
        if store.record(attempt):
            told.send(("kept", attempt.uuid.hex))
        with suppress(OSError):
            exchange.carry_out()


Said = dict[str, set[str]]


def killed_sometime(
    folder: Path, drawn: random.Random, writing: Callable[[Path, Connection], None] = record_until_killed
) -> Said:
    """Write in a process of its own and kill it once it has told so much; what it said it began and did."""
    hearing, telling = PROCESSES.Pipe(duplex=False)
    writer = PROCESSES.Process(target=writing, args=(folder, telling))
    writer.start()
    telling.close()
    assert hearing.recv() == ("open", "")
    heard = [hearing.recv() for _ in range(drawn.randrange(MOST_HEARD))]
    # Not always where the next step begins. How much is done by then rests on what was heard alone.
    time.sleep(drawn.uniform(0.0, 0.005))
    writer.kill()
    writer.join()
    assert writer.exitcode == -SIGKILL
    # Until all has been heard; the last word may have been cut off.
    with suppress(EOFError, OSError):
        while True:
            heard.append(hearing.recv())
    hearing.close()
    said: Said = defaultdict(set)
    for what, number in heard:
        said[what].add(number)
    return said


MOST_HEARD = 30
"""What a process tells before it is killed is less than this."""
WRITERS = (record_until_killed, change_until_killed)
"""Who writes by turns."""


def kill_again_and_again(folder: Path, times: int) -> Said:
    drawn, said = random.Random(7), defaultdict[str, set[str]](set)
    for number in range(times):
        for what, numbers in killed_sometime(folder, drawn, WRITERS[number % 2]).items():
            said[what] |= numbers
    own = Belongings(folder)
    with AttemptStore.open(folder) as store:
        own.settle(store.has_anything_of)
        found = {attempt.uuid.hex for attempt in store.attempts()}
        found |= {each.task for each in store.assignments()}
        # Nothing that was said to be kept is missing, and nothing is there that nobody made.
        assert said["kept"] <= found <= said["begun"]
        assert said["changed"] <= {attempt.uuid.hex for attempt in store.attempts("ylva")}
        assert len(store.learners()) <= len((GUEST, "Ilva", "Ylva"))
        assert store.notices == ()
    solves = {name: {path.stem for path in own.of(name).rglob("*.txt")} for name in ("Ilva", "Ylva")}
    assert said["solved"] <= solves["Ilva"] | solves["Ylva"]
    assert said["changed"] <= solves["Ylva"]
    with closing(sqlite3.connect(folder / FILE)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    assert not [*folder.rglob("*damaged*"), *folder.rglob("change-*")]
    return said


def test_a_process_killed_ten_times_loses_no_finished_attempt(tmp_path: Path) -> None:
    said = kill_again_and_again(tmp_path, 10)
    assert all(said[what] for what in ("kept", "solved", "changed", "restored")), said


@pytest.mark.slow
def test_a_process_killed_two_hundred_times_loses_no_finished_attempt(tmp_path: Path) -> None:
    said = kill_again_and_again(tmp_path, 200)
    told = {what: len(numbers) for what, numbers in said.items()}
    print(f"none was lost of {told}")
    assert told["kept"] > 200
    assert told["changed"] > 5
    assert told["restored"] > 0
