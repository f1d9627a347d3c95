"""How long the store takes, with 2,000 and with 20,000 attempts of one learner in it, as ratios.

Run it with ``python -m tests.bench.bench_store``. Baselines, in the same run: a commit of one row by SQLite
alone with the same flush to the disk (c), and the same attempts read by ``sqlite3`` and ``json`` alone, into
plain dicts (j). All but the commits are in processor time, the least of several runs.
"""

from __future__ import annotations

import json
import random
import sqlite3
import tempfile
import time
from collections.abc import Callable
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path
from statistics import median
from uuid import UUID

from tutor.cube.faces import TURNS
from tutor.cube.position import SLOTS, every_other_slot
from tutor.method.cases import CASES
from tutor.method.continuations import Verdict
from tutor.method.steps import TURNING_STEPS
from tutor.progress.attempt import AttemptRecord, HintTaken, Mode, Outcome, TurnMade
from tutor.progress.backup import FILE
from tutor.progress.schedule import next_up
from tutor.progress.store import AttemptStore
from tutor.progress.study import load_study
from tutor.progress.summary import summarise

SIZES = (2_000, 20_000)
A_DAY = 60
BEGINS = datetime(2022, 3, 1, 18, 30, tzinfo=UTC)


def invented(number: int, drawn: random.Random) -> AttemptRecord:
    """An attempt of an invented learner, of usual size: a handful of turns, now and then a hint."""
    slot = drawn.choice(SLOTS)
    count = drawn.randint(3, 10)
    turns = tuple(
        TurnMade(
            drawn.choice(TURNS), 1.0 + index, drawn.choice(list(Verdict)), 0, drawn.choice(TURNING_STEPS)
        )
        for index in range(count)
    )
    return AttemptRecord(
        "Ilva",
        BEGINS + timedelta(days=number // A_DAY, seconds=30 * (number % A_DAY)),
        drawn.choice(CASES).slug,
        slot,
        drawn.randrange(4),
        Mode.TODAY,
        drawn.choice((Outcome.SOLVED, Outcome.SOLVED, Outcome.SOLVED, Outcome.GIVEN_UP)),
        count,
        min(count, 9),
        30.0,
        keep=every_other_slot(slot),
        turns=turns,
        hints=(HintTaken(1, 0.5),) if drawn.random() < 0.2 else (),
        route=9,
        first_turn=drawn.uniform(0.5, 5.0),
        uuid=UUID(int=drawn.getrandbits(128)),
    )


def waited(act: Callable[[], object], times: int) -> float:
    """Median of the milliseconds that go by during an act."""
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        act()
        taken.append(1000 * (time.perf_counter() - start))
    return median(taken)


def worked(act: Callable[[], object], times: int) -> float:
    """The least milliseconds of the processor that an act takes."""
    taken = []
    for _ in range(times):
        start = time.process_time()
        act()
        taken.append(1000 * (time.process_time() - start))
    return min(taken)


def bare_commit(folder: Path) -> Callable[[], object]:
    """A commit of one row by SQLite alone."""
    connection = sqlite3.connect(folder / "bare.sqlite", isolation_level=None)
    connection.execute("PRAGMA journal_mode = WAL")
    connection.execute("PRAGMA synchronous = FULL")
    connection.execute("CREATE TABLE rows (content TEXT)")
    return lambda: connection.execute("INSERT INTO rows VALUES (?)", ("x" * 700,))


def bare_read(folder: Path) -> list[object]:
    """All attempts of a store as plain dicts, by ``sqlite3`` and ``json`` alone."""
    with closing(sqlite3.connect(folder / FILE)) as connection:
        lines = connection.execute("SELECT line FROM attempts ORDER BY time, uuid")
        return [json.loads(line) for (line,) in lines]


def measure(folder: Path, size: int, commit: float) -> None:
    """Fill a store, measure, and print its table."""
    drawn = random.Random(3)
    store = AttemptStore.open(folder)
    store.merge([invented(number, drawn) for number in range(size)])
    now = BEGINS + timedelta(days=size // A_DAY + 10)
    new = iter([invented(size + number, drawn) for number in range(100)])
    read = worked(lambda: bare_read(folder), 5)
    print(f"{f'{size:,} attempts by sqlite3 and json, baseline j':52}{read:9.2f} ms")

    def row(name: str, taken: float, baseline: float, letter: str) -> None:
        print(f"{name:52}{taken:9.2f} ms {taken / baseline:8.2f} {letter}", flush=True)

    study = load_study(store, "Ilva", now)
    added = invented(size + 200, drawn)
    next_up(study, now, Mode.TODAY)
    acts: tuple[tuple[str, Callable[[], object], int], ...] = (
        ("all attempts, whole", lambda: store.attempts("Ilva"), 5),
        ("where the learner stands", lambda: load_study(store, "Ilva", now), 5),
        ("one attempt more", lambda: study.after(added, now), 20),
        ("the summary of the Progress screen", lambda: summarise(study, now), 9),
        ("what to practise next", lambda: next_up(study, now, Mode.TODAY), 20),
        ("the last hundred attempts, whole", lambda: store.attempts("Ilva", newest=100), 9),
    )
    for name, act, times in acts:
        row(name, worked(act, times), read, "j")
    row("record an attempt", waited(lambda: store.record(next(new)), 100), commit, "c")
    store.close()
    row("open the store, with the backup of the day", worked(lambda: _opened(folder), 1), read, "j")
    row("open the store", worked(lambda: _opened(folder), 5), read, "j")


def main() -> None:
    """Measure stores of both sizes."""
    with tempfile.TemporaryDirectory() as name:
        commit = waited(bare_commit(Path(name)), 200)
        print(f"{'a commit of one row by SQLite, baseline c':52}{commit:9.2f} ms")
        for size in SIZES:
            measure(Path(name) / str(size), size, commit)


def _opened(folder: Path) -> None:
    AttemptStore.open(folder).close()


if __name__ == "__main__":
    main()
