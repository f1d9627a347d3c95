"""Table folders and solvers shared by the solver's tests."""

from __future__ import annotations

from pathlib import Path

import pytest

from tutor.solver.nodes import CLASSES
from tutor.solver.search import Solver
from tutor.solver.tables import Tables


@pytest.fixture(scope="session")
def quick_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A cache folder that has the quick tables only."""
    folder = tmp_path_factory.mktemp("quick") / "tables"
    tables = Tables.open(folder)
    for index in range(len(CLASSES)):
        tables.engine(index)
    return folder


@pytest.fixture(scope="session")
def quick_solver(quick_folder: Path) -> Solver:
    return Solver.open(quick_folder)
