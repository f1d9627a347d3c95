"""The solver and a pilot for tests of the session."""

from __future__ import annotations

import pytest

from tests.session.pilot import Pilot
from tutor.solver.search import Solver


@pytest.fixture(scope="session")
def solver() -> Solver:
    return Solver.open()


@pytest.fixture
def pilot(solver: Solver) -> Pilot:
    return Pilot(solver)
