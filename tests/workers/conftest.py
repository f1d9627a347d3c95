"""The solver for tests of what runs beside the window."""

from __future__ import annotations

from pathlib import Path

import pytest

from tutor.solver.search import Solver


@pytest.fixture(scope="session")
def large_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A cache folder with all tables."""
    folder = tmp_path_factory.mktemp("large") / "tables"
    Solver.open(folder).tables.build_large(lambda _: None)
    return folder


@pytest.fixture(scope="session")
def solver(large_folder: Path) -> Solver:
    return Solver.open(large_folder)
