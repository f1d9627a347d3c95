"""Guidance that fits: how much of a case the learner does alone, run by run.

A learner tries a case whole with hints at once, then alone. What goes wrong brings more help: the first
steps are played, then all turns but the last, then the whole case; and that help fades again from its end
backwards (Atkinson, Renkl and Merrill, Journal of Educational Psychology 95(4), 2003). Help that nobody needs
holds learners back (Kalyuga and others, Educational Psychologist 38(1), 2003).
"""

from __future__ import annotations

from enum import Enum, IntEnum
from functools import cache

from msgspec import Struct
from msgspec.structs import replace

from tutor.cube.faces import Turn
from tutor.cube.position import Slot, every_other_slot
from tutor.method.answer import Answer
from tutor.method.cases import Case, CaseSighting, case_of
from tutor.method.routes import routes
from tutor.method.terms import ALIGNMENTS, Step
from tutor.solver.task import Task


class Help(IntEnum):
    """How much is done for the learner, from all to nothing."""

    WATCH = 0
    LAST_TURN = 1
    LAST_STEP = 2
    WITH_HINTS = 3
    ALONE = 4


class Remedy(Enum):
    """What comes instead of one more run of the same drill."""

    NONE = "none"
    SEE_IT = "see it"
    """Watch the case once more, slowly, pausing where the last runs went wrong."""
    EASIER_CASE = "easier case"
    """Practise the case that this one comes to on the way, then come back."""


FAILURES_TO_SEE_IT = 2
"""After so many failed runs in a row the case is shown again."""
FAILURES_TO_EASIER = 4
"""After so many failed runs in a row the easier case is taken first."""


class Run(Struct, frozen=True):
    """How a run went.

    ``finished``: the pair came home. ``extra``: turns over the fewest by hand from where the learner began.
    ``deepest_hint``: the last rung used, 0 without any. ``slips``: turns judged a detour. ``whole``: the
    learner made every turn, none being played before.
    """

    finished: bool
    extra: int = 0
    deepest_hint: int = 0
    slips: int = 0
    whole: bool = True

    @property
    def shown(self) -> bool:
        """Whether a turn was shown: then the run does not show what the learner knows."""
        return self.deepest_hint >= 3

    @property
    def clean(self) -> bool:
        """Home without a detour and without being shown a turn."""
        return self.finished and not self.shown and not self.slips

    @property
    def optimal_unaided(self) -> bool:
        """The whole case solved in the fewest turns and without any hint."""
        return self.whole and self.finished and not self.extra and not self.deepest_hint


class Guidance(Struct, frozen=True):
    """How far a learner is with a case.

    ``runs`` counts the runs in which the learner turned; ``failures`` those failed in a row, at any help.
    """

    help: Help = Help.WITH_HINTS
    runs: int = 0
    failures: int = 0
    remedy: Remedy = Remedy.NONE
    known: bool = False
    """Whether the case was done alone without a detour."""


def watched(guidance: Guidance) -> Guidance:
    """The guidance after the case was watched whole; a remedy that asked for it is met."""
    remedy = Remedy.NONE if guidance.remedy is Remedy.SEE_IT else guidance.remedy
    return replace(guidance, help=max(guidance.help, Help.LAST_TURN), remedy=remedy)


def easier_done(guidance: Guidance) -> Guidance:
    """The guidance after the easier case was practised instead: the count of failures starts again."""
    return replace(guidance, remedy=Remedy.NONE, failures=0)


def after_run(guidance: Guidance, run: Run, easier: bool = False) -> Guidance:
    """The guidance after a run at ``guidance.help``; ``easier`` says whether the case has an easier one.

    The first whole run that is optimal and unaided skips ahead, whatever help was offered. A clean run moves
    one on; one that came home with detours stays; one given up, or in which a turn had to be shown, failed.
    """
    runs = guidance.runs + 1
    if run.optimal_unaided:
        return Guidance(Help.ALONE, runs, known=True)
    if run.clean:
        known = guidance.help is Help.ALONE and not run.deepest_hint
        return Guidance(Help(min(guidance.help + 1, Help.ALONE)), runs, known=known or guidance.known)
    if run.finished and not run.shown:
        return replace(guidance, runs=runs, failures=0, remedy=Remedy.NONE)
    return _failed(replace(guidance, runs=runs, failures=guidance.failures + 1), easier)


def _failed(guidance: Guidance, easier: bool) -> Guidance:
    """One less step alone, and a remedy when it failed again and again."""
    less = Help(max(guidance.help - 1, Help.LAST_TURN))
    if guidance.failures >= FAILURES_TO_EASIER and easier:
        return replace(guidance, help=less, remedy=Remedy.EASIER_CASE, known=False)
    if guidance.failures >= FAILURES_TO_SEE_IT:
        return replace(guidance, help=Help.WATCH, remedy=Remedy.SEE_IT, known=False)
    return replace(guidance, help=less, remedy=Remedy.NONE, known=False)


def worth(
    *, home: bool, used: int, made: int, fewest: int, deepest_hint: int, detours: int, shown: int
) -> Run:
    """How a run went: one rule, for a run just over and for one that was kept.

    ``home``: the pair came home. ``used``: turns of the way that was kept; ``made``: all turns, those taken
    back included, which are turns more than the fewest, too. ``fewest``: those by hand from where the
    learner began. ``detours`` were turns judged so, also those taken back. ``shown``: turns played before.
    """
    longer = max(0, used - fewest)
    taken_back = max(0, made - used)
    return Run(home, longer + taken_back, deepest_hint, detours, whole=not shown)


def guided(guidance: Guidance, case: Case, run: Run) -> Guidance:
    """How far the learner is with a case after a run at it."""
    # Only a run that may be one failure too many has to look for the easier case, which takes a while.
    asks = guidance.failures + 1 >= FAILURES_TO_EASIER
    return after_run(guidance, run, easier=asks and easier_than(case) is not None)


def turns_shown(answer: Answer, help: Help) -> tuple[Turn, ...]:
    """The turns that are played before the learner takes over, from the position of ``answer``.

    They are the first turns of the first route; without a route, of the first line.
    """
    route = answer.routes[0] if answer.routes else None
    turns = route.turns if route is not None else answer.lines[0]
    if help is Help.WATCH:
        return turns
    if help is Help.LAST_TURN:
        return turns[:-1]
    if help is Help.LAST_STEP:
        last = sum(step is Step.INSERT for step in route.steps) if route is not None else 1
        return turns[: len(turns) - last]
    return ()


@cache
def easier_than(case: Case) -> CaseSighting | None:
    """The easier case that this one comes to on its way, with all other slots kept; None when there is none.

    It is the first other case on the first route from the alignment of the top layer that makes the way
    shortest: that a case builds on another is true of the case, wherever it is met.
    """
    # The cases and routes are worked out when one is looked for, not by all who speak of help.
    slot = Slot.FR
    task = Task(slot, every_other_slot(slot))
    starts = (case.position(slot, alignment) for alignment in ALIGNMENTS)
    ways = ((start, route.turns) for start in starts for route in routes(start, task, 1).routes)
    position, turns = min(ways, key=lambda way: len(way[1]))
    for turn in turns:
        position = position.turned(turn)
        found = case_of(position, task)
        if found is not None and found.case != case:
            return found
    return None
