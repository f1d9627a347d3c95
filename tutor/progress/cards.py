"""Cards: how well each case holds, and when it is due again.

There is one card for each case met, and nothing is kept about it: cards follow from the attempts alone, by
going through them in the order of time, so that taking an attempt back restores the card as it was.
Forgetting follows the FSRS model, version 6, with the parameters that its authors publish with the library
``fsrs`` (its documentation tells the formulas).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import StrEnum
from functools import cache
from hashlib import blake2b
from math import floor
from typing import TYPE_CHECKING
from zlib import crc32

import msgspec
import numpy as np
from numpy.typing import NDArray

from tutor.method.terms import Verdict
from tutor.progress.attempt import Mode, Outcome
from tutor.progress.results import MODES, OUTCOMES, VERDICTS, Results, microseconds, moment, numbered_cases

if TYPE_CHECKING:
    from fsrs import Card as ModelCard
    from fsrs import Scheduler

WANTED_RECALL = 0.9
"""A case is due when the chance to recall it falls to this."""
SPREAD = 0.05
"""Cards learnt together are spread by up to this share of their interval, so as not to be due together."""
_FORM = 1
"""Of checkpoints; goes up whenever the same attempts would lead to other cards."""

UNCOUNTED, AGAIN, HARD, GOOD = 0, 1, 2, 3
"""What an attempt counts as; those from 1 on are the ratings of FSRS. Its fourth, Easy, is never given."""


class Phase(StrEnum):
    """Where a case stands in memory."""

    LEARNING = "being learnt"
    HOLDING = "holds"
    RELEARNING = "being learnt again"


_PHASES = (Phase.LEARNING, Phase.HOLDING, Phase.RELEARNING)
"""By the number of the FSRS state less one."""


@dataclass(frozen=True, slots=True)
class Card:
    """How well a case holds.

    ``stability``: days until the chance to recall it has fallen to 90 %; ``difficulty`` from 1 to 10;
    ``first`` and ``last``: when it was first and last reviewed; ``due``: when it should come again; all UTC.
    """

    slug: str
    phase: Phase
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
        days = max(0.0, (at - self.last) / timedelta(days=1))
        scheduler = _scheduler()
        # FSRS 6, retrievability: (1 + factor * days / stability) ** decay, the factor so that 90 % are left
        # when as many days have gone by as the stability says.
        decay = -scheduler.parameters[20]
        factor = 0.9 ** (1 / decay) - 1
        return float((1 + factor * floor(days) / self.stability) ** decay)


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


def cards_of(results: Results, now: datetime, checkpoint: bytes | None = None) -> Cards:
    """The cards that attempts lead to; ``checkpoint`` (see ``checkpoint_of``) saves going through them all.

    A checkpoint that was made from other attempts is of no effect.
    """
    times = believable_times(results, now)
    start = 0
    cards: Cards = {}
    if checkpoint is not None:
        # Times not to be believed come last; a checkpoint that counts some of them is of no use.
        start, cards = _resumed(results[results["time"] <= microseconds(now)], checkpoint)
    return _gone_on(cards, results[start:], times[start:])


def cards_after(cards: Cards, added: Results, now: datetime) -> Cards:
    """The cards after attempts that came later than all those that led to ``cards``."""
    return _gone_on(cards, added, believable_times(added, now))


def _gone_on(cards: Cards, results: Results, times: NDArray[np.int64]) -> Cards:
    slugs = {number: case.slug for number, case in numbered_cases().items()}
    numbers = {slug: number for number, slug in slugs.items()}
    model = {numbers[slug]: _record(numbers[slug], card) for slug, card in cards.items()}
    marks = grades(results)
    counted = np.flatnonzero(marks)
    rows = zip(
        results["case"][counted].tolist(), marks[counted].tolist(), times[counted].tolist(), strict=True
    )
    scheduler = _scheduler()
    for number, grade, time in rows:
        at = moment(time)
        record = model.get(number) or _Record(_new_model_card(number), at, 0)
        card = _reviewed(scheduler, record.card, grade, at)
        model[number] = _Record(card, record.first, record.reviews + 1)
    return {slugs[number]: _card(slugs[number], record) for number, record in model.items()}


def spread_due(card: Card) -> datetime:
    """When the card is due, a little earlier or later, always the same for the same card and last review."""
    if card.phase is not Phase.HOLDING:
        return card.due
    drawn = crc32(f"{card.slug} {microseconds(card.last)}".encode()) / 2**32
    return card.due + (card.due - card.last) * SPREAD * (2 * drawn - 1)


def checkpoint_of(results: Results, cards: Cards) -> bytes:
    """What ``cards_of`` can go on from: the cards, and a mark of the attempts that led to them."""
    kept = _Checkpoint(_FORM, len(results), _mark(results), list(cards.values()))
    return msgspec.json.encode(kept)


# ------------------------------------------------------------------------------------------------ the model


@dataclass(frozen=True, slots=True)
class _Record:
    card: ModelCard
    first: datetime
    reviews: int


class _Checkpoint(msgspec.Struct, frozen=True):
    form: int
    counted: int
    mark: str
    cards: list[Card]


@cache
def _scheduler() -> Scheduler:
    # Imported here, since the window opens before anything is scheduled. The library's own spreading draws
    # afresh each time, so that going through the attempts again would lead to other cards; see spread_due.
    from fsrs import Scheduler

    return Scheduler(desired_retention=WANTED_RECALL, enable_fuzzing=False)


def _new_model_card(number: int) -> ModelCard:
    from fsrs import Card

    return Card(card_id=number)


def _reviewed(scheduler: Scheduler, card: ModelCard, grade: int, at: datetime) -> ModelCard:
    from fsrs import Rating, State

    if grade == HARD and card.state is not State.Review:
        grade = AGAIN
    return scheduler.review_card(card, Rating(grade), at)[0]


def _card(slug: str, record: _Record) -> Card:
    model = record.card
    if model.stability is None or model.difficulty is None or model.last_review is None:
        raise AssertionError("a card that was reviewed has all its values")
    phase = _PHASES[model.state - 1]
    return Card(
        slug,
        phase,
        model.stability,
        model.difficulty,
        record.first,
        model.last_review,
        model.due,
        record.reviews,
        model.step,
    )


def _resumed(results: Results, checkpoint: bytes) -> tuple[int, Cards]:
    """How many of the attempts a checkpoint covers, and the cards they led to; none if it is not of these."""
    try:
        kept = msgspec.json.decode(checkpoint, type=_Checkpoint)
    except msgspec.DecodeError:
        return 0, {}
    covered = results[: kept.counted]
    if kept.form != _FORM or len(covered) != kept.counted or _mark(covered) != kept.mark:
        return 0, {}
    return kept.counted, {card.slug: card for card in kept.cards}


def _record(number: int, card: Card) -> _Record:
    from fsrs import Card as ModelCard
    from fsrs import State

    state = State(_PHASES.index(card.phase) + 1)
    model = ModelCard(number, state, card.rung, card.stability, card.difficulty, card.due, card.last)
    return _Record(model, card.first, card.reviews)


def _mark(results: Results) -> str:
    return blake2b(np.ascontiguousarray(results).tobytes(), digest_size=16).hexdigest()
