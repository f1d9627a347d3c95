"""Settings and tables shared by every test."""

from __future__ import annotations

import fcntl
import os
from pathlib import Path

import pytest
from hypothesis import settings

from tutor.solver.tables import Tables

# How long an example takes depends on the machine; speed is measured in tests/bench alone.
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")


@pytest.fixture(scope="session")
def large_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A cache folder that has the large tables, made once for all processes of a run."""
    folder = tmp_path_factory.getbasetemp()
    if "PYTEST_XDIST_WORKER" in os.environ:
        folder = folder.parent
    with (folder / "large-tables.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        Tables.open(folder / "large-tables").build_large(lambda share: None)
    return folder / "large-tables"
