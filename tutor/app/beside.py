"""What may take longer than a frame, done one thing after the other on a thread beside the window's."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from typing import Generic, TypeVar

T = TypeVar("T")


class Beside(Generic[T]):
    """A thread that starts with the first thing to do, and what has come of each."""

    def __init__(self, name: str, *, at_once: bool = False) -> None:
        """``at_once`` does without the thread; what came of it is told by the next ``poll`` all the same."""
        self._name, self._at_once = name, at_once
        self._thread: ThreadPoolExecutor | None = None
        self._begun: list[Future[T]] = []

    def begin(self, work: Callable[[], T]) -> None:
        """Do this after all that was begun before."""
        if self._at_once:
            future: Future[T] = Future()
            future.set_result(work())
        else:
            self._thread = self._thread or ThreadPoolExecutor(1, self._name)
            future = self._thread.submit(work)
        self._begun.append(future)

    def poll(self) -> Iterator[T]:
        """What has come of what is done, each once; raises what the work raised. Never waits."""
        for future in [future for future in self._begun if future.done()]:
            self._begun.remove(future)
            yield future.result()

    def close(self) -> None:
        """Wait until all that was begun is done."""
        if self._thread is not None:
            self._thread.shutdown(wait=True)
