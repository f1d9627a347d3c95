"""Giving tasks to learners, and noting that they are done or withdrawn, in the store."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime

from tutor.progress.assignment import AssignedState, Assignment
from tutor.progress.store import AttemptStore


def assign(
    store: AttemptStore,
    learners: Iterable[str],
    task: str,
    now: datetime,
    *,
    until: date | None = None,
    state: AssignedState = AssignedState.GIVEN,
) -> tuple[Assignment, ...]:
    """Keep the task for each learner and return what is kept.

    To be done or withdrawn it must have been given; what was not is left out. Raises AttemptError for what
    is no task, StoreError when it cannot be written.
    """
    kept = []
    for learner in learners:
        before = next((each for each in store.assignments(learner) if each.task == task), None)
        if state is AssignedState.GIVEN:
            note = Assignment(learner, task, now, now, until)
        elif before is not None and before.state not in (state, AssignedState.WITHDRAWN):
            note = Assignment(learner, task, now, before.given, before.until, state)
        else:
            continue
        store.assign(note)
        kept.append(note)
    return tuple(kept)
