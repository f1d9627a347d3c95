"""The cases that slip away from a learner, by the store of attempts."""

from __future__ import annotations

from tutor.app.cli.standings import learner_named, open_store, summary_of
from tutor.app.cli.task_request import RequestError
from tutor.app.cli.words import progress as words
from tutor.app.files.folders import config_folder
from tutor.app.files.settings import load_settings
from tutor.method.cases import Case
from tutor.progress.summary import Memory


def known_learner(name: str) -> str:
    """The learner of this name as the store writes it. Raises RequestError when there is none."""
    with open_store() as store:
        return learner_named(store, name)


def own_words_of(learner: str) -> dict[str, str]:
    """What a learner of the store says of cases in their own words, by the slug of the case."""
    with open_store() as store:
        return {each.case: each.text for each in store.own_words(learner) if each.text}


def slipping_cases(name: str | None) -> tuple[str, tuple[Case, ...]]:
    """The learner of this name (by default the one in the settings), and the cases slipping as Progress says.

    Raises RequestError when there is no such learner, no attempt, or no such case.
    """
    with open_store() as store:
        wanted = load_settings(config_folder()).settings.learner if name is None else name
        summary = summary_of(store, learner := learner_named(store, wanted))
        others = tuple(each for each in store.learners() if each != learner)
    if not any(standing.attempts for standing in summary.cases):
        raise RequestError(words.nothing_practised(learner, others))
    found = summary.remembered(Memory.SLIPPING)
    if not found:
        raise RequestError(words.nothing_slipping(learner))
    return learner, found
