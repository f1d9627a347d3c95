"""Where a learner stands: the attempts in brief and the cards they lead to."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Self

import numpy as np

from tutor.progress.attempt import Attempt
from tutor.progress.cards import Cards, cards_after, cards_of, checkpoint_of
from tutor.progress.results import Results, results_of
from tutor.progress.store import Store

CHECKPOINT_EVERY = 200
"""Attempts after which it is worth keeping the cards, so that the next start need not work them out again."""


@dataclass(frozen=True, slots=True, eq=False)
class Study:
    """A learner's attempts in brief, and the cards that follow from them. Compared by identity."""

    results: Results
    cards: Cards

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
            return Study(results, cards_after(self.cards, added, now))
        results = results[np.argsort(results["time"], kind="stable")]
        return Study(results, cards_of(results, now))


def load_study(store: Store, learner: str, now: datetime) -> Study:
    """Where the learner stands by what the store holds.

    Now and then it keeps the cards in the store beside the attempts, which only makes the next start quicker.
    """
    results = store.results(learner)
    checkpoint = store.checkpoint(learner)
    cards = cards_of(results, now, checkpoint)
    if len(results) >= CHECKPOINT_EVERY and checkpoint != (fresh := checkpoint_of(results, cards)):
        store.keep_checkpoint(learner, fresh)
    return Study(results, cards)
