"""How it goes: what the Progress screen and the command line tell of a learner, all from ``Study``."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta, tzinfo
from enum import Enum

import numpy as np
from numpy.typing import NDArray

from tutor.cube.position import SLOTS, Slot
from tutor.method.cases import CASES, Case
from tutor.method.terms import TURNING_STEPS, Step
from tutor.progress.attempt import Mode, Outcome
from tutor.progress.cards import GOOD, Card, Phase, believable_times, grades, spread_due
from tutor.progress.results import MODES, OUTCOMES, Results, case_number
from tutor.progress.study import Study

RECENT = timedelta(days=30)
"""Steps, slots and recognition are told for so long before now, so that they show what is the case now."""
FORECAST_DAYS = 28
WEEK_DAYS = 7
MOST_POINTS = 60
"""A series has at most so many points; longer times are taken together by weeks or more."""
WEAK_BELOW = 0.8
FIRM_FROM_DAYS = 30.0
_DAY = 86_400_000_000


class Hold(Enum):
    """How well a case holds, with the letter and the word that stand for it beside its colour."""

    NEW = ("N", "new")
    LEARNING = ("L", "being learnt")
    WEAK = ("W", "weak")
    HOLDS = ("H", "holds")
    FIRM = ("F", "firm")

    @property
    def letter(self) -> str:
        """A capital letter, another one for each."""
        return self.value[0]

    @property
    def word(self) -> str:
        """One or two words."""
        return self.value[1]


@dataclass(frozen=True, slots=True)
class CaseStanding:
    """How a case stands; ``recall`` and ``due`` are None for one not met.

    ``extra``: turns over the fewest by hand in the mean, ``recognition``: seconds to the first turn in the
    median, both of the recent attempts; None without any.
    """

    case: Case
    hold: Hold
    recall: float | None
    stability: float | None
    due: datetime | None
    attempts: int
    extra: float | None
    recognition: float | None


@dataclass(frozen=True, slots=True)
class StepStanding:
    """What a step costs of late: turns lost in an attempt in the mean, and how many attempts lose any."""

    step: Step
    lost: float
    share: float


@dataclass(frozen=True, slots=True)
class SlotStanding:
    """How a slot goes of late.

    ``good``: the share of the attempts that were unaided in the fewest turns by hand; the rest as for cases.
    """

    slot: Slot
    attempts: int
    good: float | None
    extra: float | None
    recognition: float | None


@dataclass(frozen=True, slots=True)
class Point:
    """A point of the series: the attempts of the days from ``day`` on, before the next point.

    ``extra``, ``recognition``: as for cases; ``hints``: for each attempt in the mean.
    """

    day: date
    attempts: int
    extra: float | None
    recognition: float | None
    hints: float


@dataclass(frozen=True, slots=True)
class Forecast:
    """What is expected if nothing is practised: after so many days the mean recall of the cases met."""

    days: int
    recall: float
    holding: int
    """Cases whose chance to be recalled is still 90 %."""


@dataclass(frozen=True, slots=True)
class DueDay:
    """What is due on a day of the coming week; what is overdue counts for the first day."""

    day: date
    slugs: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Summary:
    """Everything the Progress screen shows. ``forecast`` is empty while no case was met."""

    cases: tuple[CaseStanding, ...]
    steps: tuple[StepStanding, ...]
    slots: tuple[SlotStanding, ...]
    series: tuple[Point, ...]
    forecast: tuple[Forecast, ...]
    week: tuple[DueDay, ...]

    def count(self, hold: Hold) -> int:
        """How many of the 41 cases stand so."""
        return sum(standing.hold is hold for standing in self.cases)


def summarise(study: Study, now: datetime, zone: tzinfo = UTC) -> Summary:
    """How it goes at ``now``; days begin at midnight in ``zone`` (by its difference to UTC at ``now``)."""
    turned = _Turned.of(study.results, now)
    recent = turned.since(now - RECENT)
    return Summary(
        _cases(study, recent, now),
        _steps(recent),
        tuple(_slot(recent, slot) for slot in SLOTS),
        _series(turned, now, zone),
        _forecast(study, now),
        _week(study, now, zone),
    )


def hold_of(card: Card | None, now: datetime) -> Hold:
    """How well a case holds; None is the card of a case not met."""
    if card is None:
        return Hold.NEW
    if card.phase is not Phase.HOLDING:
        return Hold.LEARNING
    if card.recall(now) < WEAK_BELOW:
        return Hold.WEAK
    return Hold.FIRM if card.stability >= FIRM_FROM_DAYS else Hold.HOLDS


def format_standing(summary: Summary) -> Iterator[str]:
    """The cases as rows of a CSV table (RFC 4180), the columns' names first, each with its line's end."""
    yield _row(
        "case", "letter", "hold", "recall", "stability_days", "due", "attempts", "extra", "recognition"
    )
    for each in summary.cases:
        due = "" if each.due is None else each.due.isoformat(timespec="seconds").replace("+00:00", "Z")
        numbers = (each.recall, each.stability, each.extra, each.recognition)
        recall, stability, extra, recognition = ("" if n is None else f"{n:.3f}" for n in numbers)
        hold = each.hold
        yield _row(
            each.case.slug,
            hold.letter,
            hold.word,
            recall,
            stability,
            due,
            str(each.attempts),
            extra,
            recognition,
        )


def _row(*cells: str) -> str:
    out = io.StringIO()
    csv.writer(out).writerow(cells)
    return out.getvalue()


# ---------------------------------------------------------------------------------------------- the counting


@dataclass(frozen=True, slots=True, eq=False)
class _Turned:
    """Attempts in which the learner turned, with believable times in microseconds and grades."""

    results: Results
    times: NDArray[np.int64]
    grades: NDArray[np.uint8]

    @classmethod
    def of(cls, results: Results, now: datetime) -> _Turned:
        watched = results["outcome"] == OUTCOMES.index(Outcome.WATCHED)
        turned = ~watched & (results["mode"] != MODES.index(Mode.FLASH))
        return cls(results[turned], believable_times(results, now)[turned], grades(results)[turned])

    def since(self, start: datetime) -> _Turned:
        first = int(np.searchsorted(self.times, start.timestamp() * 1e6))
        return _Turned(self.results[first:], self.times[first:], self.grades[first:])

    def where(self, mask: NDArray[np.bool_]) -> _Turned:
        return _Turned(self.results[mask], self.times[mask], self.grades[mask])

    def extra(self) -> float | None:
        home = self.results[self.results["outcome"] == OUTCOMES.index(Outcome.HOME)]
        if not len(home):
            return None
        return float(np.maximum(home["used"].astype(np.int64) - home["fewest"], 0).mean())

    def recognition(self) -> float | None:
        return _median(self.results["first_turn"])

    def good(self) -> float | None:
        return float((self.grades == GOOD).mean()) if len(self.grades) else None


def _median(seconds: NDArray[np.float32]) -> float | None:
    known = seconds[~np.isnan(seconds)]
    return float(np.median(known)) if len(known) else None


def _cases(study: Study, recent: _Turned, now: datetime) -> tuple[CaseStanding, ...]:
    attempts = np.bincount(study.results["case"], minlength=24 * 24)
    standings = []
    for case in CASES:
        card = study.cards.get(case.slug)
        own = recent.where(recent.results["case"] == case_number(case))
        standings.append(
            CaseStanding(
                case,
                hold_of(card, now),
                None if card is None else card.recall(now),
                None if card is None else card.stability,
                None if card is None else spread_due(card),
                int(attempts[case_number(case)]),
                own.extra(),
                own.recognition(),
            )
        )
    return tuple(standings)


def _steps(recent: _Turned) -> tuple[StepStanding, ...]:
    costs = recent.results["step_cost"]
    if not len(costs):
        return tuple(StepStanding(step, 0.0, 0.0) for step in TURNING_STEPS)
    lost, share = costs.mean(axis=0), (costs > 0).mean(axis=0)
    return tuple(
        StepStanding(step, float(lost[index]), float(share[index]))
        for index, step in enumerate(TURNING_STEPS)
    )


def _slot(recent: _Turned, slot: Slot) -> SlotStanding:
    own = recent.where(recent.results["slot"] == slot)
    return SlotStanding(slot, len(own.results), own.good(), own.extra(), own.recognition())


def _series(turned: _Turned, now: datetime, zone: tzinfo) -> tuple[Point, ...]:
    if not len(turned.times):
        return ()
    days = (turned.times + _offset(now, zone) // timedelta(microseconds=1)) // _DAY
    span = int(days[-1] - days[0]) + 1
    # Days, weeks, or as many weeks together as are needed to keep the number of points down.
    width = 1 if span <= MOST_POINTS else WEEK_DAYS * -(-span // (WEEK_DAYS * MOST_POINTS))
    groups = (days - days[0]) // width
    starts = np.flatnonzero(np.diff(groups, prepend=-1))
    ends = [*starts[1:].tolist(), len(groups)]
    points = []
    for start, end in zip(starts.tolist(), ends, strict=True):
        part = _Turned(turned.results[start:end], turned.times[start:end], turned.grades[start:end])
        day = date(1970, 1, 1) + timedelta(days=int(days[0] + groups[start] * width))
        hints = float(part.results["hints"].mean())
        points.append(Point(day, end - start, part.extra(), part.recognition(), hints))
    return tuple(points)


def _forecast(study: Study, now: datetime) -> tuple[Forecast, ...]:
    if not study.cards:
        return ()
    forecasts = []
    for days in range(FORECAST_DAYS + 1):
        recalls = [card.recall(now + timedelta(days=days)) for card in study.cards.values()]
        forecasts.append(Forecast(days, float(np.mean(recalls)), sum(recall >= 0.9 for recall in recalls)))
    return tuple(forecasts)


def _week(study: Study, now: datetime, zone: tzinfo) -> tuple[DueDay, ...]:
    today = now.astimezone(zone).date()
    due: dict[date, list[str]] = {today + timedelta(days=days): [] for days in range(WEEK_DAYS)}
    for card in sorted(study.cards.values(), key=spread_due):
        day = max(today, spread_due(card).astimezone(zone).date())
        if day in due:
            due[day].append(card.slug)
    return tuple(DueDay(day, tuple(slugs)) for day, slugs in due.items())


def _offset(now: datetime, zone: tzinfo) -> timedelta:
    return now.astimezone(zone).utcoffset() or timedelta(0)
