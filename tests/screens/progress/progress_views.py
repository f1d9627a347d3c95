"""The Progress screen as a person gets to see it: at first, and after weeks of practice."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path

from msgspec.structs import replace

from tests.make_history import asker, history
from tests.screens.progress.test_progress import ILVA, NOW, seated
from tutor.screens.progress.view import sheet
from tutor.solver.search import Solver
from tutor.ui.view import View


def progress_views(solver: Solver, folder: Path) -> Iterator[tuple[str, View]]:
    """Each state of the screen with its name; the stores lie in ``folder``."""
    yield "progress, new", seated(solver, folder / "new").view
    attempts = tuple(history(asker(solver), ILVA, weeks=2, begins=NOW - timedelta(days=15)))
    for name, some in (("once", attempts[:1]), ("weeks", attempts)):
        pilot = seated(solver, folder / name, some)
        yield f"progress, {name}", pilot.view
        pilot.key("tab")
        pilot.key("tab")
        yield f"progress, {name}, told more of a case", pilot.view
    yield "progress, as a sheet", sheet(pilot.session)
    pilot.application.session = replace(
        pilot.session, records=replace(pilot.session.records, summarised=None)
    )
    yield "progress, still counting", pilot.view
