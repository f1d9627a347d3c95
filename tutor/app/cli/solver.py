"""A solver for commands without a window."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from tutor.app.terminal import complain
from tutor.solver.search import Solver


@contextmanager
def open_solver() -> Iterator[Solver]:
    """A solver with the user's tables; what it has to say about them goes to standard error at the end."""
    solver = Solver.open()
    try:
        yield solver
    finally:
        for notice in solver.notices:
            complain(notice.text)
