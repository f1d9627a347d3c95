"""Figures of a learner as plots: over time, ahead, and by day of the week to come."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from math import ceil, log10
from statistics import fmean

from tutor.progress.summary import FORECAST_DAYS, Point, Summary
from tutor.screens.progress import words
from tutor.ui.plots import Plot

_A_YEAR = 330
"""Days from which on a month with its year stands in place of a day."""


def over_time(summary: Summary) -> tuple[Plot, ...]:
    """Turns over the fewest by hand, seconds to the first turn, and hints, from the first day to the last."""
    return (
        _series(summary, words.EXTRA, words.EXTRA_UNIT, lambda point: point.extra),
        _series(summary, words.RECOGNITION, words.RECOGNITION_UNIT, lambda point: point.recognition),
        _series(summary, words.HINTS, words.HINTS_UNIT, lambda point: point.hints),
    )


def _series(summary: Summary, title: str, unit: str, figure: Callable[[Point], float | None]) -> Plot:
    known = [(point.day, value) for point in summary.series if (value := figure(point)) is not None]
    if not known:
        return Plot(title, unit, (), (), marks_up(1.0), told=words.NOTHING_YET)
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
    return words.gist(fmean(values[:third]), fmean(values[-third:]))


def marks_up(highest: float) -> tuple[tuple[float, str], ...]:
    """Marks at nothing, half way and the top, which is a round figure not below ``highest``."""
    if highest <= 0:
        return ((0.0, "0"), (0.5, "0.5"), (1.0, "1"))
    ten = 10.0 ** ceil(log10(highest) - 1e-9)
    top = next(part * ten for part in (0.2, 0.4, 0.6, 1.0) if part * ten >= highest - 1e-9)
    return tuple((value, f"{value:g}") for value in (0.0, round(top / 2, 9), round(top, 9)))


def day_words(day: date, span: int = 0) -> str:
    """A day, or its month where ``span`` days are so many that days do not count."""
    return words.in_month(day) if span >= _A_YEAR else words.on_day(day)


def forecast(summary: Summary) -> Plot:
    """What would be remembered without practice, on the days to come. At least one case has been met."""
    points = tuple((float(each.days), 100 * each.remember) for each in summary.forecast)
    half = FORECAST_DAYS // 2
    across = (
        (0.0, words.NOW),
        (float(half), words.days(half)),
        (float(FORECAST_DAYS), words.days(FORECAST_DAYS)),
    )
    up = tuple((percent, words.chance(percent / 100)) for percent in (0.0, 50.0, 100.0))
    now, then = summary.forecast[0].likely, summary.forecast[-1].likely
    return Plot(
        words.WITHOUT_PRACTICE,
        words.WITHOUT_PRACTICE_UNIT,
        points,
        across,
        up,
        told=words.likely(now, then, FORECAST_DAYS),
    )


def week(summary: Summary) -> Plot:
    """How many cases are on the list of each day of the week."""
    counts = [len(day.slugs) for day in summary.week]
    points = tuple((float(index), float(count)) for index, count in enumerate(counts))
    across = tuple((float(index), words.weekday(day.day)) for index, day in enumerate(summary.week))
    told = words.lists(counts[0], sum(counts))
    top = ((0.0, ""), (max(5.0, *map(float, counts)), ""))
    return Plot(words.WEEK, words.WEEK_UNIT, points, across, top, told=told, bars=True)
