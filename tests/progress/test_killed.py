"""A process killed at any moment loses no finished attempt."""

import random
import signal
import sqlite3
import subprocess
import sys
import time
from contextlib import closing
from pathlib import Path

import pytest

from tutor.progress.safekeeping import FILE
from tutor.progress.store import Store

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
    # The last line may be cut off anywhere; a whole one ends in a number of 32 figures.
    words = [line.split() for line in said.splitlines()]
    whole = [(word[0], word[1]) for word in words if len(word) == 2 and len(word[1]) == 32]
    return {word for what, word in whole if what == "begun"}, {word for what, word in whole if what == "kept"}


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
