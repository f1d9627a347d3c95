"""Attempts in brief: what schedule and summary count, as columns of numbers."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, datetime, timedelta

import numpy as np
from numpy.typing import NDArray

from tutor.method.cases import CASES
from tutor.method.terms import TURNING_STEPS, Verdict
from tutor.progress.attempt import AttemptRecord, Mode, Outcome
from tutor.progress.mixup import MIXUPS, mixup_of

RESULT = np.dtype(
    [
        ("time", "i8"),
        ("seconds", "f4"),
        ("first_turn", "f4"),
        ("case", "u1"),
        ("made", "i4"),
        ("used", "i4"),
        ("fewest", "i4"),
        ("taught", "i4"),
        ("shown", "i4"),
        ("slot", "u1"),
        ("mirror", "?"),
        ("mode", "u1"),
        ("outcome", "u1"),
        ("worst", "u1"),
        ("mixup", "u1"),
        ("rung", "u1"),
        ("hints", "i4"),
        ("step_cost", "i4", (len(TURNING_STEPS),)),
    ]
)
"""One attempt in brief.

``time``: microseconds since 1970 in UTC; ``seconds`` and ``first_turn`` as in the attempt, the latter NaN
when there is none; ``case``: its place in ``CASES``; ``made``: turns made, those taken back included;
``fewest``: those that the learner's turns are counted against; ``taught``: those of the way taught; ``mode``,
``outcome``: places in ``MODES`` and ``OUTCOMES``; ``worst``: place of the worst verdict in ``VERDICTS``;
``mixup``: place in ``MIXUPS`` of what first led astray; ``rung``: the deepest hint; ``hints``: how many;
``step_cost``: turns lost in each of the turning steps.
"""

Results = NDArray[np.void]
"""Attempts in brief, in the order of time (equal times: of their uuids), with dtype ``RESULT``."""

MODES: tuple[Mode, ...] = tuple(Mode)
OUTCOMES: tuple[Outcome, ...] = tuple(Outcome)
VERDICTS: tuple[Verdict, ...] = (Verdict.OPTIMAL, Verdict.ACCEPTABLE, Verdict.DETOUR)

CASE_PLACES = {case.slug: place for place, case in enumerate(CASES)}
"""The place of each case in ``CASES``, by its slug."""

_ASTRAY = VERDICTS.index(Verdict.DETOUR)
_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
_MICROSECOND = timedelta(microseconds=1)


def microseconds(time: datetime) -> int:
    """Microseconds since 1970 in UTC."""
    return (time - _EPOCH) // _MICROSECOND


def moment(time: int) -> datetime:
    """The time that so many microseconds since 1970 are."""
    return _EPOCH + time * _MICROSECOND


def results_of(attempts: Iterable[AttemptRecord]) -> Results:
    """Attempts in brief, put in order."""
    ordered = sorted(attempts, key=lambda attempt: (attempt.time, attempt.uuid.int))
    return np.array([_brief(attempt) for attempt in ordered], RESULT)


def _brief(attempt: AttemptRecord) -> tuple[object, ...]:
    worst = max([VERDICTS.index(turn.verdict) for turn in attempt.turns if turn.verdict], default=0)
    step_cost = [0] * len(TURNING_STEPS)
    for turn in attempt.turns:
        if turn.cost and turn.step in TURNING_STEPS:
            step_cost[TURNING_STEPS.index(turn.step)] += turn.cost
    return (
        microseconds(attempt.time),
        attempt.seconds,
        np.nan if attempt.first_turn is None else attempt.first_turn,
        CASE_PLACES[attempt.case],
        len(attempt.turns),
        attempt.turns_used,
        attempt.fewest,
        attempt.taught,
        attempt.shown,
        attempt.slot,
        attempt.mirror,
        MODES.index(attempt.mode),
        OUTCOMES.index(attempt.outcome),
        worst,
        MIXUPS.index(mixup_of(attempt)) if worst == _ASTRAY else 0,
        attempt.deepest_hint,
        len(attempt.hints),
        step_cost,
    )
