"""The guidance a learner had with each case, made again from the attempts in brief."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from tutor.coach.guidance import Guidance, watched
from tutor.method.cases import Case
from tutor.method.terms import Verdict
from tutor.progress.attempt import Mode, Outcome
from tutor.progress.results import MODES, OUTCOMES, VERDICTS, Results, numbered_cases
from tutor.progress.worth import guided, worth

LOOKED_BACK = 40
"""Only so many of the last attempts at a case are gone through: what came before has long been overtaken."""


def guidance_of(results: Results) -> Mapping[str, Guidance]:
    """Where the learner stands with each case met, by its slug.

    A flash names a turn and makes none, and a lesson has its own course: neither changes the guidance.
    """
    others = [MODES.index(mode) for mode in (Mode.FLASH, Mode.LESSON)]
    played = results[~np.isin(results["mode"], others)]
    found: dict[str, Guidance] = {}
    for number, case in numbered_cases().items():
        own = played[played["case"] == number][-LOOKED_BACK:]
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
        home=bool(result["outcome"] == OUTCOMES.index(Outcome.HOME)),
        used=int(result["used"]),
        made=int(result["made"]),
        fewest=int(result["fewest"]),
        deepest_hint=int(result["rung"]),
        detours=int(result["worst"] == VERDICTS.index(Verdict.DETOUR)),
        shown=int(result["shown"]),
    )
    return guided(guidance, case, run)
