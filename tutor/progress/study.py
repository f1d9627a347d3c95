"""Where a learner stands: the attempts in brief, the cards they lead to, and the guidance with each case."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import Self

import numpy as np
from msgspec import Struct

from tutor.coach.guidance import Guidance, guided, watched, worth
from tutor.method.cases import CASES, Case
from tutor.method.terms import Verdict
from tutor.progress.attempt import AttemptRecord, Mode, Outcome
from tutor.progress.cards import Cards, cards_after, cards_of
from tutor.progress.results import CASE_PLACES, MODES, OUTCOMES, VERDICTS, Results, microseconds, results_of
from tutor.progress.store import AttemptStore

LOOKED_BACK = 40
"""Only so many of the last attempts at a case are gone through: what came before has long been overtaken."""


class Study(Struct, frozen=True, eq=False):
    """A learner's attempts in brief, and the cards that follow from them. Compared by identity.

    ``latest`` is the attempt taken in last, if one was; when a clock was set back it need not be the one with
    the latest time. ``doubted``: the cards hold times that were not believed, since they lay ahead.
    """

    results: Results
    cards: Cards
    latest: Results | None = None
    doubted: bool = False

    @classmethod
    def of(cls, attempts: Iterable[AttemptRecord], now: datetime) -> Self:
        """What these attempts, of one learner, lead to."""
        return cls._whole(results_of(attempts), now)

    @classmethod
    def _whole(cls, results: Results, now: datetime, latest: Results | None = None) -> Self:
        return cls(results, cards_of(results, now), latest, bool((results["time"] > microseconds(now)).any()))

    def met(self, case: Case) -> bool:
        """Whether the learner has met a case, in practice or in a lesson."""
        return bool((self.results["case"] == CASE_PLACES[case.slug]).any())

    @property
    def cases_met(self) -> int:
        """How many cases the learner has met."""
        return len(np.unique(self.results["case"]))

    def solved_in_a_row(self, case: Case, times: int) -> bool:
        """Whether the last so many whole tries at a case all solved it, without a hint or a detour."""
        tries = self.results[(self.results["case"] == CASE_PLACES[case.slug]) & (self.results["shown"] == 0)]
        last = tries[tries["mode"] != MODES.index(Mode.GLANCE)][-times:]
        solved = (last["outcome"] == OUTCOMES.index(Outcome.SOLVED)) & (last["rung"] == 0)
        return len(last) == times and bool((solved & (last["worst"] != VERDICTS.index(Verdict.DETOUR))).all())

    def solved_unaided(self, case: Case) -> bool:
        """Whether the learner has solved a case whole without any help."""
        own = self.results[self.results["case"] == CASE_PLACES[case.slug]]
        solved = own["outcome"] == OUTCOMES.index(Outcome.SOLVED)
        return bool((solved & (own["rung"] == 0) & (own["shown"] == 0)).any())

    def after(self, attempt: AttemptRecord, now: datetime) -> Study:
        """With one more attempt; the same as if all were gone through again."""
        added = results_of([attempt])
        results = np.concatenate([self.results, added])
        in_order = not len(self.results) or added["time"][0] > self.results["time"][-1]
        if in_order and not self.doubted and added["time"][0] <= microseconds(now):
            return Study(results, cards_after(self.cards, added, now), added)
        return Study._whole(results[np.argsort(results["time"], kind="stable")], now, added)


def load_study(store: AttemptStore, learner: str, now: datetime) -> Study:
    """Where the learner stands by what the store holds."""
    return Study.of(store.attempts(learner), now)


def guidance_of(results: Results) -> Mapping[str, Guidance]:
    """Where the learner stands with each case met, by its slug.

    A flash names a turn and makes none, and a lesson has its own course: neither changes the guidance.
    """
    others = [MODES.index(mode) for mode in (Mode.GLANCE, Mode.LESSON)]
    played = results[~np.isin(results["mode"], others)]
    found: dict[str, Guidance] = {}
    for place, case in enumerate(CASES):
        own = played[played["case"] == place][-LOOKED_BACK:]
        guidance = Guidance()
        for result in own:
            guidance = _after(guidance, case, result)
        if len(own):
            found[case.slug] = guidance
    return found


def _after(guidance: Guidance, case: Case, result: np.void) -> Guidance:
    if result["outcome"] == OUTCOMES.index(Outcome.WATCHED):
        return watched(guidance)
    run = worth(
        home=bool(result["outcome"] == OUTCOMES.index(Outcome.SOLVED)),
        used=int(result["used"]),
        made=int(result["made"]),
        fewest=int(result["fewest"]),
        deepest_hint=int(result["rung"]),
        detours=int(result["worst"] == VERDICTS.index(Verdict.DETOUR)),
        shown=int(result["shown"]),
    )
    return guided(guidance, case, run)
