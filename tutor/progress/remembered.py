"""The guidance a learner had with each case, made again from the attempts in brief."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from tutor.coach.guidance import Guidance, Run, after_run, watched
from tutor.progress.attempt import Mode, Outcome
from tutor.progress.results import MODES, OUTCOMES, VERDICTS, Results, numbered_cases
from tutor.solver.continuations import Verdict

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
            guidance = _after(guidance, result)
        if len(own):
            found[case.slug] = guidance
    return found


def _after(guidance: Guidance, result: np.void) -> Guidance:
    if result["outcome"] == OUTCOMES.index(Outcome.WATCHED):
        return watched(guidance)
    more = max(0, int(result["used"]) - int(result["shortest"]))
    run = Run(
        finished=bool(result["outcome"] == OUTCOMES.index(Outcome.HOME)),
        extra=more + max(0, int(result["made"]) - int(result["used"])),
        deepest_hint=int(result["rung"]),
        slips=int(result["worst"] == VERDICTS.index(Verdict.DETOUR)),
        whole=not result["shown"],
    )
    # Almost every case passes an easier one on its way; whether this one does is found when it is proposed.
    return after_run(guidance, run, easier=True)
