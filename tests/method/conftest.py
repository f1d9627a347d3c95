"""A solver for the tests of whole answers."""

from __future__ import annotations

import pytest

from tutor.solver.search import Solver


@pytest.fixture(scope="session")
def solver(tmp_path_factory: pytest.TempPathFactory) -> Solver:
    return Solver.open(tmp_path_factory.mktemp("tables"))
