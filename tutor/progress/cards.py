"""Cards: how well a learner remembers each case, and when it comes back.

There is one card for each case met, and nothing is kept about it: cards follow from the attempts alone, by
going through them in the order of time, so that taking an attempt back restores the card as it was.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime, timedelta
from enum import StrEnum
from zlib import crc32

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from tutor.method.cases import CASES
from tutor.method.terms import Verdict
from tutor.progress.attempt import Mode, Outcome
from tutor.progress.forgetting import (
    AGAIN,
    GOOD,
    HARD,
    chance_to_remember,
    first_difficulty,
    first_lasting,
    interval,
    next_difficulty,
    next_lasting,
)
from tutor.progress.results import MODES, OUTCOMES, VERDICTS, Results, microseconds, moment

SPREAD = 0.05
"""Cards met together are spread by up to this share of their interval, so that they do not all come back
together."""

UNCOUNTED = 0
"""What an attempt that is not counted counts as; the others count as a rating, AGAIN, HARD or GOOD."""


class CardPhase(StrEnum):
    """Where a case is in memory."""

    SETTLING = "settling"
    STICKING = "sticks"
    SETTLING_AGAIN = "settling again"


_RUNGS = {
    CardPhase.SETTLING: (timedelta(minutes=1), timedelta(minutes=10)),
    CardPhase.SETTLING_AGAIN: (timedelta(minutes=10),),
}
"""The short intervals of a case that is settling, those that the library ``fsrs`` proposes."""


class Card(Struct, frozen=True):
    """How well a learner remembers a case.

    ``lasts``: days until the chance to remember it has fallen to 90 %; ``difficulty`` from 1 to 10;
    ``first`` and ``last``: when it was first and last reviewed; ``next``: when it should come back; all UTC.
    """

    slug: str
    phase: CardPhase
    lasts: float
    difficulty: float
    first: datetime
    last: datetime
    next: datetime
    reviews: int
    rung: int | None = None
    """While it is settling: which of the short intervals comes next."""

    def chance(self, at: datetime) -> float:
        """The chance, from 0 to 1, that the learner remembers the case; within a day of the last review 1."""
        return chance_to_remember(self.lasts, max(0, (at - self.last).days))


Cards = Mapping[str, Card]
"""Cards by the slug of their case; a case not met has none."""


def grades(results: Results) -> NDArray[np.uint8]:
    """What each attempt counts as: UNCOUNTED, AGAIN, HARD or GOOD.

    Unaided in no more turns than the route takes is GOOD: the route is what the lessons teach, and who makes
    it knows the case, though by hand fewer turns may do. A longer way, a turn taken back, or a hint of the
    first rung is HARD (a card that is settling takes it as AGAIN); a detour, a deeper hint, giving up, or
    watching is AGAIN. An attempt that the program begins, and one at a glance, do not test the whole case
    and do not count.
    """
    outcome, worst = results["outcome"], results["worst"]
    home = outcome == OUTCOMES.index(Outcome.SOLVED)
    detour = worst == VERDICTS.index(Verdict.DETOUR)
    longer = (results["used"] > results["taught"]) | (results["made"] > results["used"])
    less = longer | (results["rung"] == 1)
    grade = np.where(home & ~detour & (results["rung"] <= 1), np.where(less, HARD, GOOD), AGAIN)
    watched = outcome == OUTCOMES.index(Outcome.WATCHED)
    partial = ((results["shown"] > 0) & ~watched) | (results["mode"] == MODES.index(Mode.GLANCE))
    return np.where(partial, UNCOUNTED, grade).astype(np.uint8)


def believable_times(results: Results, now: datetime) -> NDArray[np.int64]:
    """The times of attempts, in microseconds, where those after ``now`` are taken back to the last before it.

    They come from a clock that was wrong and has been set back since. They keep their order.
    """
    times = results["time"].astype(np.int64)
    at = microseconds(now)
    future = times > at
    if future.any():
        past = times[~future]
        times[future] = past.max() if len(past) else at
    return times


def cards_of(results: Results, now: datetime) -> Cards:
    """The cards that attempts lead to."""
    return cards_after({}, results, now)


def cards_after(cards: Cards, added: Results, now: datetime) -> Cards:
    """The cards after attempts that came later than all those that led to ``cards``."""
    marks = grades(added)
    counted = np.flatnonzero(marks)
    columns = (added["case"], marks, believable_times(added, now))
    found = dict(cards)
    for place, grade, time in zip(*(column[counted].tolist() for column in columns), strict=True):
        slug = CASES[place].slug
        found[slug] = _reviewed(slug, found.get(slug), grade, moment(time))
    return found


def spread_next(card: Card) -> datetime:
    """When the card comes back, a little earlier or later; the same for the same card and last review."""
    if card.phase is not CardPhase.STICKING:
        return card.next
    drawn = crc32(f"{card.slug} {microseconds(card.last)}".encode()) / 2**32
    return card.next + (card.next - card.last) * SPREAD * (2 * drawn - 1)


def _reviewed(slug: str, card: Card | None, grade: int, at: datetime) -> Card:
    """The card after one attempt more. While a case is settling, what would be HARD is AGAIN."""
    phase = CardPhase.SETTLING if card is None else card.phase
    if grade == HARD and phase is not CardPhase.STICKING:
        grade = AGAIN
    if card is None:
        first, reviews, rung = at, 0, 0
        lasts, difficulty = first_lasting(grade), first_difficulty(grade)
    else:
        first, reviews, rung = card.first, card.reviews, card.rung or 0
        lasts = next_lasting(card.lasts, card.difficulty, grade, (at - card.last).days)
        difficulty = next_difficulty(card.difficulty, grade)
    phase, rung_then, wait = _next_interval(phase, rung, grade, lasts)
    return Card(slug, phase, lasts, difficulty, first, at, at + wait, reviews + 1, rung_then)


def _next_interval(
    phase: CardPhase, rung: int, grade: int, lasts: float
) -> tuple[CardPhase, int | None, timedelta]:
    """Phase and rung after an attempt, and how long until the next one."""
    if grade == AGAIN:
        phase, rung = (CardPhase.SETTLING_AGAIN if phase is CardPhase.STICKING else phase), 0
    else:
        rung += 1
    rungs = _RUNGS.get(phase, ())
    if rung < len(rungs):
        return phase, rung, rungs[rung]
    return CardPhase.STICKING, None, timedelta(days=interval(lasts))
