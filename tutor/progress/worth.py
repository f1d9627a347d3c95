"""What a run at a case is worth to the guidance: one rule, for a run just over and for one that was kept."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tutor.coach.guidance import FAILURES_TO_EASIER, Guidance, Run, after_run, easier_than

if TYPE_CHECKING:
    from tutor.method.cases import Case


def worth(
    *, home: bool, used: int, made: int, fewest: int, deepest_hint: int, detours: int, shown: int
) -> Run:
    """How a run went, as guidance counts it.

    ``home``: the pair came home. ``used``: turns of the way that was kept; ``made``: all turns, those taken
    back included, which are turns more than the fewest, too. ``fewest``: those by hand from where the
    learner began. ``detours`` were turns judged so, also those taken back. ``shown``: turns played before.
    """
    longer = max(0, used - fewest)
    taken_back = max(0, made - used)
    return Run(home, longer + taken_back, deepest_hint, detours, whole=not shown)


def guided(guidance: Guidance, case: Case, run: Run) -> Guidance:
    """Where the learner stands with a case after a run at it."""
    # Only a run that may be one failure too many has to look for the easier case, which takes a while.
    asks = guidance.failures + 1 >= FAILURES_TO_EASIER
    return after_run(guidance, run, easier=asks and easier_than(case) is not None)
