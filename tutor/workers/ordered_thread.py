"""What may take longer than a frame, done one thing after the other on a thread beside the window's."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from typing import Generic, TypeVar

T = TypeVar("T")


class OrderedThread(Generic[T]):
    """A thread that starts with the first thing to do, and what has come of each."""

    def __init__(self, name: str) -> None:
        """``name`` is the thread's, for diagnosis."""
        self._thread = ThreadPoolExecutor(1, name)
        self._begun: list[Future[T]] = []
        self._latest: dict[str, Future[T]] = {}

    @property
    def busy(self) -> bool:
        """Whether something begun has not been handed over by ``poll``."""
        return bool(self._begun)

    def begin(self, work: Callable[[], T], replacing: str = "") -> None:
        """Do this after all that was begun before, instead of what waits under the same ``replacing``."""
        if replacing in self._latest:
            self._latest[replacing].cancel()
        future = self._thread.submit(work)
        self._begun.append(future)
        if replacing:
            self._latest[replacing] = future

    def poll(self) -> Iterator[T]:
        """What has come of what is done, each once; raises what the work raised. Never waits."""
        while future := next((future for future in self._begun if future.done()), None):
            self._begun.remove(future)
            if not future.cancelled():
                yield future.result()

    def close(self) -> None:
        """Wait until all that was begun is done."""
        self._thread.shutdown(wait=True)

    def abandon(self) -> None:
        """Do nothing more of what waits, and do not wait for what is being done."""
        self._thread.shutdown(wait=False, cancel_futures=True)
