"""The cases that a learner still forgets, by the store of attempts."""

from __future__ import annotations

from tutor.app.cli.standings import learner_named, open_store, summary_of
from tutor.app.cli.task_request import RequestError
from tutor.app.cli.words import progress as words
from tutor.app.files.folders import config_folder
from tutor.app.files.settings import load_settings
from tutor.method.cases import Case
from tutor.progress.store import AttemptStore
from tutor.progress.summary import Memory

FORGOTTEN = (Memory.SLIPPING, Memory.SETTLING)
"""What a learner still forgets: met and not settled yet, or slipping away again."""


def slipping_cases(name: str | None) -> tuple[Case, ...]:
    """The settling and slipping cases of the learner of this name (by default the one in the settings).

    Raises RequestError when there is no such learner, no attempt, or no such case.
    """
    with open_store() as store:
        summary = summary_of(store, learner := _learner(store, name))
        others = tuple(each for each in store.learners() if each != learner)
    if not any(standing.attempts for standing in summary.cases):
        raise RequestError(words.nothing_practised(learner, others))
    found = tuple(standing.case for standing in summary.cases if standing.memory in FORGOTTEN)
    if not found:
        raise RequestError(words.nothing_forgotten(learner))
    return found


def own_words_of(name: str | None) -> dict[str, str]:
    """What the learner says of cases in their own words, by the slug of the case. Raises RequestError."""
    with open_store() as store:
        return {each.case: each.text for each in store.own_words(_learner(store, name)) if each.text}


def _learner(store: AttemptStore, name: str | None) -> str:
    wanted = load_settings(config_folder()).settings.learner if name is None else name
    return learner_named(store, wanted)
