"""How long the store takes, with a hundred thousand attempts of one learner in it, as ratios to bare SQLite.

Run it with ``python -m tests.bench.bench_store``. Baselines, in the same run: a commit of one row with
the same flush to the disk, and reading a hundred thousand rows of one small column.
"""

from __future__ import annotations

import random
import sqlite3
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from statistics import median
from uuid import UUID

from tutor.cube.faces import TURNS
from tutor.cube.position import SLOTS, every_other_slot
from tutor.method.cases import CASES
from tutor.method.continuations import Verdict
from tutor.method.steps import TURNING_STEPS
from tutor.progress.attempt import Attempt, HintTaken, Mode, Outcome, TurnMade
from tutor.progress.schedule import next_up
from tutor.progress.store import Store
from tutor.progress.study import load_study
from tutor.progress.summary import summarise

ATTEMPTS = 100_000
A_DAY = 60
BEGINS = datetime(2022, 3, 1, 18, 30, tzinfo=UTC)


def invented(number: int, drawn: random.Random) -> Attempt:
    """An attempt of an invented learner, of usual size: a handful of turns, now and then a hint."""
    slot = drawn.choice(SLOTS)
    count = drawn.randint(3, 10)
    turns = tuple(
        TurnMade(
            drawn.choice(TURNS), 1.0 + index, drawn.choice(list(Verdict)), 0, drawn.choice(TURNING_STEPS)
        )
        for index in range(count)
    )
    return Attempt(
        "Ilva",
        BEGINS + timedelta(days=number // A_DAY, seconds=30 * (number % A_DAY)),
        drawn.choice(CASES).slug,
        slot,
        drawn.randrange(4),
        Mode.DUE,
        drawn.choice((Outcome.HOME, Outcome.HOME, Outcome.HOME, Outcome.GIVEN_UP)),
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


def timed(act: Callable[[], object], times: int) -> float:
    """Median of the milliseconds that an act takes."""
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        act()
        taken.append(1000 * (time.perf_counter() - start))
    return median(taken)


def bare_commit(folder: Path) -> Callable[[], object]:
    """A commit of one row by SQLite alone."""
    connection = sqlite3.connect(folder / "bare.sqlite", isolation_level=None)
    connection.execute("PRAGMA journal_mode = WAL")
    connection.execute("PRAGMA synchronous = FULL")
    connection.execute("CREATE TABLE rows (content TEXT)")
    return lambda: connection.execute("INSERT INTO rows VALUES (?)", ("x" * 700,))


def bare_read(folder: Path) -> Callable[[], object]:
    """A hundred thousand rows of forty bytes read by SQLite alone."""
    connection = sqlite3.connect(folder / "read.sqlite")
    connection.execute("CREATE TABLE rows (content BLOB)")
    connection.executemany("INSERT INTO rows VALUES (?)", ((b"x" * 40,) for _ in range(ATTEMPTS)))
    connection.commit()
    return lambda: connection.execute("SELECT content FROM rows").fetchall()


def main() -> None:
    """Fill a store, measure, and print the table."""
    drawn = random.Random(3)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        commit, read = timed(bare_commit(folder), 200), timed(bare_read(folder), 9)
        print(f"{'bare commit, baseline of rows with c':52}{commit:9.2f} ms")
        print(f"{'bare read of 100,000 rows, baseline of rows with r':52}{read:9.2f} ms")
        store = Store.open(folder / "store")
        store.merge([invented(number, drawn) for number in range(ATTEMPTS)])
        now = BEGINS + timedelta(days=ATTEMPTS // A_DAY + 10)
        new = iter([invented(ATTEMPTS + number, drawn) for number in range(100)])

        def row(name: str, act: Callable[[], object], times: int, baseline: tuple[str, float]) -> None:
            taken = timed(act, times)
            print(f"{name:52}{taken:9.2f} ms {taken / baseline[1]:8.1f} {baseline[0]}", flush=True)

        row("record an attempt", lambda: store.record(next(new)), 100, ("c", commit))
        row("where the learner stands, first time", lambda: load_study(store, "Ilva", now), 1, ("r", read))
        row("where the learner stands, later", lambda: load_study(store, "Ilva", now), 9, ("r", read))
        study = load_study(store, "Ilva", now)
        row("the summary of the Progress screen", lambda: summarise(study, now), 9, ("r", read))
        next_up(study, now, Mode.DUE)
        row("what to practise next", lambda: next_up(study, now, Mode.DUE), 20, ("r", read))
        added = invented(ATTEMPTS + 200, drawn)
        row("one attempt more", lambda: study.after(added, now), 20, ("r", read))
        row("the last hundred attempts, whole", lambda: store.attempts("Ilva", newest=100), 9, ("r", read))
        store.close()
        row("open the store, with the backup of the day", lambda: _opened(folder), 1, ("r", read))
        row("open the store", lambda: _opened(folder), 5, ("r", read))


def _opened(folder: Path) -> None:
    Store.open(folder / "store").close()


if __name__ == "__main__":
    main()
