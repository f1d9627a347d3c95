"""How learners are doing, read from the store and printed: as tables, as JSON, or as a table of the cases."""

from __future__ import annotations

import json
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from msgspec import Struct

from tutor.app.cli.task_request import RequestError
from tutor.app.cli.words import progress as words
from tutor.app.files.folders import data_folder
from tutor.app.terminal import answer_console, complain, tell
from tutor.progress.assignment import open_cases
from tutor.progress.attempt import now_utc
from tutor.progress.local_zone import LOCAL_ZONE
from tutor.progress.names import known_as
from tutor.progress.schema import NewerStoreError
from tutor.progress.store import AttemptStore, StoreError
from tutor.progress.study import load_study
from tutor.progress.summary import RECENT, Memory, Summary, format_standing, summarise
from tutor.quoting import visible


class LearnerStanding(Struct, frozen=True):
    """A learner in a list: how many attempts, how many of the 41 cases are remembered how well, and how many
    are on today's list."""

    learner: str
    attempts: int
    cases: dict[str, int]
    today: int


@contextmanager
def open_store() -> Iterator[AttemptStore]:
    """The store; its notices go to standard error, and what it cannot do becomes a RequestError."""
    try:
        with AttemptStore.open(data_folder()) as store:
            try:
                yield store
            finally:
                for notice in store.notices:
                    complain(notice)
    except (StoreError, NewerStoreError) as fault:
        raise RequestError(str(fault)) from fault


def learner_named(store: AttemptStore, name: str) -> str:
    """The learner of this name as it is written. Raises RequestError when there is none."""
    learners = store.learners()
    known = known_as(name, learners)
    if known is not None:
        return known
    raise RequestError(words.no_such_learner(learners))


def summary_of(store: AttemptStore, learner: str) -> Summary:
    """How the learner is doing now."""
    now = now_utc()
    study = load_study(store, learner, now)
    given = open_cases(store.assignments(learner), study.results, now)
    return summarise(study, now, LOCAL_ZONE, given)


def standing_of(store: AttemptStore, learner: str) -> LearnerStanding:
    """How the learner is doing, for a list of learners."""
    summary = summary_of(store, learner)
    cases = {memory.word: summary.count(memory) for memory in Memory}
    attempts = sum(each.attempts for each in summary.cases)
    return LearnerStanding(learner, attempts, cases, len(summary.week[0].slugs))


# ---------------------------------------------------------------------------------------------------- showing


def print_learners(standings: list[LearnerStanding], *, as_json: bool) -> None:
    """One row, or one JSON object, for each learner."""
    if as_json:
        tell(json.dumps([_plain(standing) for standing in standings]))
        return
    # Imported here, so that neither the window nor JSON waits for it.
    from rich.table import Table

    memory = (each.word.capitalize() for each in Memory)
    table = Table(words.LEARNER, words.TRIES, *memory, words.TODAY)
    for standing in standings:
        counts = (standing.attempts, *standing.cases.values(), standing.today)
        table.add_row(visible(standing.learner), *map(str, counts))
    answer_console().print(table)


def _plain(standing: LearnerStanding) -> dict[str, Any]:
    known = {"learner": standing.learner, "attempts": standing.attempts, "today": standing.today}
    return known | {"cases": standing.cases}


def print_cases(summary: Summary, *, as_json: bool = False, as_table: bool = False) -> None:
    """One learner case by case: for people, as JSON, or comma-separated."""
    if as_table:
        for line in format_standing(summary):
            tell(line.rstrip("\r\n"))
    elif as_json:
        tell(json.dumps(_as_json(summary)))
    else:
        _show_cases(summary)


def _show_cases(summary: Summary) -> None:
    from rich.table import Table

    console = answer_console()
    table = Table(expand=True)
    table.add_column(words.NUMBER, justify="right")
    # What is left of the line goes to the names, which are long.
    table.add_column(words.CASE, ratio=1)
    table.add_column(words.MEMORY)
    for heading in (words.REMEMBER, words.TRIES, words.EXTRA, words.RECOGNITION):
        table.add_column(heading, justify="right")
    for each in summary.cases:
        table.add_row(
            str(each.case.number),
            each.case.short_name(),
            each.memory.word,
            "" if each.remember is None else f"{each.remember:.0%}",
            str(each.attempts),
            _number(each.extra),
            _number(each.recognition),
        )
    console.print(table)
    lost = (f"{each.step.value.capitalize()} {each.lost:.2f}" for each in summary.steps)
    console.print(words.turns_lost(lost, RECENT.days))
    console.print(words.this_week(f"{day.day:%a} {len(day.slugs)}" for day in summary.week))


def _number(value: float | None) -> str:
    return "" if value is None else f"{value:.1f}"


def _as_json(summary: Summary) -> dict[str, Any]:
    return {
        "cases": [
            {
                "number": each.case.number,
                "case": each.case.slug,
                "sign": each.memory.sign,
                "memory": each.memory.word,
                "remember": each.remember,
                "lasts_days": each.lasts,
                "next": None if each.next is None else each.next.isoformat(),
                "attempts": each.attempts,
                "extra": each.extra,
                "recognition": each.recognition,
            }
            for each in summary.cases
        ],
        "steps": [{"step": each.step, "lost": each.lost, "share": each.share} for each in summary.steps],
        "slots": [
            {"slot": each.slot.name, "attempts": each.attempts, "good": each.good, "extra": each.extra}
            for each in summary.slots
        ],
        "week": [{"day": each.day.isoformat(), "cases": each.slugs} for each in summary.week],
    }
