"""The cases that do not hold yet with a learner, by the store of attempts."""

from __future__ import annotations

from tutor.app.cli.standings import learner_named, open_store, summary_of
from tutor.app.cli.task_request import RequestError
from tutor.app.files.folders import config_folder
from tutor.app.files.settings import load_settings
from tutor.method.cases import Case
from tutor.progress.summary import Memory

WEAK = (Memory.SLIPPING, Memory.SETTLING)
"""What does not hold yet: begun, but not got to the end of learning, or forgotten again."""


def slipping_cases(name: str | None) -> tuple[Case, ...]:
    """The cases of the learner of this name (by default the one in the settings) that do not hold yet.

    Raises RequestError when there is no such learner, nothing was practised, or everything holds.
    """
    with open_store() as store:
        wanted = load_settings(config_folder()).settings.learner if name is None else name
        summary = summary_of(store, learner := learner_named(store, wanted))
        others = tuple(each for each in store.learners() if each != learner)
    if not any(standing.attempts for standing in summary.cases):
        advice = f"; choose another with --learner: {', '.join(others)}" if others else ""
        raise RequestError(f"nothing was practised by {learner} yet, so no case is known to be weak{advice}")
    found = tuple(standing.case for standing in summary.cases if standing.hold in WEAK)
    if not found:
        raise RequestError(f"all cases that {learner} has met hold; without --weak all 41 are printed")
    return found
