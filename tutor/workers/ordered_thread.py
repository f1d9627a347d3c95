"""A thread beside the window's for work that may take longer than a frame."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from typing import Generic, TypeVar

T = TypeVar("T")


class OrderedThread(Generic[T]):
    """A thread that does its work in order; it starts with the first piece of work."""

    def __init__(self, name: str) -> None:
        """``name`` names the thread, for diagnosis."""
        self._thread = ThreadPoolExecutor(1, name)
        self._begun: list[Future[T]] = []
        self._latest: dict[str, Future[T]] = {}

    @property
    def busy(self) -> bool:
        """Whether some work is not finished, or ``poll`` has not given its result."""
        return bool(self._begun)

    def begin(self, work: Callable[[], T], replacing: str = "") -> None:
        """Put this work last; it replaces work that still waits under the same ``replacing``."""
        if replacing in self._latest:
            self._latest[replacing].cancel()
        future = self._thread.submit(work)
        self._begun.append(future)
        if replacing:
            self._latest[replacing] = future

    def poll(self) -> Iterator[T]:
        """The results of finished work, each once; raises what the work raised. Never waits."""
        while future := next((future for future in self._begun if future.done()), None):
            self._begun.remove(future)
            if not future.cancelled():
                yield future.result()

    def close(self) -> None:
        """Wait until all work is done."""
        self._thread.shutdown(wait=True)

    def abandon(self) -> None:
        """Drop the work that waits, and do not wait for the rest."""
        self._thread.shutdown(wait=False, cancel_futures=True)
