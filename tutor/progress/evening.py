"""The last evening of a group, told in five lines: who came, what they did, what got better, what slipped."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from datetime import date, datetime, timedelta, tzinfo

import numpy as np
from msgspec import Struct

from tutor.method.cases import CASES, Case
from tutor.progress.attempt import Outcome
from tutor.progress.cards import believable_times, cards_of
from tutor.progress.results import OUTCOMES, Results, microseconds, moment
from tutor.progress.study import Study
from tutor.progress.summary import Memory, memory_of

PAUSE = timedelta(hours=3)
"""An evening begins after so long without an attempt of anybody."""
_KNOWN = (Memory.STICKS, Memory.SURE)


class Evening(Struct, frozen=True):
    """An evening in figures; ``present`` by name.

    ``better``: the cases that stick at the evening's end and did not at its beginning, ``slipped``: those
    that did, or slipped, and have to settle again; each with its learner.
    """

    day: date
    present: tuple[str, ...]
    minutes: int
    tries: int
    solved: int
    cases: int
    better: tuple[tuple[str, Case], ...]
    slipped: tuple[tuple[str, Case], ...]

    @property
    def gains(self) -> tuple[tuple[str, int], ...]:
        """Who remembers how many cases more, the most first."""
        return tuple(Counter(learner for learner, _ in self.better).most_common())

    @property
    def losses(self) -> tuple[tuple[Case, tuple[str, ...]], ...]:
        """Which case slipped for whom, the one that did for most first."""
        cases = {case: tuple(name for name, lost in self.slipped if lost is case) for _, case in self.slipped}
        return tuple(sorted(cases.items(), key=lambda item: (-len(item[1]), item[0].number)))


def last_evening(studies: Mapping[str, Study], now: datetime, zone: tzinfo) -> Evening | None:
    """The last evening of these learners, of whom each has an attempt; None without any."""
    if not studies:
        return None
    times = {learner: believable_times(study.results, now) for learner, study in studies.items()}
    whole = np.sort(np.concatenate(list(times.values())))
    pauses = np.flatnonzero(np.diff(whole) >= PAUSE / timedelta(microseconds=1))
    start, end = int(whole[pauses[-1] + 1 if len(pauses) else 0]), moment(int(whole[-1]))
    firsts = {learner: int(np.searchsorted(own, start)) for learner, own in times.items()}
    present = sorted(
        (learner for learner, first in firsts.items() if first < len(times[learner])), key=_by_name
    )
    made = np.concatenate([studies[learner].results[firsts[learner] :] for learner in present])
    tried = made[made["outcome"] != OUTCOMES.index(Outcome.WATCHED)]
    changed = [(name, *_changes(studies[name], firsts[name], moment(start), end, now)) for name in present]
    return Evening(
        end.astimezone(zone).date(),
        tuple(present),
        max(1, round((microseconds(end) - start + _first_seconds(made, start) * 1e6) / 6e7)),
        len(tried),
        int((tried["outcome"] == OUTCOMES.index(Outcome.SOLVED)).sum()),
        len(np.unique(made["case"])),
        tuple((name, case) for name, better, _ in changed for case in better),
        tuple((name, case) for name, _, slipped in changed for case in slipped),
    )


def _by_name(name: str) -> tuple[str, str]:
    return name.casefold(), name


def _first_seconds(made: Results, start: int) -> float:
    """How long the first attempt of the evening took: its time is that of its end."""
    first = made[made["time"] == start]
    return float(first["seconds"].max()) if len(first) else 0.0


def _changes(
    study: Study, first: int, start: datetime, end: datetime, now: datetime
) -> tuple[list[Case], list[Case]]:
    """The cases that got better from ``first`` on, and those that slipped."""
    met = np.unique(study.results["case"][first:])
    # Only cards that may have changed are worked out again: the whole history would take a learner's time.
    earlier = study.results[:first]
    before = cards_of(earlier[np.isin(earlier["case"], met)], now)
    better, slipped = [], []
    for case in (CASES[place] for place in met.tolist()):
        then = memory_of(before.get(case.slug), start)
        since = memory_of(study.cards.get(case.slug), end)
        if since in _KNOWN and then not in _KNOWN:
            better.append(case)
        elif since is Memory.SETTLING and then in (*_KNOWN, Memory.SLIPPING):
            slipped.append(case)
    return better, slipped
