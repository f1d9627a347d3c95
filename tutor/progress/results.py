"""Attempts in brief: what schedule and summary count, a record of fixed size for each.

A hundred thousand of them are read in a moment, which whole attempts are not. They follow from the attempts
and from nothing else; the store keeps them beside, and a migration makes them anew when their form changes.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import UTC, datetime, timedelta
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from tutor.cube.position import SLOTS
from tutor.method.cases import CASES, Case
from tutor.method.terms import TURNING_STEPS, Verdict
from tutor.progress.attempt import DEEPEST_RUNG, Attempt, Mode, Outcome

RESULT = np.dtype(
    [
        ("time", "<i8"),
        ("seconds", "<f4"),
        ("first_turn", "<f4"),
        ("case", "<u2"),
        ("made", "<u2"),
        ("used", "<u2"),
        ("fewest", "u1"),
        ("shown", "u1"),
        ("slot", "u1"),
        ("mirror", "?"),
        ("mode", "u1"),
        ("outcome", "u1"),
        ("worst", "u1"),
        ("rung", "u1"),
        ("hints", "u1"),
        ("step_cost", "u1", (len(TURNING_STEPS),)),
    ]
)
"""One attempt in brief.

``time``: microseconds since 1970 in UTC; ``seconds`` and ``first_turn`` as in the attempt, the latter NaN
when there is none; ``case``: see ``case_number``; ``made``: turns made, those taken back included;
``fewest``: those that the learner's turns are counted against; ``mode``, ``outcome``: places in ``MODES``
and ``OUTCOMES``; ``worst``: place of the worst verdict in ``VERDICTS``; ``rung``: the deepest hint;
``hints``: how many; ``step_cost``: turns lost in each of the turning steps.
"""

Results = NDArray[np.void]
"""Attempts in brief, in the order of time (equal times: of their uuids), with dtype ``RESULT``."""

MODES: tuple[Mode, ...] = tuple(Mode)
OUTCOMES: tuple[Outcome, ...] = tuple(Outcome)
VERDICTS: tuple[Verdict, ...] = (Verdict.OPTIMAL, Verdict.ACCEPTABLE, Verdict.DETOUR)

_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
_MICROSECOND = timedelta(microseconds=1)
_LOCATIONS_OF_EDGES = 24


def microseconds(time: datetime) -> int:
    """Microseconds since 1970 in UTC."""
    return (time - _EPOCH) // _MICROSECOND


def moment(time: int) -> datetime:
    """The time that so many microseconds since 1970 are."""
    return _EPOCH + time * _MICROSECOND


def case_number(case: Case) -> int:
    """A number for the case, from where its pieces are, so that it stays when the list is reordered."""
    return _LOCATIONS_OF_EDGES * case.corner + case.edge


@cache
def numbered_cases() -> dict[int, Case]:
    """The cases by their number."""
    return {case_number(case): case for case in CASES}


@cache
def _numbers() -> dict[str, int]:
    return {case.slug: case_number(case) for case in CASES}


def brief(attempt: Attempt) -> bytes:
    """The attempt in brief, as the bytes of one ``RESULT``."""
    step_cost = [0] * len(TURNING_STEPS)
    for turn in attempt.turns:
        if turn.cost and turn.step in TURNING_STEPS:
            step_cost[TURNING_STEPS.index(turn.step)] += turn.cost
    judged = [VERDICTS.index(turn.verdict) for turn in attempt.turns if turn.verdict is not None]
    record = (
        microseconds(attempt.time),
        attempt.seconds,
        np.nan if attempt.first_turn is None else attempt.first_turn,
        _numbers()[attempt.case],
        len(attempt.turns),
        attempt.turns_used,
        attempt.fewest,
        min(attempt.shown, 255),
        attempt.slot,
        attempt.mirror,
        MODES.index(attempt.mode),
        OUTCOMES.index(attempt.outcome),
        max(judged, default=0),
        attempt.deepest_hint,
        min(len(attempt.hints), 255),
        [min(cost, 255) for cost in step_cost],
    )
    return np.array([record], RESULT).tobytes()


def results_from(records: Iterable[bytes]) -> Results:
    """The results of records made by ``brief``, which come in order."""
    return np.frombuffer(b"".join(records), RESULT)


def sound_results(rows: Sequence[tuple[Any, ...]]) -> Results | None:
    """The results of rows that begin with ``brief`` and time in microseconds, which come in order.

    None if one of them cannot be what ``brief`` made: a broken disk can change a byte unseen by SQLite.
    """
    records = [row[0] for row in rows]
    times = [row[1] for row in rows]
    if not set(map(type, records)) <= {bytes} or not set(map(type, times)) <= {int}:
        return None
    if not set(map(len, records)) <= {RESULT.itemsize}:
        return None
    results = results_from(records)
    known_cases = np.zeros(2**16, np.bool_)
    known_cases[list(numbered_cases())] = True
    numbers = {"slot": SLOTS, "mode": MODES, "outcome": OUTCOMES, "worst": VERDICTS}
    within = known_cases[results["case"]] & (results["rung"] <= DEEPEST_RUNG)
    for name, known in numbers.items():
        within &= results[name] < len(known)
    same = np.array_equal(results["time"], np.array(times, np.int64))
    return results if same and bool(within.all()) else None


def results_of(attempts: Iterable[Attempt]) -> Results:
    """Attempts in brief, put in order."""
    ordered = sorted(attempts, key=lambda attempt: (microseconds(attempt.time), attempt.uuid.hex))
    return results_from(brief(attempt) for attempt in ordered)
