"""What runs in the worker process and in the process that makes large tables, and the messages they send.

Either process ends by itself when its pipe is closed, so also when the program that started it dies.
"""

from __future__ import annotations

import signal
from collections.abc import Callable
from dataclasses import dataclass
from multiprocessing.connection import Connection
from pathlib import Path
from typing import Any

from tutor.cube.position import Position
from tutor.solver.search import Solver, TurnDistances
from tutor.solver.store import Notice, Store
from tutor.solver.tables import Tables
from tutor.solver.task import Task

Compute = Callable[[Solver, Position, Task], Any]
"""What to work out for a request: a function at the top level of a module, so that it can be pickled."""


def distances_of(solver: Solver, position: Position, task: Task) -> TurnDistances:
    """The plainest thing to compute: the 18 distances."""
    return solver.distances(position, task)


@dataclass(frozen=True, slots=True)
class Item:
    """Something to work out; without a request id it is work ahead."""

    position: Position
    task: Task
    request_id: int | None


@dataclass(frozen=True, slots=True)
class Wish:
    """All that is wanted, in order; replaces the wish before it."""

    serial: int
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class Taken:
    """The wish of this number has been read."""

    serial: int


@dataclass(frozen=True, slots=True)
class Computed:
    """An item and its value."""

    item: Item
    value: Any


@dataclass(frozen=True, slots=True)
class Failure:
    """An item that raised an error."""

    item: Item
    text: str


@dataclass(frozen=True, slots=True)
class LargeMissing:
    """The worker found no large tables and works with the quick ones."""


@dataclass(frozen=True, slots=True)
class Upgraded:
    """The large tables are there now."""


@dataclass(frozen=True, slots=True)
class Share:
    """How much of the large tables is made, from 0 to 1."""

    share: float


class SearchInterruptedError(Exception):
    """Raised inside a search when a message has come in."""


def run_worker(pipe: Connection, compute: Compute, folder: Path, spare: Path | None) -> None:
    """Work wishes off until the pipe is closed."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the program that started this decides when it ends
    try:
        _Work(pipe, compute, Store(folder, spare)).run()
    except (EOFError, BrokenPipeError, ConnectionResetError):
        return


class _Work:
    """The worker's loop: the newest wish, item by item."""

    def __init__(self, pipe: Connection, compute: Compute, store: Store) -> None:
        self._pipe = pipe
        self._compute = compute
        self._tables = Tables(store)
        self._solver = Solver(self._tables, self._look_up_from_work)
        self._items: list[Item] = []
        self._told: set[Notice] = set()
        self._missing_told = False

    def run(self) -> None:
        """Never returns; ends with EOFError when the pipe is closed."""
        self._tell_missing()
        while True:
            while not self._items or self._pipe.poll():
                self._read(self._pipe.recv())
            self._work(self._items[0])
            self._tell_missing()
            self._tell_notices()

    def _read(self, message: object) -> None:
        match message:
            case Wish(serial, items):
                self._items = list(items)
                self._pipe.send(Taken(serial))
            case Upgraded():
                self._tables.refresh()
                self._missing_told = False

    def _work(self, item: Item) -> None:
        try:
            result: object = Computed(item, self._compute(self._solver, item.position, item.task))
        except SearchInterruptedError:
            return
        except Exception as error:
            result = Failure(item, f"No answer could be worked out: {error}")
        self._items.pop(0)
        self._pipe.send(result)

    def _look_up_from_work(self) -> None:
        if self._pipe.poll():
            raise SearchInterruptedError

    def _tell_missing(self) -> None:
        if not self._missing_told and not self._tables.large_ready():
            self._missing_told = True
            self._pipe.send(LargeMissing())

    def _tell_notices(self) -> None:
        for notice in self._tables.notices:
            if notice not in self._told:
                self._told.add(notice)
                self._pipe.send(notice)


def run_builder(pipe: Connection, folder: Path, spare: Path | None) -> None:
    """Make the large tables that are missing, telling how far it is."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        tables = Tables(Store(folder, spare))
        tables.build_large(lambda share: pipe.send(Share(share)))
        for notice in tables.notices:
            pipe.send(notice)
        pipe.send(Upgraded())
    except (EOFError, BrokenPipeError, ConnectionResetError):
        return
