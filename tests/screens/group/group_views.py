"""The Group screen as a person gets to see it: while it loads, without anybody, and after two months."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, timedelta
from pathlib import Path

from msgspec.structs import replace

from tests.progress.conftest import AttemptMaker
from tests.progress.drawn_group import NAMES, drawn_group
from tests.session.pilot import Pilot
from tutor.method.terms import Step
from tutor.progress.attempt import AttemptRecord
from tutor.progress.presence import At, Engaged, Presence, live
from tutor.progress.store import AttemptStore
from tutor.screens.group.commands import ShowAcross
from tutor.screens.group.state import REPORT
from tutor.screens.group.view import sheet
from tutor.session.house import Session
from tutor.session.record_commands import Exchanged
from tutor.solver.search import Solver
from tutor.ui.view import View
from tutor.workers.recorder import Recorder

ATTEMPTS = tuple(each for made in drawn_group(AttemptMaker()).values() for each in made)
NOW = max(each.time for each in ATTEMPTS) + timedelta(hours=2)
"""When the group is looked at."""


def group_pilot(solver: Solver, folder: Path, attempts: tuple[AttemptRecord, ...] = ()) -> Pilot:
    """A pilot at Home, with the group's learners and these attempts in the store."""
    with AttemptStore.open(folder, lambda: NOW) as store:
        for name in NAMES:
            store.add_learner(name)
        store.merge(attempts)
    pilot = Pilot(solver, keeper=Recorder(folder, lambda: NOW, UTC))
    assert pilot.view.screen == "home"
    pilot.settle()
    return pilot


def group_views(solver: Solver, folder: Path) -> Iterator[tuple[str, View]]:
    """Each state of the screen with its name; the stores lie in ``folder``."""
    empty = group_pilot(solver, folder / "nobody")
    empty.press("open:GROUP")
    yield "group, nobody yet", empty.view
    pilot = group_pilot(solver, folder / "months", ATTEMPTS)
    pilot.press("open:GROUP")
    yield "group", pilot.view
    pilot.press(ShowAcross(_hardest(pilot.session)))
    yield "group, a case across it", pilot.view
    yield "group, as a sheet", sheet(pilot.session)
    pilot.application.give(shared_evening())
    yield "group, on a shared folder", pilot.view
    pilot.application.session = replace(pilot.session, held={})
    yield "group, still loading", pilot.view


def shared_evening() -> Exchanged:
    """A look at a shared folder while six of the group practise."""
    names = (*NAMES, "Osk", "Tamsin")
    case, lesson = Engaged(At.CASE, 14), Engaged(At.LESSON, 3, "Two cases to part", 4, 9)
    at_work = (
        Presence(names[0], case, NOW, 70.0, 2.0, Step.PART, 3),
        Presence(names[1], lesson, NOW, 200.0, 50.0),
        Presence(names[2], Engaged(At.CASE, 8, over=True), NOW, 90.0, 80.0),
        Presence(names[3], Engaged(At.FREE_PLAY), NOW, 400.0, 320.0),
        Presence(names[4], Engaged(At.CASE, 31), NOW, 40.0, 3.0),
        Presence(names[5], Engaged(At.WHOLE_SOLVE), NOW, 500.0, 3.0),
    )
    return Exchanged("/media/evening", others=live(at_work))


def _hardest(session: Session) -> str:
    report = REPORT.of(session)
    assert report is not None
    return report.cases[0].slug
