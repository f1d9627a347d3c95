"""Does the course teach? Simulated learners: the lessons and then the program's schedule, or chance alone.

Run it with ``python -m tests.bench.bench_course`` (two minutes; ``--learners`` and the figures of the model
change it). It gives the same figures each time. This is a model: it tells what follows from the assumptions
below, and nothing of it was measured on people.

What a learner remembers of a case
    Forgetting follows the curve that the authors of FSRS publish with version 6 (their library ``fsrs`` 6.3):
    ``chance = (1 + f * days / lasting) ** -w20``, here with parts of days. ``lasting`` grows and falls by the
    formulas published there, with the usual parameters, times a factor of the learner's own for each case
    (log-normal, median 1, sigma 0.3). The program's schedule knows neither that factor nor what the learner
    thinks; but it plans by the same formulas, which favours it. ``bench_schedule`` has another memory.

How a try goes
    A learner who remembers the case solves it. One who does not works it out with the chance ``reasoned``
    (0.5) if a lesson has taught its idea, else ``groped`` (0.1). One try in twenty goes wrong by a slip all
    the same. Of the solved, a fifth take an acceptable way.

Help
    Of those who do not solve the case alone, four fifths ask for hints, and the others watch the way. Who has
    met the idea solves the case after the first rung in half of the tries; all else takes the last rung. A
    way that was shown, by the last rung or by watching, teaches the idea of its case with the chance
    ``gleaned`` (0.2), also without any lesson.

Ideas
    The idea of a case is that of the first lesson in which the learner solves it, so a lesson's idea serves
    all the cases that it is the first to ask for. Ideas are not forgotten.

Practice
    At most 30 tries a day. Who follows the course takes one lesson a day, in order, and tries every case that
    its scenes ask for; after the lesson comes today's list of the program until it is empty. Chance takes any
    of the 41 cases, never one twice in a row, until the day's tries are used up.

Counted are all tries, those of lessons too, up to a goal. *All stick*: all 41 cases stick or are sure by the
program's own reading (``memory_of``) at the same moment. *It lasts*: by the learner's own memory, which the
program does not know, the mean chance to remember the 41 cases is four fifths thirty days on without any
practice. A learner who is not there after 400 days counts with all tries made.
"""

from __future__ import annotations

import argparse
import random
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from functools import cache, partial
from statistics import mean, median
from typing import Protocol
from uuid import UUID

from msgspec import Struct
from msgspec.structs import fields

from tutor.cube.position import Slot
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import curriculum_names, load_lesson
from tutor.lesson.scenes import Alone, Ask, Extent, Lesson
from tutor.method.answer import answer
from tutor.method.cases import CASES, case_of
from tutor.progress.attempt import AttemptRecord, HintTaken, Mode, Outcome
from tutor.progress.forgetting import (
    AGAIN,
    GOOD,
    HARD,
    PARAMETERS,
    first_difficulty,
    first_lasting,
    next_difficulty,
    next_lasting,
)
from tutor.progress.schedule import next_up
from tutor.progress.study import Study
from tutor.progress.summary import Memory, memory_of
from tutor.solver.search import Solver

BEGINS = datetime(2026, 3, 2, 18, 30, tzinfo=UTC)
TRIES_A_DAY = 30
BETWEEN_TRIES = timedelta(seconds=40)
MOST_DAYS = 400
SLUGS = tuple(case.slug for case in CASES)
_DECAY = -PARAMETERS[20]
_FACTOR = 0.9 ** (1 / _DECAY) - 1

LessonTries = tuple[tuple[str, ...], ...]
"""For each lesson the cases that its scenes ask for, in order."""


class Model(Struct, frozen=True):
    """The assumptions of the docstring that are worth varying."""

    reasoned: float = 0.5
    groped: float = 0.1
    gleaned: float = 0.2


@cache
def lesson_tries() -> LessonTries:
    """What each lesson of the program asks for, read from its scenes."""
    setting = LessonSetting(partial(answer, Solver.open()))
    return tuple(tuple(_asked(load_lesson(name, setting))) for name in curriculum_names())


def _asked(lesson: Lesson) -> Iterator[str]:
    for scene in lesson.scenes:
        if not (isinstance(scene, Alone) or (isinstance(scene, Ask) and scene.extent is Extent.CASE)):
            continue
        if (seen := case_of(scene.cube.position, scene.task)) is not None:
            yield seen.case.slug


def ideas_of(lessons: LessonTries) -> Mapping[str, int]:
    """The number of the lesson that first asks for each case."""
    return {slug: number for number, tried in reversed([*enumerate(lessons)]) for slug in tried}


@dataclass
class Remembered:
    """A case in the learner's own memory."""

    lasting: float
    difficulty: float
    last: datetime

    def chance(self, at: datetime) -> float:
        """The published curve."""
        days = (at - self.last) / timedelta(days=1)
        return float((1 + _FACTOR * days / self.lasting) ** _DECAY)


@dataclass
class Learner:
    """A simulated learner: memory, ideas met, and the attempts as the program has them."""

    seed: int
    model: Model
    lessons: LessonTries
    memory: dict[str, Remembered] = field(default_factory=dict)
    ideas: set[int] = field(default_factory=set)
    tries: int = 0

    def __post_init__(self) -> None:
        drawn = random.Random(self.seed)
        self.factor = {slug: drawn.lognormvariate(0.0, 0.3) for slug in SLUGS}
        self.draw = random.Random(self.seed + 1_000_000).random
        self.idea_of = ideas_of(self.lessons)
        self.study = Study.of([], BEGINS)

    def attempts(self, slug: str, now: datetime, mode: Mode, slot: Slot = Slot.FR) -> None:
        """Try a case once; memory, ideas and the program's cards take it in."""
        known = slug in self.memory and self.draw() < self.memory[slug].chance(now)
        idea = self.idea_of[slug] in self.ideas
        solved = known or self.draw() < (self.model.reasoned if idea else self.model.groped)
        solved = solved and self.draw() >= 0.05
        if solved:
            outcome, rung, extra = Outcome.SOLVED, 0, int(self.draw() < 0.2)
        elif self.draw() < 0.8:
            outcome, rung, extra = Outcome.SOLVED, 1 if idea and self.draw() < 0.5 else 3, 0
        else:
            outcome, rung, extra = Outcome.WATCHED, 0, 0
        if (rung == 3 or outcome is Outcome.WATCHED) and self.draw() < self.model.gleaned:
            self.ideas.add(self.idea_of[slug])
        graded = outcome is Outcome.SOLVED and rung < 3
        self._strengthened(slug, now, AGAIN if not graded else HARD if rung or extra else GOOD)
        self._recorded(slug, now, mode, slot, outcome, rung, extra)

    def _strengthened(self, slug: str, now: datetime, rating: int) -> None:
        """By the published formulas; the factor is the learner's own."""
        old, factor = self.memory.get(slug), self.factor[slug]
        if old is None:
            self.memory[slug] = Remembered(first_lasting(rating) * factor, first_difficulty(rating), now)
            return
        plain = next_lasting(old.lasting / factor, old.difficulty, rating, (now - old.last).days)
        self.memory[slug] = Remembered(plain * factor, next_difficulty(old.difficulty, rating), now)

    def _recorded(
        self, slug: str, now: datetime, mode: Mode, slot: Slot, outcome: Outcome, rung: int, extra: int
    ) -> None:
        self.tries += 1
        attempt = AttemptRecord(
            "Nao", now, slug, slot, 0, mode, outcome, 3 + extra, 3, 20.0,
            hints=(HintTaken(rung, 1.0),) if rung else (),
            uuid=UUID(int=(self.seed << 32) + self.tries),
        )  # fmt: skip
        self.study = self.study.after(attempt, now)

    def sticking(self, now: datetime) -> int:
        """How many cases the program reads as held."""
        held = (Memory.STICKS, Memory.SURE)
        return sum(memory_of(self.study.cards.get(slug), now) in held for slug in SLUGS)

    def recall(self, at: datetime) -> float:
        """The learner's own chance to remember a case, the mean of all 41."""
        return mean(self.memory[slug].chance(at) if slug in self.memory else 0.0 for slug in SLUGS)


# -------------------------------------------------------------------------------------- ways to practise


class Way(Protocol):
    """How a learner spends the days."""

    def day(self, learner: Learner, number: int) -> Iterator[Callable[[datetime], bool]]:
        """The tries of a day, one after the other; each tells whether there was anything to try."""


def scheduled(learner: Learner, now: datetime) -> bool:
    """What the program proposes from today's list; nothing once the list is empty."""
    proposal = next_up(learner.study, now, Mode.TODAY)
    if proposal is not None:
        learner.attempts(proposal.slug, now, Mode.TODAY, proposal.slot)
    return proposal is not None


@dataclass
class Course:
    """The lessons in order, one a day, and the program's schedule after each and from then on."""

    lessons: bool = True

    def day(self, learner: Learner, number: int) -> Iterator[Callable[[datetime], bool]]:
        """The day's lesson, then today's list."""
        if self.lessons and number < len(learner.lessons):
            learner.ideas.add(number)
            for slug in learner.lessons[number]:
                yield partial(self._in_lesson, learner, slug)
        while True:
            yield partial(scheduled, learner)

    def _in_lesson(self, learner: Learner, slug: str, now: datetime) -> bool:
        learner.attempts(slug, now, Mode.LESSON)
        return True


class Chance:
    """Any case by chance, never one twice in a row; the lessons before it, one a day, if wanted."""

    def __init__(self, seed: int, *, lessons: bool = False, a_day: int = TRIES_A_DAY) -> None:
        self.drawn = random.Random(seed + 2_000_000)
        self.course = Course() if lessons else None
        self.a_day, self.before = a_day, ""

    def day(self, learner: Learner, number: int) -> Iterator[Callable[[datetime], bool]]:
        """The day's lesson, if any is left, then chance."""
        tries = 0
        if self.course is not None and number < len(learner.lessons):
            lesson = self.course.day(learner, number)
            for _ in learner.lessons[number]:
                tries += 1
                yield next(lesson)
            learner.ideas.add(number)
        for _ in range(self.a_day - tries):
            yield partial(self._any, learner)

    def _any(self, learner: Learner, now: datetime) -> bool:
        self.before = self.drawn.choice([slug for slug in SLUGS if slug != self.before])
        learner.attempts(self.before, now, Mode.SINGLE)
        return True


WAYS: Mapping[str, Callable[[int], Way]] = {
    "the course, then the schedule": lambda seed: Course(),
    "chance": Chance,
    "chance, 15 tries a day": lambda seed: Chance(seed, a_day=15),
    "the course, then chance": lambda seed: Chance(seed, lessons=True),
    "the schedule without lessons": lambda seed: Course(lessons=False),
}
MINE, OTHER = list(WAYS)[:2]


Goal = Callable[[Learner, datetime], bool]
LATER = timedelta(days=30)


def all_stick(learner: Learner, now: datetime) -> bool:
    """By the program's reading."""
    return len(learner.study.cards) == len(SLUGS) and learner.sticking(now) == len(SLUGS)


def it_lasts(learner: Learner, now: datetime) -> bool:
    """By the learner's own memory."""
    return len(learner.memory) == len(SLUGS) and learner.recall(now + LATER) >= 0.8


GOALS: Mapping[str, Goal] = {"all stick": all_stick, "it lasts": it_lasts}


class Arrival(Struct, frozen=True):
    """When a learner was there: tries and days; the recall of all 41 then and thirty days on."""

    tries: int
    days: int
    arrived: bool
    recall: float
    later: float


def practised(way: Way, learner: Learner, goal: Goal) -> Arrival:
    """Days of practice up to the goal."""
    now = BEGINS
    for number in range(MOST_DAYS):
        now = BEGINS + timedelta(days=number)
        for attempt in _at_most(TRIES_A_DAY, way.day(learner, number)):
            now += BETWEEN_TRIES
            if not attempt(now):
                break
            if goal(learner, now):
                return _arrival(learner, now, number + 1, arrived=True)
    return _arrival(learner, now, MOST_DAYS, arrived=False)


def _at_most(count: int, tries: Iterator[Callable[[datetime], bool]]) -> Iterator[Callable[[datetime], bool]]:
    yield from (attempt for _, attempt in zip(range(count), tries, strict=False))


def _arrival(learner: Learner, now: datetime, days: int, *, arrived: bool) -> Arrival:
    return Arrival(learner.tries, days, arrived, learner.recall(now), learner.recall(now + LATER))


def arrivals(name: str, seeds: range, goal: Goal, model: Model | None = None) -> list[Arrival]:
    """How it went with the learners of these seeds in one way."""
    assumed, asked = model or Model(), lesson_tries()
    return [practised(WAYS[name](seed), Learner(seed, assumed, asked), goal) for seed in seeds]


def ratios(mine: list[Arrival], other: list[Arrival]) -> list[float]:
    """Tries of each learner in one way over those of the same learner in the other."""
    return [one.tries / two.tries for one, two in zip(mine, other, strict=True)]


# --------------------------------------------------------------------------------------------- the table


def row(name: str, found: list[Arrival], chance: list[Arrival]) -> str:
    """A row of the table: medians over the learners."""
    tries, days = median(one.tries for one in found), median(one.days for one in found)
    arrived = sum(one.arrived for one in found) / len(found)
    recall, later = mean(one.recall for one in found), mean(one.later for one in found)
    share = median(ratios(found, chance))
    return f"| {name} | {tries:.0f} | {days:.0f} | {arrived:.0%} | {recall:.2f} | {later:.2f} | {share:.0%} |"


def table(title: str, goal: Goal, seeds: range, model: Model) -> Iterator[str]:
    """The table of one goal, line by line, and the spread from learner to learner."""
    yield f"| {title} | tries | days | there | recall then | 30 days on | tries, of chance |"
    yield "| --- | --- | --- | --- | --- | --- | --- |"
    chance = arrivals(OTHER, seeds, goal, model)
    mine: list[Arrival] = []
    for name in WAYS:
        found = chance if name == OTHER else arrivals(name, seeds, goal, model)
        mine = found if name == MINE else mine
        yield row(name, found, chance)
    yield "\n| learner | course | chance | ratio |\n| --- | --- | --- | --- |"
    for seed, share in enumerate(ratios(mine, chance)):
        yield f"| {seed} | {mine[seed].tries} | {chance[seed].tries} | {share:.0%} |"
    yield ""


def main() -> None:
    """Simulate and print the tables."""
    parser = argparse.ArgumentParser(description="Judge the course by simulation.")
    parser.add_argument("--learners", type=int, default=20)
    for each in fields(Model):
        parser.add_argument(f"--{each.name}", type=float, default=each.default)
    chosen = parser.parse_args()
    model, seeds = Model(chosen.reasoned, chosen.groped, chosen.gleaned), range(chosen.learners)
    print(f"{chosen.learners} learners, {model}; medians, and means of recall\n")
    for title, goal in GOALS.items():
        for line in table(title, goal, seeds, model):
            print(line, flush=True)


if __name__ == "__main__":
    main()
