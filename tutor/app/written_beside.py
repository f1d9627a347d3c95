"""What is kept in small files, written on a thread beside the window's, since a disk may be slow."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from typing import Generic, TypeVar

from tutor.app.beside import Beside
from tutor.session.commands import Command

T = TypeVar("T")


class WrittenBeside(Generic[T]):
    """Writes one thing after the other. Of several of one kind that wait, only the latest is written."""

    def __init__(self, write: Callable[[T], tuple[Command, ...]], *, beside: bool = True) -> None:
        """``write`` writes, and says what to tell; it is called on a thread ``beside``, or else at once."""
        self._write = write
        self._thread: Beside[tuple[Command, ...]] | None = Beside("files") if beside else None
        self._waiting: dict[type, T] = {}

    def begin(self, what: T) -> tuple[Command, ...]:
        """Write this soon, its type is its kind; what there is to tell of it already."""
        if self._thread is None:
            return self._write(what)
        self._waiting[type(what)] = what
        self._thread.begin(partial(self._latest, type(what)))
        return ()

    def _latest(self, kind: type) -> tuple[Command, ...]:
        what = self._waiting.pop(kind, None)
        return () if what is None else self._write(what)

    def poll(self) -> Iterator[Command]:
        """What there is to tell of what has been written since; never waits."""
        for told in self._thread.poll() if self._thread is not None else ():
            yield from told

    def close(self) -> None:
        """Wait until everything has been written."""
        if self._thread is not None:
            self._thread.close()
