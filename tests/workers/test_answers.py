"""Answers from a process beside the window, and large tables made meanwhile."""

from __future__ import annotations

import os
import signal
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from tutor.cube.faces import Turn
from tutor.cube.position import SLOTS, SOLVED, Slot
from tutor.method.answer import answer
from tutor.session.commands import Answered, TellAtFoot
from tutor.solver.search import Solver
from tutor.solver.tables import LARGE_TABLES, PAIR_TABLE, SCREEN_TABLE, TABLES
from tutor.solver.task import Task
from tutor.workers.answers import AnswerService
from tutor.workers.desk import Desk
from tutor.workers.table_news import TablesShare
from tutor.workers.words import SETUP_RESTARTED, STOPPED_EVERY_TIME, setup_failed, setup_share

TASK = Task(Slot.FR, frozenset(SLOTS) - {Slot.FR})
MADE = SOLVED.after([Turn.R, Turn.U, Turn.R_PRIME])
EIGHT_AWAY = SOLVED.after(
    [Turn.L2, Turn.B_PRIME, Turn.D2, Turn.R_PRIME, Turn.B, Turn.U_PRIME, Turn.B, Turn.L_PRIME]
)
"""So far from home that the screens are asked; nearer, none of the large tables is looked into."""
LONGEST_WAIT = 300.0
"""Seconds until a test gives up: making the large tables takes long on a busy machine."""

Heard = list[Answered | TellAtFoot]


@contextmanager
def working(folder: Path) -> Iterator[AnswerService]:
    service = AnswerService(folder)
    try:
        yield service
    finally:
        service.close()


def until(service: AnswerService, done: Callable[[Heard], Any]) -> Heard:
    """Poll until what has come in satisfies ``done``."""
    heard: Heard = []
    deadline = time.monotonic() + LONGEST_WAIT
    while not done(heard):
        assert time.monotonic() < deadline, heard
        heard += service.poll()
        time.sleep(0.002)
    return heard


def answers(heard: Heard) -> dict[int, Any]:
    return {each.request: each.answer for each in heard if isinstance(each, Answered)}


def notices(heard: Heard) -> list[str]:
    return [each.text for each in heard if isinstance(each, TellAtFoot)]


def test_a_request_is_answered_as_in_this_process(large_folder: Path, solver: Solver) -> None:
    after = MADE.turned(Turn.U)
    with working(large_folder) as service:
        service.ask(7, (MADE, TASK))
        service.ask(8, (after, TASK))
        heard = until(service, lambda heard: len(answers(heard)) == 2)
        assert answers(heard) == {7: answer(solver, MADE, TASK), 8: answer(solver, after, TASK)}
        assert notices(heard) == []


def test_the_process_is_there_before_the_first_question(large_folder: Path) -> None:
    with working(large_folder) as service:
        assert service.process_id is None
        assert list(service.poll()) == []
        assert service.process_id is not None


def test_that_the_process_was_killed_is_told_and_answers_go_on(large_folder: Path) -> None:
    with working(large_folder) as service:
        service.ask(1, (MADE, TASK))
        until(service, answers)
        assert service.process_id is not None
        os.kill(service.process_id, signal.SIGKILL)
        assert notices(until(service, notices)) == [
            "The process that works out answers stopped. The program has started it again."
        ]
        service.ask(2, (MADE.turned(Turn.U), TASK))
        assert list(answers(until(service, answers))) == [2]


def test_large_tables_are_made_while_answers_come_from_the_quick_ones(
    tmp_path: Path, solver: Solver, large_folder: Path
) -> None:
    folder = tmp_path / "tables"
    folder.mkdir()
    # The one that takes half of the time is lent; it is made by the same function, and counted elsewhere.
    os.link(large_folder / f"{PAIR_TABLE}.table", folder / f"{PAIR_TABLE}.table")
    with working(folder) as service:
        service.ask(1, (MADE, TASK))
        heard = until(service, answers)
        assert answers(heard) == {1: answer(solver, MADE, TASK)}
        assert not (folder / f"{SCREEN_TABLE}.table").exists()
        heard += until(service, lambda later: "" in notices(later))
        told = notices(heard)
        assert told[0] == "One-time setup: 0%. You can start now."
        shares = [int(text.partition("%")[0].rpartition(" ")[2]) for text in told[:-1]]
        assert shares == sorted(shares)
        service.ask(2, (MADE.turned(Turn.F), TASK))
        assert list(answers(until(service, answers))) == [2]
    assert {path.stem for path in folder.glob("*.table")} <= TABLES
    for name in LARGE_TABLES:
        assert (folder / f"{name}.table").read_bytes() == (large_folder / f"{name}.table").read_bytes()


def dies(desk: Desk, _folder: Path, _spare: Path | None) -> Callable[[None], None]:
    """In place of what makes large tables: ends the process when it has begun."""

    def build(_: None) -> None:
        desk.tell(TablesShare(0.4))
        os._exit(3)

    return build


def fails(desk: Desk, _folder: Path, _spare: Path | None) -> Callable[[None], None]:
    """In place of what makes large tables: meets a fault when it has begun."""

    def build(_: None) -> None:
        desk.tell(TablesShare(0.4))
        raise ValueError("no room")

    return build


@pytest.mark.parametrize(
    ("build", "told"),
    [
        (dies, [SETUP_RESTARTED, setup_share(0.4), SETUP_RESTARTED, setup_failed(STOPPED_EVERY_TIME)]),
        (fails, [setup_failed("no room")]),
    ],
)
def test_that_large_tables_cannot_be_made_takes_the_place_of_how_much_is_made(
    build: Callable[..., Any],
    told: list[str],
    large_folder: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    for path in large_folder.iterdir():
        os.link(path, tmp_path / path.name)
    (tmp_path / f"{PAIR_TABLE}.table").unlink()
    monkeypatch.setattr("tutor.workers.answers.building", build)
    with working(tmp_path) as service:
        expected = [setup_share(0.0), setup_share(0.4), *told]
        assert notices(until(service, lambda heard: len(notices(heard)) == len(expected))) == expected
        service.ask(1, (MADE, TASK))
        assert list(answers(until(service, answers))) == [1]


def test_a_damaged_large_table_is_said_so_and_made_again(
    large_folder: Path, tmp_path: Path, solver: Solver
) -> None:
    folder = tmp_path / "tables"
    folder.mkdir()
    for path in large_folder.iterdir():
        os.link(path, folder / path.name)
    damaged = folder / "screen-7.table"
    content = damaged.read_bytes()
    damaged.unlink()
    damaged.write_bytes(content[:-9])
    with working(folder) as service:
        service.ask(1, (EIGHT_AWAY, TASK))
        heard = until(service, lambda heard: "" in notices(heard))
        said = {text for text in notices(heard) if text and not text.startswith("One-time setup")}
        (told,) = said
        assert told.startswith("The program cannot use the stored table screen-7 (it has ")
        assert told.endswith("). It will make a new one, and its answers stay exact.")
        assert answers(heard) == {1: answer(solver, EIGHT_AWAY, TASK)}
    assert damaged.read_bytes() == content


def test_a_cache_folder_that_cannot_be_written_still_works(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    with working(tmp_path / "file" / "tables") as service:
        service.ask(1, (MADE, TASK))
        assert answers(until(service, answers))[1].distance == 3
