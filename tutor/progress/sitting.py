"""A sitting: practice from its beginning to its end, with a goal, and a word about resting the hands.

Pure functions of (sitting, what happened, now). ``now`` is in seconds of a clock that is never set, so that a
wall clock set back makes no goal longer. Only time spent at it counts: after a pause the hands are rested.
"""

from __future__ import annotations

from enum import StrEnum

from msgspec import Struct
from msgspec.structs import replace

from tutor.progress import words
from tutor.progress.attempt import AttemptRecord, Outcome
from tutor.progress.cards import grades
from tutor.progress.forgetting import GOOD
from tutor.progress.results import results_of

PAUSE = 300.0
"""Seconds without a turn after which the hands count as rested (our own figure; none is published)."""
REST_MINUTES = 25
MOST = 240
"""The most minutes, or attempts, that a goal can ask for."""


class GoalError(ValueError):
    """A goal that cannot be; the message says what would be right."""


class GoalKind(StrEnum):
    """What a sitting is to come to."""

    TODAY = "today"
    """Until today's list is done: no case is back, and the new cases of the day are met."""
    ATTEMPTS = "attempts"
    MINUTES = "minutes"


class Goal(Struct, frozen=True):
    """What a sitting is to come to; ``amount`` is the number of attempts or minutes, 0 for TODAY.

    Raises GoalError.
    """

    kind: GoalKind = GoalKind.TODAY
    amount: int = 0

    def __post_init__(self) -> None:
        if self.kind is GoalKind.TODAY and self.amount:
            raise GoalError(words.GOAL_WITHOUT_AMOUNT)
        if self.kind is not GoalKind.TODAY and not 1 <= self.amount <= MOST:
            raise GoalError(words.goal_out_of_range(MOST, self.kind.value, self.amount))


class Sitting(Struct, frozen=True):
    """Practice so far. See ``begun``.

    ``last``: when something was last done; ``spent``: seconds at it, pauses left out; ``unrested``: those
    since the last pause; ``reminders``: how often a rest was suggested since then; ``attempts``: those in
    which the learner did something; ``good``: those unaided and no longer than the route, or named right at a
    glance; ``cases``: the slugs met.
    """

    goal: Goal
    last: float
    spent: float = 0.0
    unrested: float = 0.0
    reminders: int = 0
    attempts: int = 0
    good: int = 0
    cases: frozenset[str] = frozenset()


class GoalStanding(Struct, frozen=True):
    """How far the goal is reached: ``done`` of ``wanted`` attempts or minutes; None: only the end counts."""

    done: int
    wanted: int | None
    reached: bool


def begun(goal: Goal, now: float) -> Sitting:
    """A sitting that begins now."""
    return Sitting(goal, now)


def busy(sitting: Sitting, now: float) -> Sitting:
    """Something was done just now: a turn, a hint, an answer, the beginning of an attempt."""
    gap = max(0.0, now - sitting.last)
    if gap >= PAUSE:
        return replace(sitting, last=now, unrested=0.0, reminders=0)
    return replace(
        sitting, last=max(now, sitting.last), spent=sitting.spent + gap, unrested=sitting.unrested + gap
    )


def waited(sitting: Sitting, now: float) -> Sitting:
    """The program kept the learner waiting until just now: time that is not spent at it."""
    rested = replace(sitting, unrested=0.0, reminders=0) if now - sitting.last >= PAUSE else sitting
    return replace(rested, last=max(now, sitting.last))


def with_attempt(sitting: Sitting, attempt: AttemptRecord, now: float) -> Sitting:
    """The sitting with an attempt finished just now. One only watched counts as met, but not as made."""
    sitting = busy(sitting, now)
    tried = attempt.outcome is not Outcome.WATCHED
    good = attempt.outcome is Outcome.NAMED or bool(grades(results_of([attempt]))[0] == GOOD)
    return replace(
        sitting,
        attempts=sitting.attempts + tried,
        good=sitting.good + good,
        cases=sitting.cases | {attempt.case},
    )


def goal_standing(sitting: Sitting, *, more: bool) -> GoalStanding:
    """How far the goal is reached; ``more``: whether the schedule still has something to propose."""
    match sitting.goal.kind:
        case GoalKind.ATTEMPTS:
            done = sitting.attempts
        case GoalKind.MINUTES:
            done = int(sitting.spent // 60)
        case GoalKind.TODAY:
            return GoalStanding(sitting.attempts, None, not more)
    return GoalStanding(done, sitting.goal.amount, done >= sitting.goal.amount)


def rest_wanted(sitting: Sitting, now: float, minutes: int = REST_MINUTES) -> tuple[Sitting, bool]:
    """Whether to suggest a rest now, and the sitting that remembers it: once for every so many minutes.

    ``minutes`` are those without a pause. Ask between attempts, so that nobody is disturbed in one.
    """
    sitting = busy(sitting, now)
    times = int(sitting.unrested // (60 * minutes))
    return replace(sitting, reminders=max(times, sitting.reminders)), times > sitting.reminders


def farewell(sitting: Sitting) -> str:
    """A sentence or two for the end."""
    if not sitting.attempts:
        return words.NOTHING_PRACTISED
    return words.farewell(sitting.attempts, len(sitting.cases), sitting.good)
