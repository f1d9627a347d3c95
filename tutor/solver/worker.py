"""Answers computed in a process of their own, so that no frame waits; and the same interface without one.

The process is started with the ``spawn`` method: a program that uses ``Worker`` must guard its main module.
What is wanted is told whole each time, the newest first of all; what is no longer wanted is dropped, even in
the middle of a search. Everything is read with ``poll``, which never blocks.
"""

from __future__ import annotations

from collections import OrderedDict, deque
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Protocol

from tutor.cube.position import Position
from tutor.solver.link import Link
from tutor.solver.process import (
    Compute,
    Computed,
    Failure,
    Item,
    LargeMissing,
    Share,
    Taken,
    Upgraded,
    Wish,
    distances_of,
    run_builder,
    run_worker,
)
from tutor.solver.search import Solver
from tutor.solver.store import Notice, Store
from tutor.solver.task import Task

REMEMBERED = 4096
"""So many answers are kept in memory, the least lately used dropped first."""


@dataclass(frozen=True, slots=True)
class Answered:
    """The answer to a request; ``value`` is what the worker was given to compute."""

    request_id: int
    position: Position
    task: Task
    value: Any


@dataclass(frozen=True, slots=True)
class Failed:
    """A request that could not be answered, and why in one sentence."""

    request_id: int
    text: str


@dataclass(frozen=True, slots=True)
class Building:
    """How much of the large tables is made, from 0 to 1. Answers are exact meanwhile, only slower."""

    share: float


@dataclass(frozen=True, slots=True)
class Restarted:
    """A process ended unexpectedly and has been started again; nothing asked for is lost."""

    text: str


Report = Answered | Failed | Building | Restarted | Notice


class AnswerSource(Protocol):
    """Where answers come from: a worker process, or this very process."""

    def request(self, request_id: int, position: Position, task: Task) -> None:
        """Ask for an answer. Requests not yet answered, and what was to be prefetched, are dropped."""

    def prefetch(self, wanted: Iterable[tuple[Position, Task]]) -> None:
        """Have these worked out after the request, in this order; replaces what was to be prefetched."""

    def known(self, position: Position, task: Task) -> Any | None:
        """The answer if it has been worked out already."""

    def poll(self) -> tuple[Report, ...]:
        """What has come in since the last time; never blocks."""

    def close(self) -> None:
        """End it; may be called more than once."""


class Memory:
    """Answers by position and task, the least lately used dropped first."""

    def __init__(self, size: int = REMEMBERED) -> None:
        self._size = size
        self._answers: OrderedDict[tuple[Position, Task], Any] = OrderedDict()

    def get(self, position: Position, task: Task) -> Any | None:
        """The answer, or None."""
        key = position, task
        if key in self._answers:
            self._answers.move_to_end(key)
        return self._answers.get(key)

    def put(self, position: Position, task: Task, value: Any) -> None:
        """Keep an answer."""
        self._answers[position, task] = value
        self._answers.move_to_end((position, task))
        if len(self._answers) > self._size:
            self._answers.popitem(last=False)


class InProcess:
    """The interface of ``Worker`` with everything computed at once in this process."""

    def __init__(self, compute: Compute = distances_of, cache_folder: Path | None = None) -> None:
        self._compute = compute
        self._solver = Solver.open(cache_folder)
        self._memory = Memory()
        self._reports: deque[Report] = deque()
        self._told = 0

    def request(self, request_id: int, position: Position, task: Task) -> None:
        """Work an answer out now; ``poll`` hands it over."""
        self._reports.clear()
        value = self._memory.get(position, task)
        if value is None:
            try:
                value = self._compute(self._solver, position, task)
            except Exception as error:
                self._reports.append(Failed(request_id, f"No answer could be worked out: {error}"))
                return
            self._memory.put(position, task, value)
        self._reports.append(Answered(request_id, position, task, value))

    def prefetch(self, wanted: Iterable[tuple[Position, Task]]) -> None:
        """Nothing: answers are worked out when they are asked for."""

    def known(self, position: Position, task: Task) -> Any | None:
        """The answer if it has been worked out already."""
        return self._memory.get(position, task)

    def poll(self) -> tuple[Report, ...]:
        """What has come in since the last time."""
        notices = self._solver.notices
        self._reports.extend(notices[self._told :])
        self._told = len(notices)
        reports = tuple(self._reports)
        self._reports.clear()
        return reports

    def close(self) -> None:
        """Nothing to end."""


class Worker:
    """Answers from a worker process; a second process makes the large tables when they are missing."""

    def __init__(self, compute: Compute = distances_of, cache_folder: Path | None = None) -> None:
        self._compute = compute
        self._store = Store(cache_folder)
        self._store.writable_spare()
        self._memory = Memory()
        self._reports: deque[Report] = deque()
        self._request: Item | None = None
        self._ahead: tuple[Item, ...] = ()
        self._builder: Link | None = None
        self._builders_left = 2
        self._closed = False
        self._link: Link | None = None
        self._serial = 0
        self._deaths = 0
        self._changed = False
        self._begin()

    def request(self, request_id: int, position: Position, task: Task) -> None:
        """Ask for an answer. Requests not yet answered, and what was to be prefetched, are dropped."""
        self._request, self._ahead = None, ()
        value = self._memory.get(position, task)
        if value is None:
            self._request = Item(position, task, request_id)
        else:
            self._reports.append(Answered(request_id, position, task, value))
        self._wish()

    def prefetch(self, wanted: Iterable[tuple[Position, Task]]) -> None:
        """Have these worked out after the request, in this order; replaces what was to be prefetched."""
        new = [pair for pair in wanted if self._memory.get(*pair) is None]
        self._ahead = tuple(Item(position, task, None) for position, task in new)
        self._wish()

    def known(self, position: Position, task: Task) -> Any | None:
        """The answer if it has been worked out already."""
        return self._memory.get(position, task)

    def poll(self) -> tuple[Report, ...]:
        """What has come in since the last time; never blocks."""
        self._receive()
        self._watch_builder()
        self._send()
        reports = tuple(self._reports)
        self._reports.clear()
        return reports

    def close(self) -> None:
        """End the processes; what they were doing is dropped. May be called more than once."""
        if self._closed:
            return
        self._closed = True
        if self._link is not None:
            self._link.end()
        if self._builder is not None:
            self._builder.end(at_once=True)

    @property
    def process_id(self) -> int | None:
        """The number of the worker process, for tests and diagnosis; None while there is none."""
        return None if self._link is None else self._link.process_id

    def _begin(self) -> Link:
        self._acknowledged = True
        self._link = Link(run_worker, self._compute, self._store.folder, self._store.spare)
        return self._link

    def _wish(self) -> None:
        self._changed = True
        self._receive()
        self._send()

    def _send(self) -> None:
        """Tell what is wanted; never more than one message is under way, so that sending cannot block."""
        if self._closed or not self._changed:
            return
        link = self._link or self._begin()
        if self._acknowledged:
            items = self._ahead if self._request is None else (self._request, *self._ahead)
            self._serial += 1
            self._changed = self._acknowledged = not link.send(Wish(self._serial, items))

    def _receive(self) -> None:
        if self._closed or self._link is None:
            return
        messages, alive = self._link.receive()
        for message in messages:
            self._take(message)
        if not alive:
            self._restart()

    def _take(self, message: object) -> None:
        match message:
            case Taken(serial):
                self._acknowledged = serial == self._serial
            case Computed(item, value):
                self._deaths = 0
                self._memory.put(item.position, item.task, value)
                self._settle(item, value)
            case Failure(item, text):
                self._give_up(item, text)
            case LargeMissing():
                self._start_builder()
            case Notice():
                self._reports.append(message)

    def _settle(self, item: Item, value: Any) -> None:
        """Answer the request if this is what it asks, and take work ahead off the list."""
        wanted = self._request
        if wanted is not None and (wanted.position, wanted.task) == (item.position, item.task):
            self._reports.append(Answered(wanted.request_id or 0, item.position, item.task, value))
            self._request = None
        self._ahead = tuple(other for other in self._ahead if other != item)

    def _give_up(self, item: Item, text: str) -> None:
        if self._request is not None and item == self._request:
            self._reports.append(Failed(self._request.request_id or 0, text))
            self._request = None
        self._ahead = tuple(other for other in self._ahead if other != item)

    def _restart(self) -> None:
        """Start anew after the process has died; what it dies of twice in a row is given up."""
        if self._link is not None:
            self._link.end(at_once=True)
        self._link = None
        self._deaths += 1
        self._reports.append(Restarted("The process that works out answers ended and is started again."))
        if self._deaths > 1:
            if self._request is not None:
                self._give_up(
                    self._request, "The process that works out answers ended twice over this position."
                )
            self._ahead = ()
        self._changed = self._request is not None or bool(self._ahead)

    def _start_builder(self) -> None:
        if self._builder is None and self._builders_left:
            self._builders_left -= 1
            self._builder = Link(run_builder, self._store.folder, self._store.spare)
            self._reports.append(Building(0.0))

    def _watch_builder(self) -> None:
        if self._builder is None or self._closed:
            return
        messages, alive = self._builder.receive()
        shares = [message.share for message in messages if isinstance(message, Share)]
        if shares:
            self._reports.append(Building(shares[-1]))
        self._reports.extend(message for message in messages if isinstance(message, Notice))
        if not alive:
            finished = any(isinstance(message, Upgraded) for message in messages)
            self._builder.end(at_once=True)
            self._builder = None
            if not finished:
                self._start_builder()
            elif self._link is not None:
                self._link.send(Upgraded())
