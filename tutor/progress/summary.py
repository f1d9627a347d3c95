"""How it goes: what the Progress screen and the command line show of a learner, all from ``Study``."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence
from datetime import UTC, date, datetime, timedelta, tzinfo
from enum import Enum

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from tutor.counting import percent
from tutor.cube.position import SLOTS, Slot
from tutor.method.cases import CASES, Case
from tutor.method.terms import TURNING_STEPS, Step
from tutor.progress import words
from tutor.progress.attempt import Mode, Outcome
from tutor.progress.cards import Card, CardPhase, believable_times, grades, spread_next
from tutor.progress.forgetting import GOOD, WANTED_CHANCE
from tutor.progress.results import MODES, OUTCOMES, Results
from tutor.progress.study import Study

RECENT = timedelta(days=30)
"""Figures about steps, slots and recognition cover so long before now, so that they show the present."""
FORECAST_DAYS = 28
WEEK_DAYS = 7
STANDING_COLUMNS = (
    "number", "case", "sign", "memory", "remember", "lasts_days", "next", "attempts", "extra", "recognition",
)  # fmt: skip
"""The columns of the table of the cases; ``next`` is when the case comes back to the day's list."""
MOST_POINTS = 60
"""A series has at most so many points; longer times are taken together by weeks or more."""
SLIPPING_BELOW = 0.8
SURE_FROM_DAYS = 30.0
_DAY = 86_400_000_000


class Memory(Enum):
    """How well a learner remembers a case, with the sign and the words that go with its colour."""

    NOT_MET = ("Nm", words.NOT_MET_SO_FAR)
    SETTLING = ("Se", words.SETTLING)
    SLIPPING = ("Sl", words.SLIPPING)
    STICKS = ("St", words.STICKING)
    SURE = ("Su", words.SURE)

    @property
    def sign(self) -> str:
        """Two letters, other ones for each."""
        return self.value[0]

    @property
    def word(self) -> str:
        """One to three words."""
        return self.value[1]


class CaseStanding(Struct, frozen=True):
    """How a case goes; ``remember``, ``lasts`` and ``next`` are None for one not met.

    ``remember``: the chance to remember it now; ``lasts``: days until that chance is 90 %; ``next``: when it
    comes back.

    ``extra``: turns over the fewest by hand in the mean, ``recognition``: seconds to the first turn in the
    median, both of the recent attempts; None without any.
    """

    case: Case
    memory: Memory
    remember: float | None
    lasts: float | None
    next: datetime | None
    attempts: int
    extra: float | None
    recognition: float | None


class StepStanding(Struct, frozen=True):
    """What a step costs of late: turns lost in an attempt in the mean, and how many attempts lose any."""

    step: Step
    lost: float
    share: float


class SlotStanding(Struct, frozen=True):
    """How a slot goes of late.

    ``good``: the share of the attempts that were unaided and no longer than the route; the rest as for cases.
    """

    slot: Slot
    attempts: int
    good: float | None
    extra: float | None
    recognition: float | None


class Point(Struct, frozen=True):
    """A point of the series: the attempts of the days from ``day`` on, before the next point.

    ``extra``, ``recognition``: as for cases; ``hints``: for each attempt in the mean.
    """

    day: date
    attempts: int
    extra: float | None
    recognition: float | None
    hints: float


class Forecast(Struct, frozen=True):
    """What is expected if nothing is practised: after so many days the mean chance to remember a case met."""

    days: int
    remember: float
    likely: int
    """Cases whose chance to be remembered is 90 % or more, as the map shows it."""


class ListDay(Struct, frozen=True):
    """The list of a day of the coming week.

    What a teacher has given and what was back earlier is on that of the first day.
    """

    day: date
    slugs: tuple[str, ...]


class Summary(Struct, frozen=True):
    """Everything the Progress screen shows. ``forecast`` is empty while no case was met."""

    cases: tuple[CaseStanding, ...]
    steps: tuple[StepStanding, ...]
    slots: tuple[SlotStanding, ...]
    series: tuple[Point, ...]
    forecast: tuple[Forecast, ...]
    week: tuple[ListDay, ...]

    def remembered(self, memory: Memory) -> tuple[Case, ...]:
        """The cases that the learner remembers so well, in the book's order."""
        return tuple(standing.case for standing in self.cases if standing.memory is memory)

    def count(self, memory: Memory) -> int:
        """How many of the 41 cases the learner remembers so well."""
        return len(self.remembered(memory))


def summarise(study: Study, now: datetime, zone: tzinfo = UTC, assigned: Sequence[str] = ()) -> Summary:
    """How it goes at ``now``; days begin at midnight in ``zone`` (by its difference to UTC at ``now``).

    ``assigned`` are the cases (by slug) that a teacher has given and that are still to do.
    """
    turned = _Turned.of(study.results, now)
    recent = turned.since(now - RECENT)
    return Summary(
        _cases(study, recent, now),
        _steps(recent),
        tuple(_slot(recent, slot) for slot in SLOTS),
        _series(turned, now, zone),
        _forecast(study, now),
        _week(study, now, zone, assigned),
    )


def memory_of(card: Card | None, now: datetime) -> Memory:
    """How well a learner remembers a case; None is the card of a case not met."""
    if card is None:
        return Memory.NOT_MET
    if card.phase is not CardPhase.STICKING:
        return Memory.SETTLING
    if card.chance(now) < SLIPPING_BELOW:
        return Memory.SLIPPING
    return Memory.SURE if card.lasts >= SURE_FROM_DAYS else Memory.STICKS


def format_standing(summary: Summary) -> Iterator[str]:
    """The cases as rows of a CSV table (RFC 4180), the columns' names first, each with its line's end."""
    yield _row(*STANDING_COLUMNS)
    for each in summary.cases:
        then = "" if each.next is None else each.next.isoformat(timespec="seconds").replace("+00:00", "Z")
        numbers = (each.remember, each.lasts, each.extra, each.recognition)
        remember, lasts, extra, recognition = ("" if n is None else f"{n:.3f}" for n in numbers)
        case, memory = each.case, each.memory
        known = (str(case.number), case.slug, memory.sign, memory.word, remember, lasts, then)
        yield _row(*known, str(each.attempts), extra, recognition)


def _row(*cells: str) -> str:
    out = io.StringIO()
    csv.writer(out).writerow(cells)
    return out.getvalue()


# ---------------------------------------------------------------------------------------------- the counting


class _Turned(Struct, frozen=True, eq=False):
    """Attempts in which the learner turned, with believable times in microseconds and grades."""

    results: Results
    times: NDArray[np.int64]
    grades: NDArray[np.uint8]

    @classmethod
    def of(cls, results: Results, now: datetime) -> _Turned:
        watched = results["outcome"] == OUTCOMES.index(Outcome.WATCHED)
        turned = ~watched & (results["mode"] != MODES.index(Mode.GLANCE))
        return cls(results[turned], believable_times(results, now)[turned], grades(results)[turned])

    def since(self, start: datetime) -> _Turned:
        first = int(np.searchsorted(self.times, start.timestamp() * 1e6))
        return _Turned(self.results[first:], self.times[first:], self.grades[first:])

    def where(self, mask: NDArray[np.bool_]) -> _Turned:
        return _Turned(self.results[mask], self.times[mask], self.grades[mask])

    def extra(self) -> float | None:
        home = self.results[self.results["outcome"] == OUTCOMES.index(Outcome.SOLVED)]
        if not len(home):
            return None
        return float(np.maximum(home["used"] - home["fewest"], 0).mean())

    def recognition(self) -> float | None:
        return _median(self.results["first_turn"])

    def good(self) -> float | None:
        return float((self.grades == GOOD).mean()) if len(self.grades) else None


def _median(seconds: NDArray[np.float32]) -> float | None:
    known = seconds[~np.isnan(seconds)]
    return float(np.median(known)) if len(known) else None


def _cases(study: Study, recent: _Turned, now: datetime) -> tuple[CaseStanding, ...]:
    attempts = np.bincount(study.results["case"], minlength=len(CASES))
    standings = []
    for place, case in enumerate(CASES):
        card = study.cards.get(case.slug)
        own = recent.where(recent.results["case"] == place)
        standings.append(
            CaseStanding(
                case,
                memory_of(card, now),
                None if card is None else card.chance(now),
                None if card is None else card.lasts,
                None if card is None else spread_next(card),
                int(attempts[place]),
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
        chances = [card.chance(now + timedelta(days=days)) for card in study.cards.values()]
        likely = sum(percent(chance) >= percent(WANTED_CHANCE) for chance in chances)
        forecasts.append(Forecast(days, float(np.mean(chances)), likely))
    return tuple(forecasts)


def _week(study: Study, now: datetime, zone: tzinfo, assigned: Sequence[str]) -> tuple[ListDay, ...]:
    today = now.astimezone(zone).date()
    listed: dict[date, list[str]] = {today + timedelta(days=days): [] for days in range(WEEK_DAYS)}
    listed[today] += assigned
    for card in sorted(study.cards.values(), key=spread_next):
        day = max(today, spread_next(card).astimezone(zone).date())
        if day in listed and card.slug not in assigned:
            listed[day].append(card.slug)
    return tuple(ListDay(day, tuple(slugs)) for day, slugs in listed.items())


def _offset(now: datetime, zone: tzinfo) -> timedelta:
    return now.astimezone(zone).utcoffset() or timedelta(0)
