"""Cards: how well each case holds, and when it is due again.

There is one card for each case met, and nothing is kept about it: cards follow from the attempts alone, by
going through them in the order of time, so that taking an attempt back restores the card as it was.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import StrEnum
from zlib import crc32

import numpy as np
from numpy.typing import NDArray

from tutor.method.cases import CASES
from tutor.method.terms import Verdict
from tutor.progress.attempt import Mode, Outcome
from tutor.progress.forgetting import (
    AGAIN,
    GOOD,
    HARD,
    first_difficulty,
    first_stability,
    interval,
    next_difficulty,
    next_stability,
    recall,
)
from tutor.progress.results import MODES, OUTCOMES, VERDICTS, Results, microseconds, moment

SPREAD = 0.05
"""Cards learnt together are spread by up to this share of their interval, so as not to be due together."""

UNCOUNTED = 0
"""What an attempt that is not counted counts as; the others count as a rating, AGAIN, HARD or GOOD."""


class CardPhase(StrEnum):
    """Where a case stands in memory."""

    LEARNING = "being learnt"
    HOLDING = "holds"
    RELEARNING = "being learnt again"


_RUNGS = {
    CardPhase.LEARNING: (timedelta(minutes=1), timedelta(minutes=10)),
    CardPhase.RELEARNING: (timedelta(minutes=10),),
}
"""The short intervals of a case being learnt, those that the library ``fsrs`` proposes."""


@dataclass(frozen=True, slots=True)
class Card:
    """How well a case holds.

    ``stability``: days until the chance to recall it has fallen to 90 %; ``difficulty`` from 1 to 10;
    ``first`` and ``last``: when it was first and last reviewed; ``due``: when it should come again; all UTC.
    """

    slug: str
    phase: CardPhase
    stability: float
    difficulty: float
    first: datetime
    last: datetime
    due: datetime
    reviews: int
    rung: int | None = None
    """While being learnt: which of the short intervals comes next."""

    def recall(self, at: datetime) -> float:
        """The chance, from 0 to 1, that the case is recalled at a time; within a day of the last review 1."""
        return recall(self.stability, max(0, (at - self.last).days))


Cards = Mapping[str, Card]
"""Cards by the slug of their case; a case not met has none."""


def grades(results: Results) -> NDArray[np.uint8]:
    """What each attempt counts as: UNCOUNTED, AGAIN, HARD or GOOD.

    Unaided in the fewest turns by hand is GOOD; an acceptable way, a turn taken back, or a hint of the first
    rung is HARD (a card still being learnt takes it as AGAIN); a detour, a deeper hint, giving up, or
    watching is AGAIN. What is begun by the program, and a flash, do not test the whole case and are not
    counted.
    """
    outcome, worst = results["outcome"], results["worst"]
    home = outcome == OUTCOMES.index(Outcome.HOME)
    detour = worst == VERDICTS.index(Verdict.DETOUR)
    longer = (results["used"] > results["fewest"]) | (results["made"] > results["used"])
    less = longer | (worst == VERDICTS.index(Verdict.ACCEPTABLE)) | (results["rung"] == 1)
    grade = np.where(home & ~detour & (results["rung"] <= 1), np.where(less, HARD, GOOD), AGAIN)
    watched = outcome == OUTCOMES.index(Outcome.WATCHED)
    partial = ((results["shown"] > 0) & ~watched) | (results["mode"] == MODES.index(Mode.FLASH))
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


def spread_due(card: Card) -> datetime:
    """When the card is due, a little earlier or later, always the same for the same card and last review."""
    if card.phase is not CardPhase.HOLDING:
        return card.due
    drawn = crc32(f"{card.slug} {microseconds(card.last)}".encode()) / 2**32
    return card.due + (card.due - card.last) * SPREAD * (2 * drawn - 1)


def _reviewed(slug: str, card: Card | None, grade: int, at: datetime) -> Card:
    """The card after one attempt more. While a case is being learnt, what would be HARD is AGAIN."""
    phase = CardPhase.LEARNING if card is None else card.phase
    if grade == HARD and phase is not CardPhase.HOLDING:
        grade = AGAIN
    if card is None:
        first, reviews, rung = at, 0, 0
        stability, difficulty = first_stability(grade), first_difficulty(grade)
    else:
        first, reviews, rung = card.first, card.reviews, card.rung or 0
        stability = next_stability(card.stability, card.difficulty, grade, (at - card.last).days)
        difficulty = next_difficulty(card.difficulty, grade)
    phase, rung_then, wait = _next_interval(phase, rung, grade, stability)
    return Card(slug, phase, stability, difficulty, first, at, at + wait, reviews + 1, rung_then)


def _next_interval(
    phase: CardPhase, rung: int, grade: int, stability: float
) -> tuple[CardPhase, int | None, timedelta]:
    """Phase and rung after an attempt, and how long until the next one."""
    if grade == AGAIN:
        phase, rung = (CardPhase.RELEARNING if phase is CardPhase.HOLDING else phase), 0
    else:
        rung += 1
    rungs = _RUNGS.get(phase, ())
    if rung < len(rungs):
        return phase, rung, rungs[rung]
    return CardPhase.HOLDING, None, timedelta(days=interval(stability))
