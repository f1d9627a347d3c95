"""Where a learner stands: the attempts in brief and the cards they lead to."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Self

import numpy as np

from tutor.progress.attempt import Attempt
from tutor.progress.cards import Cards, cards_after, cards_of
from tutor.progress.results import Results, results_of
from tutor.progress.store import Store


@dataclass(frozen=True, slots=True, eq=False)
class Study:
    """A learner's attempts in brief, and the cards that follow from them. Compared by identity.

    ``latest`` is the attempt taken in last, if one was; when a clock was set back it need not be the one with
    the latest time.
    """

    results: Results
    cards: Cards
    latest: Results | None = None

    @classmethod
    def of(cls, attempts: Iterable[Attempt], now: datetime) -> Self:
        """What these attempts, of one learner, lead to."""
        results = results_of(attempts)
        return cls(results, cards_of(results, now))

    def after(self, attempt: Attempt, now: datetime) -> Study:
        """With one more attempt; the same as if all were gone through again."""
        added = results_of([attempt])
        results = np.concatenate([self.results, added])
        in_order = not len(self.results) or added["time"][0] > self.results["time"][-1]
        if in_order:
            return Study(results, cards_after(self.cards, added, now), added)
        results = results[np.argsort(results["time"], kind="stable")]
        return Study(results, cards_of(results, now), added)


def load_study(store: Store, learner: str, now: datetime) -> Study:
    """Where the learner stands by what the store holds."""
    return Study.of(store.attempts(learner), now)
