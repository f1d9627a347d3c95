"""A learner at practice: the real application over a real store, with one clock by hand for both."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import UTC, datetime
from pathlib import Path
from uuid import uuid4

from msgspec.structs import replace

from tests.session.held import held
from tests.session.pilot import EPOCH, Pilot, Reading
from tutor.app.services import Keeper
from tutor.coach.guidance import Help
from tutor.cube.position import Slot
from tutor.lesson.scenes import Lesson
from tutor.method.cases import CASES
from tutor.progress.attempt import GUEST, AttemptRecord, Mode, Outcome
from tutor.progress.store import AttemptStore
from tutor.screens.practice.state import RUN, CaseRun, RunPhase
from tutor.solver.search import Solver
from tutor.workers.recorder import Recorder

DAY = 24 * 3600.0


def clock_of(pilot: list[Pilot]) -> Callable[[], datetime]:
    return lambda: datetime.fromtimestamp(EPOCH + pilot[0].now, UTC)


def sits_down(
    solver: Solver,
    folder: Path,
    keep: Callable[[Recorder], Keeper] = lambda recorder: recorder,
    lessons: Sequence[Lesson] = (),
) -> Pilot:
    """A pilot whose attempts are kept in a folder; the records have been read."""
    holder: list[Pilot] = []
    recorder = Recorder(folder, clock_of(holder), zone=UTC)
    listed = {lesson.name: lesson for lesson in lessons}
    holder.append(Pilot(solver, listed, keeper=keep(recorder)))
    application = holder[0].application
    records = replace(application.session.records, mark=uuid4())
    application.session = replace(application.session, records=records)
    assert holder[0].view.stage is None  # the first frame, after which the records are read
    holder[0].settle()
    return holder[0]


def practised_before(folder: Path, days: int = 10, cases: int = 6, learner: str = GUEST) -> None:
    """So many cases, each done well once a day for some days before the pilot's time 0."""
    begin = EPOCH - days * DAY
    with AttemptStore.open(folder, lambda: datetime.fromtimestamp(EPOCH, UTC)) as store:
        if learner != GUEST:
            store.add_learner(learner)
        for day in range(0, days, 3):
            for number, case in enumerate(CASES[:cases]):
                time = datetime.fromtimestamp(begin + day * DAY + 60.0 * number, UTC)
                store.record(
                    AttemptRecord(learner, time, case.slug, Slot.FR, 0, Mode.TODAY, Outcome.SOLVED, 3, 3, 9.0)
                )


def on_disk(folder: Path) -> tuple[AttemptRecord, ...]:
    with AttemptStore.open(folder) as store:
        return store.attempts()


def run_of(pilot: Pilot) -> CaseRun:
    assert RUN.of(pilot.session) is not None
    return held(RUN.of(pilot.session))


def finish(pilot: Pilot) -> CaseRun:
    """Whatever the run asks, done by a shortest line."""
    pilot.settle()
    if run_of(pilot).phase is RunPhase.LOOKING:
        pilot.key("enter")
        pilot.settle()
    if run_of(pilot).phase is RunPhase.SHOWING:
        # Every sentence stays until it can be read, and the learner reads no longer than that.
        while pilot.moving:
            pilot.wait(1.0)
        pilot.key("enter")
        pilot.settle()
    while run_of(pilot).phase is RunPhase.TURNING:
        answer = pilot.session.answers.at(run_of(pilot).attempt.bearing())
        assert answer is not None
        pilot.wait(1.0)
        pilot.turn(answer.lines[0][0].notation)
    return run_of(pilot)


def watched(run: CaseRun) -> bool:
    return run.help is Help.WATCH and not run.made


def go_on(pilot: Pilot) -> None:
    pilot.key("enter")
    pilot.settle()


def texts(pilot: Pilot) -> str:
    """Everything that can be read, as one text."""
    return " ".join(Reading(pilot.view).texts)


def begin(pilot: Pilot, action: str = "practise:TODAY:") -> None:
    pilot.press("open:PRACTICE")
    pilot.press(action)
    pilot.settle()
