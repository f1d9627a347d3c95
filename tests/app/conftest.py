"""The solver for tests of the whole program."""

from __future__ import annotations

import pytest

from tutor.solver.search import Solver


@pytest.fixture(scope="session")
def solver() -> Solver:
    """With the large tables, so that no window tells of making them."""
    found = Solver.open()
    found.tables.build_large(lambda _: None)
    return found
