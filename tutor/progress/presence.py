"""What somebody is at now, as their window tells the others on a shared folder; and whom to look at first.

Each window has one small file for it, written anew when something has changed. Published field trials with
286 learners in 18 classrooms found that such live awareness of a teacher raises learning (Holstein, McLaren,
Aleven, AIED 2018).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import datetime, timedelta
from enum import IntEnum, StrEnum
from typing import Annotated

import numpy as np
from msgspec import Meta, Struct
from msgspec.structs import replace

from tutor.method.terms import TURNING_STEPS, Step
from tutor.progress import words
from tutor.progress.attempt import LONGEST_NAME, AttemptError, Outcome, check_learner, check_time
from tutor.progress.names import folded
from tutor.progress.results import OUTCOMES, Results, microseconds
from tutor.quoting import obeyed

STUCK_SECONDS = 120.0
"""At one task for so long: stuck."""
MISSED_TIMES = 3
"""A step missed so often needs a word."""
WAITING_SECONDS = 60.0
"""Done, and nothing pressed for so long: whoever it is waits for something to do."""
QUIET_SECONDS = 300.0
"""In the middle of something, and nothing pressed for so long."""
LEFT_SECONDS = 1800.0
"""Nothing pressed for so long: nobody sits there any more."""
_TRIES, _SINCE = 3, timedelta(minutes=30)
"""A step's misses are those of so many last tries, no older than that, beside the try in hand."""

_Seconds = Annotated[float, Meta(ge=0.0, le=1e9)]
_Count = Annotated[int, Meta(ge=0, le=1000)]


class At(StrEnum):
    """What a learner can be at."""

    CASE = "case"
    LESSON = "lesson"
    FREE_PLAY = "free play"
    WHOLE_SOLVE = "whole solve"
    ELSEWHERE = "elsewhere"


class Engaged(Struct, frozen=True, forbid_unknown_fields=True):
    """What a learner is at: a case by its number, a lesson by its number and title with scene and scenes.

    ``over``: it is done, and nothing else is begun.
    """

    at: At = At.ELSEWHERE
    number: _Count = 0
    title: Annotated[str, Meta(max_length=200)] = ""
    scene: _Count = 0
    scenes: _Count = 0
    over: bool = False


class Presence(Struct, frozen=True, forbid_unknown_fields=True):
    """What a learner is at, and for how long, when it was told.

    ``since``: seconds at it; ``idle``: seconds since anything was pressed; ``missed``: the step missed
    ``times`` times in the last tries; ``time``: the wall clock, in UTC.
    """

    learner: Annotated[str, Meta(max_length=LONGEST_NAME)]
    engaged: Engaged
    time: datetime
    since: _Seconds = 0.0
    idle: _Seconds = 0.0
    missed: Step | None = None
    times: _Count = 0

    def __post_init__(self) -> None:
        """Raises AttemptError for what no window of ours tells."""
        check_learner(self.learner)
        check_time(self.time)
        if obeyed(self.engaged.title):
            raise AttemptError(words.NO_TITLE)

    def after(self, seconds: float) -> Presence:
        """The same so many seconds later, when nothing else has been told."""
        return replace(self, since=self.since + seconds, idle=self.idle + seconds)

    def same_but_for_time(self, other: Presence | None) -> bool:
        """Whether both tell the same, whatever time has passed."""
        if other is None:
            return False
        return replace(self, time=other.time, since=other.since, idle=other.idle) == other


class Need(IntEnum):
    """Why to look at somebody, the most pressing first."""

    MISSED = 0
    STUCK = 1
    WAITING = 2
    QUIET = 3
    NONE = 4


class Live(Struct, frozen=True):
    """A line of the live view: who is at what, since how many whole minutes, and why to look there."""

    learner: str
    engaged: Engaged
    need: Need
    minutes: int
    missed: Step | None = None
    times: int = 0


def live(presences: Iterable[Presence]) -> tuple[Live, ...]:
    """The live view: those first who need somebody, the longest first; without those who have left.

    A learner counts once, where something was pressed last: a window that was killed goes on telling.
    """
    latest = {folded(each.learner): each for each in sorted(presences, key=lambda each: -each.idle)}
    seen = sorted(
        ((_need(each), each) for each in latest.values() if each.idle < LEFT_SECONDS),
        key=lambda found: (found[0], -_seconds(*found), found[1].learner.casefold()),
    )
    return tuple(
        Live(each.learner, each.engaged, need, int(_seconds(need, each) // 60), each.missed, each.times)
        for need, each in seen
    )


def _need(told: Presence) -> Need:
    engaged = told.engaged
    if engaged.over or engaged.at is At.ELSEWHERE:
        return Need.WAITING if told.idle >= WAITING_SECONDS else Need.NONE
    if told.times >= MISSED_TIMES and told.missed is not None:
        return Need.MISSED
    if engaged.at in (At.CASE, At.LESSON) and told.since >= STUCK_SECONDS:
        return Need.STUCK
    return Need.QUIET if told.idle >= QUIET_SECONDS else Need.NONE


def _seconds(need: Need, told: Presence) -> float:
    return told.idle if need in (Need.WAITING, Need.QUIET) else told.since


def missed_step(results: Results, detours: Mapping[Step, int], now: datetime) -> tuple[Step | None, int]:
    """The step missed most in the last tries, and how often: tries that lost turns in it, and detours now.

    ``detours`` are those of the try in hand by their steps. A try after ``now`` comes from a clock that was
    wrong, and does not count.
    """
    tries = results[results["outcome"] != OUTCOMES.index(Outcome.WATCHED)]
    since, until = microseconds(now - _SINCE), microseconds(now)
    recent = tries[(tries["time"] >= since) & (tries["time"] <= until)][-_TRIES:]
    now_missed = [detours.get(step, 0) for step in TURNING_STEPS]
    counts = np.count_nonzero(recent["step_cost"] > 0, axis=0) + now_missed
    most = int(counts.argmax())
    return (TURNING_STEPS[most], int(counts[most])) if counts[most] else (None, 0)
