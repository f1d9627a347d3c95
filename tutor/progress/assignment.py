"""What a teacher gives a learner to do, a case or a lesson: kept in the store, carried by exports and merges.

Of two records for one learner and task the later one counts. What was withdrawn stays as withdrawn, so that
a merge does not bring it back.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import UTC, date, datetime, timedelta, tzinfo
from enum import StrEnum

import msgspec
import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from tutor.method.cases import Case, parse_case
from tutor.progress import words
from tutor.progress.attempt import AttemptError, Outcome, check_learner
from tutor.progress.results import CASE_PLACES, OUTCOMES, Results, microseconds
from tutor.quoting import quotable

ASSIGNED_MARK = '"assigned":'
"""What a JSON line has that is neither an attempt nor a learner's own words."""
LONGEST_TASK = 120
SHOWN_WHEN_DONE = timedelta(days=7)
"""What is done stays in sight, ticked, for so long after it was given, or until its last day."""
_CASE, _LESSON = "case:", "lesson:"


class AssignedState(StrEnum):
    """Where it stands. Whether a case is done is worked out from the attempts, so only lessons are DONE."""

    GIVEN = "given"
    DONE = "done"
    WITHDRAWN = "withdrawn"


class Assignment(msgspec.Struct, frozen=True):
    """A task of a learner: ``case:`` and a slug, or ``lesson:`` and a name; ``until`` is its last day.

    ``time`` is when it was changed last, ``given`` when it was given, both in UTC. Raises AttemptError.
    """

    learner: str
    task: str
    time: datetime
    given: datetime
    until: date | None = None
    state: AssignedState = AssignedState.GIVEN

    def __post_init__(self) -> None:
        check_learner(self.learner)
        check_task(self.task)
        for time in (self.time, self.given):
            if time.utcoffset() != timedelta(0):
                raise AttemptError(words.time_not_in_utc(time.isoformat()))

    @property
    def case(self) -> Case | None:
        """The case to do, if it is one."""
        return parse_case(self.task.removeprefix(_CASE)) if self.task.startswith(_CASE) else None

    @property
    def lesson(self) -> str:
        """The name of the lesson to do; empty for a case."""
        return self.task.removeprefix(_LESSON) if self.task.startswith(_LESSON) else ""


def case_task(case: Case) -> str:
    """The task of doing a case."""
    return f"{_CASE}{case.slug}"


def lesson_task(name: str) -> str:
    """The task of doing a lesson."""
    return f"{_LESSON}{name}"


def check_task(task: str) -> str:
    """The task, if it is one. Raises AttemptError."""
    kind, _, name = task.partition(":")
    if f"{kind}:" not in (_CASE, _LESSON) or not name or not name.isprintable() or len(task) > LONGEST_TASK:
        raise AttemptError(words.no_task(quotable(task)))
    if kind == "case" and parse_case(name).slug != name:
        raise AttemptError(words.not_the_slug(parse_case(name).slug))
    return task


class _Line(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    learner: str
    assigned: str
    time: datetime
    given: datetime
    until: date | None
    state: AssignedState


ASSIGNED_COLUMNS = ("assigned", "given", "until", "state")
"""The further columns of a table that has assignments."""
_DECODER, _ENCODER = msgspec.json.Decoder(_Line), msgspec.json.Encoder()


def format_assigned(each: Assignment) -> str:
    """The assignment as a JSON object on one line, without the line's end."""
    line = _Line(each.learner, each.task, each.time, each.given, each.until, each.state)
    return _ENCODER.encode(line).decode("utf-8")


def parse_assigned(line: str | bytes) -> Assignment:
    """The assignment that a JSON line holds. Raises AttemptError."""
    try:
        return _assignment(_DECODER.decode(line))
    except AttemptError:
        raise
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError, ValueError, OverflowError) as fault:
        raise AttemptError(quotable(str(fault))) from fault


def assigned_cells(each: Assignment) -> dict[str, str]:
    """The cells of a table's row."""
    plain = msgspec.to_builtins(_Line(each.learner, each.task, each.time, each.given, each.until, each.state))
    return {name: "" if value is None else str(value) for name, value in plain.items()}


def assigned_from(cells: dict[str, str]) -> Assignment:
    """The assignment that the cells of a row say. Raises AttemptError or another ValueError."""
    kept = {name: cells[name] for name in ("learner", "time", *ASSIGNED_COLUMNS)}
    return _assignment(msgspec.convert({**kept, "until": kept["until"] or None}, _Line))


def _assignment(line: _Line) -> Assignment:
    if line.time.tzinfo is None or line.given.tzinfo is None:
        raise AttemptError(words.NO_ZONE)
    time, given = line.time.astimezone(UTC), line.given.astimezone(UTC)
    return Assignment(line.learner, line.assigned, time, given, line.until, line.state)


# ------------------------------------------------------------------------------------------- what is to do


class ToDo(Struct, frozen=True):
    """An assignment, and whether it is done."""

    assignment: Assignment
    done: bool


def to_do(assigned: Iterable[Assignment], results: Results, now: datetime, zone: tzinfo) -> tuple[ToDo, ...]:
    """What a learner has to do: what is open, the nearest last day first, then what was done of late.

    A case is done once the learner has solved it whole and without help after it was given. Days end at
    midnight in ``zone``.
    """
    marked = _marked(assigned, results, now)
    return tuple(each for each in marked if not each.done or _in_sight(each.assignment, now, zone))


def open_cases(assigned: Iterable[Assignment], results: Results, now: datetime) -> tuple[str, ...]:
    """The slugs of the cases still to do, in their order."""
    cases = (each.assignment.case for each in _marked(assigned, results, now) if not each.done)
    return tuple(case.slug for case in cases if case is not None)


def _marked(assigned: Iterable[Assignment], results: Results, now: datetime) -> list[ToDo]:
    latest = _solved_alone(results, now)
    given = (each for each in assigned if each.state is not AssignedState.WITHDRAWN)
    return sorted((ToDo(each, _done(each, latest)) for each in given), key=_order)


def _order(each: ToDo) -> tuple[bool, date, datetime, int, str]:
    assignment, case = each.assignment, each.assignment.case
    number = 0 if case is None else case.number
    return each.done, assignment.until or date.max, assignment.given, number, assignment.task


def _solved_alone(results: Results, now: datetime) -> NDArray[np.int64]:
    """When each case was last solved whole and without help, in microseconds; the least int64 where never.

    A time after ``now`` comes from a clock that was wrong, and does not count.
    """
    solved = (results["outcome"] == OUTCOMES.index(Outcome.SOLVED)) & (results["time"] <= microseconds(now))
    alone = results[solved & (results["rung"] == 0) & (results["shown"] == 0)]
    latest = np.full(len(CASE_PLACES), np.iinfo(np.int64).min, np.int64)
    np.maximum.at(latest, alone["case"], alone["time"])
    return latest


def _done(assignment: Assignment, latest: NDArray[np.int64]) -> bool:
    case = assignment.case
    if case is None:
        return assignment.state is AssignedState.DONE
    return bool(latest[CASE_PLACES[case.slug]] >= microseconds(assignment.given))


def _in_sight(assignment: Assignment, now: datetime, zone: tzinfo) -> bool:
    last = assignment.until or (assignment.given + SHOWN_WHEN_DONE).astimezone(zone).date()
    return now.astimezone(zone).date() <= last
