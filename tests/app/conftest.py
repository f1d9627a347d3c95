"""The solver for tests of the whole program."""

from __future__ import annotations

import pytest

from tutor.solver.search import Solver


@pytest.fixture(scope="session")
def solver() -> Solver:
    return Solver.open()
