from __future__ import annotations

import threading
from functools import partial

import pytest

from tutor.workers.ordered_thread import OrderedThread

PATIENCE = 10.0


class Disk:
    """Writes down what it is given, and only while it is let."""

    def __init__(self) -> None:
        self.free = threading.Event()
        self.written: list[object] = []
        self.threads: set[str] = set()

    def write(self, what: object) -> object:
        assert self.free.wait(PATIENCE)
        self.threads.add(threading.current_thread().name)
        self.written.append(what)
        return what


def test_everything_is_done_in_order_on_another_thread_and_told_once() -> None:
    disk, thread = Disk(), OrderedThread[object]("files")
    for what in range(5):
        thread.begin(partial(disk.write, what))
    assert list(thread.poll()) == []
    assert thread.busy
    disk.free.set()
    thread.close()
    assert list(thread.poll()) == disk.written == list(range(5))
    assert list(thread.poll()) == []
    assert not thread.busy
    assert threading.current_thread().name not in disk.threads


def test_of_what_waits_the_latest_of_each_kind_is_done_and_nothing_is_left_at_the_end() -> None:
    disk, thread = Disk(), OrderedThread[object]("files")
    for what in (1, 2, 3, "a", 4, "b", "c"):
        thread.begin(partial(disk.write, what), replacing=type(what).__name__)
    assert disk.written == []
    disk.free.set()
    thread.close()
    # The first may have been begun when the others came.
    assert disk.written in ([1, 4, "c"], [4, "c"])
    assert list(thread.poll()) == disk.written
    assert not thread.busy


def test_what_the_work_raised_is_raised_to_whoever_listens_and_the_rest_is_told_later() -> None:
    thread = OrderedThread[object]("files")
    thread.begin(partial(int, "three"))
    thread.begin(partial(int, "3"))
    thread.close()
    with pytest.raises(ValueError, match="three"):
        list(thread.poll())
    assert list(thread.poll()) == [3]


def test_what_is_begun_while_listening_is_neither_lost_nor_told_twice() -> None:
    thread = OrderedThread[object]("files")
    for what in range(3):
        thread.begin(partial(abs, what))
    thread.close()
    listening = thread.poll()
    assert next(listening) == 0
    assert list(thread.poll()) == [1, 2]
    assert list(listening) == []


def test_abandoned_it_does_nothing_more_of_what_waits() -> None:
    disk, thread = Disk(), OrderedThread[object]("lessons")
    begun = threading.Event()

    def under_way() -> object:
        begun.set()
        return disk.write("under way")

    thread.begin(under_way)
    thread.begin(partial(disk.write, "waiting"))
    assert begun.wait(PATIENCE)
    thread.abandon()
    disk.free.set()
    thread.close()
    assert disk.written == ["under way"]
