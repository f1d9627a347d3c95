"""How learners stand, read from the store and printed: as tables, as JSON, or as a table of the cases."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC
from typing import Any

from tutor.app.cli.task_request import RequestError
from tutor.app.files.folders import data_folder
from tutor.progress.attempt import now_utc
from tutor.progress.schema import NewerStoreError
from tutor.progress.store import AttemptStore, StoreError
from tutor.progress.study import load_study
from tutor.progress.summary import Memory, Summary, format_standing, summarise


@dataclass(frozen=True, slots=True)
class LearnerStanding:
    """A learner in a list: how many attempts, how many of the 41 cases stand how, and what is due today."""

    learner: str
    attempts: int
    holds: dict[str, int]
    due: int


@contextmanager
def open_store() -> Iterator[AttemptStore]:
    """The store; what it has to say goes to standard error, what it cannot do is a request it refuses."""
    try:
        with AttemptStore.open(data_folder()) as store:
            try:
                yield store
            finally:
                for notice in store.notices:
                    print(notice, file=sys.stderr)
    except (StoreError, NewerStoreError) as fault:
        raise RequestError(str(fault)) from fault


def learner_named(store: AttemptStore, name: str) -> str:
    """The learner of this name as it is written. Raises RequestError when there is none."""
    learners = store.learners()
    for learner in learners:
        if learner.casefold() == name.strip().casefold():
            return learner
    raise RequestError(f"there is no learner of this name; there are {', '.join(learners)}")


def summary_of(store: AttemptStore, learner: str) -> Summary:
    """How the learner stands now."""
    now = now_utc()
    return summarise(load_study(store, learner, now), now, now.astimezone().tzinfo or UTC)


def standing_of(store: AttemptStore, learner: str) -> LearnerStanding:
    """How the learner stands, as a list of learners tells it."""
    summary = summary_of(store, learner)
    holds = {hold.word: summary.count(hold) for hold in Memory}
    attempts = sum(each.attempts for each in summary.cases)
    return LearnerStanding(learner, attempts, holds, len(summary.week[0].slugs))


# ---------------------------------------------------------------------------------------------------- showing


def print_learners(standings: list[LearnerStanding], *, as_json: bool) -> None:
    """One row, or one JSON object, for each learner."""
    if as_json:
        print(json.dumps([_plain(standing) for standing in standings]))
        return
    # Imported here, so that neither the window nor JSON waits for it.
    from rich.console import Console
    from rich.table import Table

    table = Table("Learner", *("Attempts", *(hold.word.capitalize() for hold in Memory), "Due today"))
    for standing in standings:
        counts = (standing.attempts, *standing.holds.values(), standing.due)
        table.add_row(standing.learner, *map(str, counts))
    Console(highlight=False).print(table)


def _plain(standing: LearnerStanding) -> dict[str, Any]:
    holds = {"learner": standing.learner, "attempts": standing.attempts, "due": standing.due}
    return holds | {"cases": standing.holds}


def print_cases(summary: Summary, *, as_json: bool = False, as_table: bool = False) -> None:
    """One learner case by case: for people, as JSON, or comma-separated."""
    if as_table:
        for line in format_standing(summary):
            print(line.rstrip("\r\n"))
    elif as_json:
        print(json.dumps(_as_json(summary)))
    else:
        _show_cases(summary)


def _show_cases(summary: Summary) -> None:
    from rich.console import Console
    from rich.table import Table

    console = Console(highlight=False)
    table = Table("", expand=True)
    # What is left of the line goes to the names, which are long.
    table.add_column("Case", ratio=1)
    table.add_column("Holds")
    for heading in ("Recall", "Tries", "Extra\nturns\nby hand", "Seconds\nto see it"):
        table.add_column(heading, justify="right")
    for each in summary.cases:
        table.add_row(
            each.hold.letter,
            each.case.name,
            each.hold.word,
            "" if each.recall is None else f"{each.recall:.0%}",
            str(each.attempts),
            _number(each.extra),
            _number(each.recognition),
        )
    console.print(table)
    lost = ", ".join(f"{each.step.value.capitalize()} {each.lost:.2f}" for each in summary.steps)
    console.print(f"Turns lost in a step, for each attempt of late: {lost}")
    week = ", ".join(f"{day.day:%a} {len(day.slugs)}" for day in summary.week)
    console.print(f"Due this week: {week}")


def _number(value: float | None) -> str:
    return "" if value is None else f"{value:.1f}"


def _as_json(summary: Summary) -> dict[str, Any]:
    return {
        "cases": [
            {
                "case": each.case.slug,
                "letter": each.hold.letter,
                "hold": each.hold.word,
                "recall": each.recall,
                "due": None if each.due is None else each.due.isoformat(),
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
