"""The cases that a group finds hardest: those that slip from most of its learners."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from tutor.method.cases import CASES
from tutor.progress.cards import Card, CardPhase, Cards
from tutor.progress.summary import Memory, memory_of

MOST = 8
"""So many cases fill an evening."""


def hardest(group: Iterable[Cards], now: datetime) -> tuple[str, ...]:
    """The cases by their slugs that slip from most learners, the hardest first; none that slips from nobody.

    Where as many learners forget two cases, the one comes first that they are more likely to forget; then
    the book's order counts.
    """
    learners = tuple(group)
    weighed = []
    for case in CASES:
        known = (cards[case.slug] for cards in learners if case.slug in cards)
        lost = [1 - card.chance(now) for card in known if _slips(card, now)]
        if lost:
            weighed.append((-len(lost), -sum(lost), case.number, case.slug))
    return tuple(slug for *_, slug in sorted(weighed)[:MOST])


def _slips(card: Card, now: datetime) -> bool:
    """Whether a case slips as Progress says, or was forgotten when it came last."""
    return card.phase is CardPhase.SETTLING_AGAIN or memory_of(card, now) is Memory.SLIPPING
