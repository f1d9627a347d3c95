"""Does the schedule pay? Simulated learners, this schedule against simpler ways of spending the same minutes.

Run it with ``python -m tests.bench.bench_schedule`` (some minutes; ``--learners`` and ``--days`` change it).
It gives the same figures each time. The memory of these learners is not that which the schedule assumes, so
that it is not judged by its own rule. Assumptions, all ours and none measured on people:

- A case that was shown is recalled after d days with the chance 2 ** (-d / h). At first its half-life h is
  about a day (log-normal, median 1.0, sigma 0.5, drawn for each learner and case).
- Recalled, its half-life grows by the factor 1 + G * (1 - chance): the later, the more, and hardly at all
  right after the last time (the spacing effect, by direction as in Cepeda and others, Psychological Bulletin
  132(3), 2006, from memory; the size is assumed: G log-normal, median 8, sigma 0.3, drawn for each learner;
  ``--growth`` sets another median).
- Not recalled, it is shown again, and its half-life falls to 0.4 of what it was, but not below half a day.
- One attempt in twenty goes wrong by a slip though the case was recalled; its half-life stays as it was.
- Of the recalled, three in ten take an acceptable way instead of the shortest.
- A recalled case takes 20 seconds, a failed one 45, a new one 60. Slot and mirror make no difference.
- Ten minutes a day at the same hour; one day in seven, by chance, none at all.

A case is held when its chance of recall, at the start of a day, is at least four fifths (and, more strictly,
nine tenths). That crammed practice gains little is an assumption here, not a result; what the comparison with
chance and with going round tells is what choosing by need is worth. Told are the days and the minutes of
practice until 37 of the 41 are held for the first time, and the mean chance of recall of all 41 at the end.
"""

from __future__ import annotations

import argparse
import random
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from statistics import median
from uuid import UUID

from msgspec import Struct

from tutor.cube.position import Slot
from tutor.progress.attempt import AttemptRecord, Mode, Outcome
from tutor.progress.course import course
from tutor.progress.schedule import NEW_A_DAY, next_up
from tutor.progress.study import Study

BEGINS = datetime(2026, 3, 2, 18, 30, tzinfo=UTC)
SECONDS_A_DAY = 600.0
WANTED = 37
"""Nine tenths of the 41 cases."""
LEVELS = (0.8, 0.9)
SLUGS = [case.slug for case in course()]


@dataclass
class Learner:
    """A simulated learner, with the half-life of each case met and when it was met last, in days."""

    seed: int
    median_growth: float
    half_life: dict[str, float] = field(default_factory=dict)
    last: dict[str, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        drawn = random.Random(self.seed)
        self.first = {slug: drawn.lognormvariate(0.0, 0.5) for slug in SLUGS}
        self.growth = self.median_growth * drawn.lognormvariate(0.0, 0.3)
        self.off = [drawn.random() < 1 / 7 for _ in range(1000)]
        self.chance_draws = random.Random(self.seed + 1_000_000)

    def chance(self, slug: str, day: float) -> float:
        """The chance that the case is recalled at a time; 0 if it was never met."""
        if slug not in self.last:
            return 0.0
        return float(2.0 ** (-(day - self.last[slug]) / self.half_life[slug]))

    def meets(self, slug: str, day: float) -> tuple[str, float]:
        """Practise the case: how it went, and how many seconds it took."""
        draw = self.chance_draws.random
        if slug not in self.last:
            self.half_life[slug], self.last[slug] = self.first[slug], day
            return "shown", 60.0
        chance = self.chance(slug, day)
        self.last[slug] = day
        if draw() >= chance:
            self.half_life[slug] = max(0.5, 0.4 * self.half_life[slug])
            return "failed", 45.0
        if draw() < 0.05:
            return "failed", 45.0
        self.half_life[slug] *= 1 + self.growth * (1 - chance)
        return ("acceptable" if draw() < 0.3 else "shortest"), 20.0

    def held(self, day: float, level: float) -> int:
        """How many cases are recalled with at least this chance."""
        return sum(self.chance(slug, day) >= level for slug in SLUGS)


# ------------------------------------------------------------------------------------------ ways to practise


class Scheduled:
    """The schedule of the program: what is due, and then, if wanted, the weakest until the time is over."""

    def __init__(self, seed: int, *, to_the_end: bool) -> None:
        self.to_the_end = to_the_end
        self.study = Study.of([], BEGINS)
        self.number = seed << 32
        self.proposal_slot = Slot.FR

    def picks(self, day: float) -> str | None:
        """The case proposed now."""
        now = BEGINS + timedelta(days=day)
        proposal = next_up(self.study, now, Mode.TODAY)
        if proposal is None and self.to_the_end:
            proposal = next_up(self.study, now, Mode.SLIPPING)
        if proposal is None:
            return None
        self.proposal_slot = proposal.slot
        return proposal.slug

    def learns(self, slug: str, day: float, went: str) -> None:
        """Take the attempt in."""
        now = BEGINS + timedelta(days=day)
        outcome = {"shown": Outcome.WATCHED, "failed": Outcome.GIVEN_UP}.get(went, Outcome.SOLVED)
        used = 4 if went == "acceptable" else 3
        self.number += 1
        uuid = UUID(int=self.number)
        attempt = AttemptRecord(
            "Nao", now, slug, self.proposal_slot, 0, Mode.TODAY, outcome, used, 3, 20.0, uuid=uuid
        )
        self.study = self.study.after(attempt, now)


class Uniform:
    """Any case by chance, from the first day or so many new ones a day."""

    def __init__(self, seed: int, *, new_a_day: int | None) -> None:
        self.drawn = random.Random(seed + 2_000_000)
        self.new_a_day = new_a_day
        self.before = ""

    def picks(self, day: float) -> str | None:
        """A case by chance, not the last one."""
        met = len(SLUGS) if self.new_a_day is None else min(len(SLUGS), self.new_a_day * (int(day) + 1))
        self.before = self.drawn.choice([slug for slug in SLUGS[:met] if slug != self.before])
        return self.before

    def learns(self, slug: str, day: float, went: str) -> None:
        """Chance learns nothing."""


class Blocked:
    """One case after the other in the order of the lessons, each so many times in a row, and round again."""

    def __init__(self, times: int) -> None:
        self.times = times
        self.made = 0

    def picks(self, day: float) -> str | None:
        """The case of the block."""
        return SLUGS[self.made // self.times % len(SLUGS)]

    def learns(self, slug: str, day: float, went: str) -> None:
        """Once more of this block."""
        self.made += 1


WAYS: dict[str, Callable[[int], Scheduled | Uniform | Blocked]] = {
    "this schedule, what is due and no more": lambda seed: Scheduled(seed, to_the_end=False),
    "this schedule, then the weakest": lambda seed: Scheduled(seed, to_the_end=True),
    "by chance, all from the first day": lambda seed: Uniform(seed, new_a_day=None),
    f"by chance, {NEW_A_DAY} new ones a day": lambda seed: Uniform(seed, new_a_day=NEW_A_DAY),
    "round and round in the lessons' order": lambda seed: Blocked(1),
    "blocked, five in a row": lambda seed: Blocked(5),
    "blocked, ten in a row": lambda seed: Blocked(10),
}


class Course(Struct, frozen=True):
    """How it went with a learner: day and minutes until enough was held at each level; recall at the end."""

    reached: dict[float, tuple[int, float] | None]
    recall: float
    minutes: float


def practised(way: Scheduled | Uniform | Blocked, learner: Learner, days: int) -> Course:
    """Days of practice of a learner in a way."""
    reached: dict[float, tuple[int, float] | None] = dict.fromkeys(LEVELS)
    seconds = 0.0
    for day in range(days):
        for level in LEVELS:
            if reached[level] is None and learner.held(day, level) >= WANTED:
                reached[level] = (day, seconds / 60)
        spent = 0.0
        while not learner.off[day] and spent < SECONDS_A_DAY:
            at = day + spent / 86_400
            slug = way.picks(at)
            if slug is None:
                break
            went, took = learner.meets(slug, at)
            way.learns(slug, at, went)
            spent += took
        seconds += spent
    recall = sum(learner.chance(slug, days) for slug in SLUGS) / len(SLUGS)
    return Course(reached, recall, seconds / 60)


def told(name: str, courses: list[Course]) -> str:
    """A row of the table: medians over the learners, and how many got there."""
    cells = []
    for level in LEVELS:
        got = [course.reached[level] for course in courses]
        there = [one for one in got if one is not None]
        # The median over all learners is known only if more than half got there.
        if 2 * len(there) > len(courses):
            late = (10**6, 10.0**6)
            middle_day = median(one[0] for one in (each or late for each in got))
            middle_minutes = median(one[1] for one in (each or late for each in got))
            cells.append(f"{middle_day:7.0f} {middle_minutes:8.0f} {len(there) / len(courses):6.0%}")
        else:
            cells.append(f"{'-':>7} {'-':>8} {len(there) / len(courses):6.0%}")
    recall = sum(course.recall for course in courses) / len(courses)
    minutes = sum(course.minutes for course in courses) / len(courses)
    return f"{name:42} {' '.join(cells)} {recall:8.3f} {minutes:8.0f}"


def main() -> None:
    """Simulate and print the table."""
    parser = argparse.ArgumentParser(description="Judge the schedule by simulation.")
    parser.add_argument("--learners", type=int, default=200)
    parser.add_argument("--days", type=int, default=120)
    parser.add_argument("--growth", type=float, default=8.0, help="median of G in the docstring")
    chosen = parser.parse_args()
    print(
        f"{chosen.learners} learners, {chosen.days} days, growth {chosen.growth}. Medians of day and minutes"
    )
    print(f"until {WANTED} cases are held, the share that got there; mean recall at the end, all minutes.")
    heads = " ".join(f"{f'd({level})':>7} {'minutes':>8} {'got':>6}" for level in LEVELS)
    print(f"{'':42} {heads} {'recall':>8} {'minutes':>8}", flush=True)
    for name, make in WAYS.items():
        learners = (Learner(seed, chosen.growth) for seed in range(chosen.learners))
        courses = [practised(make(learner.seed), learner, chosen.days) for learner in learners]
        print(told(name, courses), flush=True)


if __name__ == "__main__":
    main()
