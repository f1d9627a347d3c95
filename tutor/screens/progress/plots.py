"""Figures of a learner as plots: over time, ahead, and by day of the week to come."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from math import ceil, log10
from statistics import fmean

from tutor.progress.summary import FORECAST_DAYS, Point, Summary
from tutor.ui.plots import Plot

_A_YEAR = 330
"""Days from which on months are told with their year instead of a day."""


def over_time(summary: Summary) -> tuple[Plot, ...]:
    """Turns over the fewest by hand, seconds to the first turn, and hints, from the first day to the last."""
    return (
        _series(
            summary, "Turns over the fewest by hand", "turns, on average that day", lambda point: point.extra
        ),
        _series(
            summary, "Time to the first turn", "seconds, the middle of a day", lambda point: point.recognition
        ),
        _series(summary, "Hints", "for each case, on average that day", lambda point: point.hints),
    )


def _series(summary: Summary, title: str, unit: str, figure: Callable[[Point], float | None]) -> Plot:
    known = [(point.day, value) for point in summary.series if (value := figure(point)) is not None]
    if not known:
        return Plot(title, unit, (), (), marks_up(1.0), told="Nothing to tell yet.")
    first, last = known[0][0], known[-1][0]
    points = tuple((float((day - first).days), value) for day, value in known)
    span = (last - first).days
    days = dict.fromkeys((first, date.fromordinal(first.toordinal() + span // 2), last))
    across = tuple((float((day - first).days), day_words(day, span)) for day in days)
    values = [value for _, value in known]
    return Plot(title, unit, points, across, marks_up(max(values)), told=gist(values))


def gist(values: Sequence[float]) -> str:
    """A series in words: its beginning and its end, a third of it each."""
    if len(values) < 3:
        return ""
    third = max(1, len(values) // 3)
    return f"{fmean(values[:third]):.1f} at first, {fmean(values[-third:]):.1f} of late."


def marks_up(highest: float) -> tuple[tuple[float, str], ...]:
    """Marks at nothing, half way and the top, which is a round figure not below ``highest``."""
    if highest <= 0:
        return ((0.0, "0"), (0.5, "0.5"), (1.0, "1"))
    ten = 10.0 ** ceil(log10(highest) - 1e-9)
    top = next(part * ten for part in (0.2, 0.4, 0.6, 1.0) if part * ten >= highest - 1e-9)
    return tuple((value, f"{value:g}") for value in (0.0, round(top / 2, 9), round(top, 9)))


def day_words(day: date, span: int = 0) -> str:
    """A day, or its month where ``span`` days are so many that days do not count."""
    return f"{day:%b %Y}" if span >= _A_YEAR else f"{day.day} {day:%b}"


def forecast(summary: Summary) -> Plot:
    """What would be remembered without practice, on the days to come. At least one case has been met."""
    points = tuple((float(each.days), 100 * each.recall) for each in summary.forecast)
    half = FORECAST_DAYS // 2
    across = ((0.0, "today"), (float(half), f"{half} days"), (float(FORECAST_DAYS), f"{FORECAST_DAYS} days"))
    up = ((0.0, "0%"), (50.0, "50%"), (100.0, "100%"))
    now, then = summary.forecast[0].holding, summary.forecast[-1].holding
    return Plot(
        "If you did not practise",
        "chance to remember a case, on average over those met",
        points,
        across,
        up,
        told=f"Sure today: {_cases(now)}; after {FORECAST_DAYS} days: {_cases(then)}.",
    )


def week(summary: Summary) -> Plot:
    """What is due on each day of the week."""
    counts = [len(day.slugs) for day in summary.week]
    points = tuple((float(index), float(count)) for index, count in enumerate(counts))
    across = tuple((float(index), f"{day.day:%a}") for index, day in enumerate(summary.week))
    told = f"Due today: {_cases(counts[0])}; in seven days: {_cases(sum(counts))}."
    top = ((0.0, ""), (max(5.0, *map(float, counts)), ""))
    return Plot("Due this week", "cases, from today on", points, across, top, told=told, bars=True)


def _cases(count: int) -> str:
    return "1 case" if count == 1 else f"{count} cases"
