"""The worker process: answers, work ahead, stale work dropped, tables made meanwhile, death survived."""

from __future__ import annotations

import os
import signal
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from tutor.cube.faces import TURNS, Turn
from tutor.cube.position import SLOTS, SOLVED, Position, Slot
from tutor.solver.process import Compute, distances_of
from tutor.solver.search import Solver, TurnDistances
from tutor.solver.store import NoticeKind
from tutor.solver.tables import LARGE_TABLES
from tutor.solver.task import Task
from tutor.solver.worker import (
    Answered,
    Building,
    Failed,
    InProcess,
    Memory,
    Report,
    Restarted,
    Worker,
)

TASK = Task(Slot.FR, frozenset(SLOTS) - {Slot.FR})
MADE = SOLVED.after([Turn.R, Turn.U, Turn.R_PRIME])
LONGEST_WAIT = 240.0  # seconds until a test gives up


def words(solver: Solver, position: Position, task: Task) -> str:
    """A compute function that shows which process it ran in."""
    return f"{solver.distance(position, task)} turns, says {os.getpid()}"


def deadly(solver: Solver, position: Position, task: Task) -> TurnDistances:
    """Ends its process when asked about the solved cube."""
    if position == SOLVED:
        os._exit(3)
    return solver.distances(position, task)


def refusing(solver: Solver, position: Position, task: Task) -> TurnDistances:
    raise ValueError("not today")


def endless_on_solved(solver: Solver, position: Position, task: Task) -> TurnDistances:
    """A search that takes for ever at the solved cube but can be interrupted, as every search can."""
    while position == SOLVED:
        solver._interrupt()
        time.sleep(0.001)
    return solver.distances(position, task)


@contextmanager
def working(folder: Path, compute: Compute = distances_of) -> Iterator[Worker]:
    worker = Worker(compute, folder)
    try:
        yield worker
    finally:
        worker.close()


def until(worker: Worker, done: Callable[[list[Report]], Any]) -> list[Report]:
    """Poll until what has come in satisfies ``done``."""
    reports: list[Report] = []
    deadline = time.monotonic() + LONGEST_WAIT
    while not done(reports):
        assert time.monotonic() < deadline, reports
        reports += worker.poll()
        time.sleep(0.002)
    return reports


def answers(reports: list[Report]) -> dict[int, Any]:
    return {report.request_id: report.value for report in reports if isinstance(report, Answered)}


def test_a_request_is_answered_as_in_this_process(large_folder: Path, solver: Solver) -> None:
    with working(large_folder) as worker:
        worker.request(7, MADE, TASK)
        reports = until(worker, answers)
        assert answers(reports) == {7: solver.distances(MADE, TASK)}
        assert worker.known(MADE, TASK) == solver.distances(MADE, TASK)
        worker.request(8, MADE, TASK)
        assert answers(list(worker.poll())) == {8: solver.distances(MADE, TASK)}


def test_what_is_computed_is_handed_in_and_runs_elsewhere(large_folder: Path) -> None:
    with working(large_folder, words) as worker:
        worker.request(1, MADE, TASK)
        assert answers(until(worker, answers)) == {1: f"3 turns, says {worker.process_id}"}
        assert worker.process_id != os.getpid()


def test_positions_worked_out_ahead_are_known_before_they_are_asked_for(
    large_folder: Path, solver: Solver
) -> None:
    ahead = [(MADE.turned(turn), TASK) for turn in TURNS]
    with working(large_folder) as worker:
        worker.prefetch(ahead)
        until(worker, lambda _: all(worker.known(*pair) for pair in ahead))
        for number, (position, task) in enumerate(ahead):
            worker.request(number, position, task)
            assert answers(list(worker.poll())) == {number: solver.distances(position, task)}


def test_a_new_request_drops_the_one_under_way(large_folder: Path) -> None:
    with working(large_folder, endless_on_solved) as worker:
        worker.request(1, SOLVED, TASK)
        worker.prefetch([(SOLVED, TASK)])
        time.sleep(0.3)
        worker.request(2, MADE, TASK)
        assert list(answers(until(worker, answers))) == [2]
        worker.prefetch([(SOLVED, TASK)])
        worker.request(3, MADE.turned(Turn.U), TASK)
        assert list(answers(until(worker, answers))) == [3]


def test_many_requests_in_a_row_never_block_and_the_last_is_answered(large_folder: Path) -> None:
    with working(large_folder, endless_on_solved) as worker:
        worker.request(0, SOLVED, TASK)
        position = MADE
        for number in range(1, 400):
            position = position.turned(TURNS[number * 7 % 18])
            worker.request(number, position, Task(Slot.FR))
            worker.prefetch((position.turned(turn), TASK) for turn in TURNS)
        until(worker, lambda reports: 399 in answers(reports))


def test_an_error_fails_the_request_and_the_next_is_answered(large_folder: Path) -> None:
    with working(large_folder, refusing) as worker:
        worker.request(4, MADE, TASK)
        assert Failed(4, "No answer could be worked out: not today") in until(worker, bool)
        worker.request(5, MADE, TASK)
        assert [report.request_id for report in until(worker, bool) if isinstance(report, Failed)] == [5]


def test_a_worker_that_is_killed_is_started_again_and_answers(large_folder: Path) -> None:
    with working(large_folder) as worker:
        worker.request(1, MADE, TASK)
        until(worker, answers)
        first = worker.process_id
        assert first is not None
        os.kill(first, signal.SIGKILL)
        until(worker, lambda reports: any(isinstance(report, Restarted) for report in reports))
        worker.request(2, MADE.turned(Turn.U), TASK)
        assert list(answers(until(worker, answers))) == [2]
        assert worker.process_id != first


def test_a_position_that_ends_the_process_twice_is_given_up(large_folder: Path) -> None:
    with working(large_folder, deadly) as worker:
        worker.request(1, SOLVED, TASK)
        reports = until(worker, lambda reports: any(isinstance(report, Failed) for report in reports))
        assert [report.request_id for report in reports if isinstance(report, Failed)] == [1]
        assert sum(isinstance(report, Restarted) for report in reports) == 2
        worker.request(2, MADE, TASK)
        assert list(answers(until(worker, answers))) == [2]
        worker.prefetch([(SOLVED, TASK)])
        until(worker, lambda reports: sum(isinstance(report, Restarted) for report in reports) >= 2)
        worker.request(3, MADE.turned(Turn.U), TASK)
        assert list(answers(until(worker, answers))) == [3]


def test_closing_ends_the_process_even_in_the_middle_of_a_search(large_folder: Path) -> None:
    worker = Worker(endless_on_solved, large_folder)
    worker.request(1, SOLVED, TASK)
    time.sleep(0.3)
    number = worker.process_id
    assert number is not None
    worker.close()
    worker.close()
    with pytest.raises(ProcessLookupError):
        os.kill(number, 0)
    assert worker.poll() == ()


def test_large_tables_are_made_while_answers_come_from_the_quick_ones(
    tmp_path: Path, quick_solver: Solver, large_folder: Path
) -> None:
    folder = tmp_path / "tables"
    with working(folder) as worker:
        worker.request(1, MADE, TASK)
        reports = until(worker, answers)
        assert answers(reports) == {1: quick_solver.distances(MADE, TASK)}
        assert not (folder / "cross-and-pair.table").exists()
        reports += until(worker, lambda late: Building(1.0) in late)
        shares = [report.share for report in reports if isinstance(report, Building)]
        assert shares == sorted(shares)
        assert shares[0] == 0.0
        worker.request(2, MADE.turned(Turn.F), TASK)
        assert list(answers(until(worker, answers))) == [2]
    for name in LARGE_TABLES:
        assert (folder / f"{name}.table").read_bytes() == (large_folder / f"{name}.table").read_bytes()


def test_a_damaged_large_table_is_said_so_and_made_again(large_folder: Path, tmp_path: Path) -> None:
    folder = tmp_path / "tables"
    folder.mkdir()
    for path in large_folder.iterdir():
        os.link(path, folder / path.name)
    damaged = folder / "screen-7.table"
    content = damaged.read_bytes()
    damaged.unlink()
    damaged.write_bytes(content[:-9])
    with working(folder) as worker:
        worker.request(1, MADE, TASK)
        reports = until(worker, lambda reports: Building(1.0) in reports)
        kinds = {
            report.kind
            for report in reports
            if not isinstance(report, Answered | Building | Failed | Restarted)
        }
        assert kinds == {NoticeKind.DAMAGED}
        assert list(answers(reports)) == [1]
    assert damaged.read_bytes() == content


def test_a_cache_folder_that_cannot_be_written_still_works(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    with working(tmp_path / "file" / "tables") as worker:
        worker.request(1, MADE, TASK)
        assert answers(until(worker, answers))[1].distance == 3


def test_without_a_process_the_same_interface_answers_at_once(quick_folder: Path, solver: Solver) -> None:
    source = InProcess(distances_of, quick_folder)
    source.prefetch([(MADE, TASK)])
    assert source.known(MADE, TASK) is None
    source.request(1, MADE, TASK)
    source.request(2, MADE.turned(Turn.R), TASK)
    assert source.poll() == (
        Answered(2, MADE.turned(Turn.R), TASK, solver.distances(MADE.turned(Turn.R), TASK)),
    )
    assert source.poll() == ()
    assert source.known(MADE, TASK) == solver.distances(MADE, TASK)
    source.close()
    failing = InProcess(refusing, quick_folder)
    failing.request(3, MADE, TASK)
    assert failing.poll() == (Failed(3, "No answer could be worked out: not today"),)


def test_memory_drops_what_was_used_longest_ago() -> None:
    memory = Memory(2)
    first, second, third = (SOLVED.turned(turn) for turn in TURNS[:3])
    memory.put(first, TASK, 1)
    memory.put(second, TASK, 2)
    assert memory.get(first, TASK) == 1
    memory.put(third, TASK, 3)
    assert [memory.get(position, TASK) for position in (first, second, third)] == [1, None, 3]
