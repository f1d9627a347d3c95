"""Settings, the solver and all kinds of view, shared by every test."""

from __future__ import annotations

import fcntl
import os
import shutil
import signal
import sys
import tempfile
from collections.abc import Iterator
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import settings

from tutor.solver.search import Solver
from tutor.solver.store import default_folder

if TYPE_CHECKING:
    from tutor.session.house import Session
    from tutor.ui.view import View

# How long an example takes depends on the machine; speed is measured in tests/bench alone.
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")

EXTRAS = {"film": "av", "sheet": "fpdf", "planner": "unified_planning"}
"""What can be left out of an installation, but not here, each with a module that it brings."""


def pytest_configure(config: pytest.Config) -> None:
    """What the tests need is installed.

    Programs that tests start find their tables where the tests do, and leave the user's cache alone.

    A run that a test starts, in a copy of the tree, has its tables in the same place.
    """
    _hear_signals()
    missing = [extra for extra, module in EXTRAS.items() if find_spec(module) is None]
    if missing:
        wanted = f"pip install --editable '.[{','.join(missing)}]'"
        raise pytest.UsageError(f"these tests need more than is installed; type “{wanted}”")
    if "PYTEST_CURRENT_TEST" not in os.environ:
        os.environ["XDG_CACHE_HOME"] = str(config.rootpath / ".pytest_cache" / "programs")
        _keep_what_is_compiled(config.rootpath / ".pytest_cache" / "compiled")


def _hear_signals() -> None:
    """A run in the background is begun with signals ignored; what tests start would ignore them as well."""
    for number, usual in ((signal.SIGINT, signal.default_int_handler), (signal.SIGHUP, signal.SIG_DFL)):
        if signal.getsignal(number) is signal.SIG_IGN:
            signal.signal(number, usual)


def _keep_what_is_compiled(folder: Path) -> None:
    """Where nothing compiled may lie beside the sources, it lies elsewhere.

    Without it every process that a test starts compiles the whole program anew.
    """
    if os.environ.pop("PYTHONDONTWRITEBYTECODE", ""):
        os.environ["PYTHONPYCACHEPREFIX"] = sys.pycache_prefix = str(folder)
        sys.dont_write_bytecode = False


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Let the longest test begin first, so that all others run beside it; then what takes most to prepare.

    Of several processes each begins elsewhere in this order. So as a rule only one makes the tables and the
    views, and none waits for another to make them.
    """
    named: dict[Path, set[str]] = {}
    for item in items:
        named.setdefault(item.path, set()).update(getattr(item, "fixturenames", ()))

    def rank(item: pytest.Item) -> int:
        if item.name.startswith("test_on_a_fresh_machine"):
            return 0
        return next((1 + n for n, fixture in enumerate(("walk", "solver")) if fixture in named[item.path]), 3)

    items.sort(key=rank)


@pytest.fixture
def open_folder() -> Iterator[Path]:
    """A folder that other users of the machine can reach, unlike pytest's own."""
    folder = Path(tempfile.mkdtemp())
    folder.chmod(0o777)
    yield folder
    for each in (folder, *folder.glob("*/")):
        each.chmod(0o777)
    shutil.rmtree(folder)


@pytest.fixture(scope="session")
def large_folder() -> Path:
    """A cache folder that has the large tables, made once for all processes and runs of a checkout."""
    folder = default_folder()
    folder.mkdir(parents=True, exist_ok=True)
    with (folder.parent / "large-tables.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        Solver.open(folder).tables.build_large(lambda share: None)
    return folder


@pytest.fixture(scope="session")
def solver(large_folder: Path) -> Solver:
    """The solver with its large tables, so that positions far from home cost little."""
    return Solver.open(large_folder)


@pytest.fixture(scope="session")
def walk(solver: Solver) -> dict[str, tuple[View, Session]]:
    """The screens that one walk through the program leads to, each with its session."""
    # Imported here, so that tests of lower packages do not load all screens.
    from tests.screens.all_views import every_lesson, screens
    from tests.session.pilot import Pilot

    pilot = Pilot(solver, every_lesson(solver))
    return {name: (view, pilot.session) for name, view in screens(pilot)}


@pytest.fixture(scope="session")
def views(
    walk: dict[str, tuple[View, Session]], solver: Solver, tmp_path_factory: pytest.TempPathFactory
) -> dict[str, View]:
    """All kinds of view by name, made once for all tests of a process."""
    from tests.screens.all_views import of_learners

    walked = {name: view for name, (view, _) in walk.items()}
    return walked | dict(of_learners(solver, tmp_path_factory.mktemp("views")))
