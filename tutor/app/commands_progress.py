"""``progress``: what the store holds, shown, written to files, taken in from files, backed up, and reset."""

from __future__ import annotations

import argparse
import io
import json
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC
from pathlib import Path
from typing import Any

from tutor.app.folders import data_folder
from tutor.app.progress_sheet import save_sheet
from tutor.app.requests import RequestError
from tutor.progress.attempt import Attempt, AttemptError, now_utc
from tutor.progress.forms import COLUMNS, format_line, format_table, parse_line, parse_table
from tutor.progress.schema import NewerStoreError
from tutor.progress.store import Store, StoreError
from tutor.progress.study import load_study
from tutor.progress.summary import Hold, Summary, format_standing, summarise
from tutor.publish.files import PublishError, write_bytes

_DESCRIPTION = """\
Shows how a learner stands, and carries attempts from one machine to another. Every attempt has a number of
its own, so that nothing is doubled or lost however often files are taken in or put together: a teacher can
collect a group. A file ending in .csv is a table, one ending in .jsonl has a JSON object on each line; both
hold everything."""
_EPILOG = f"""\
examples:
  python -m tutor progress show --learner Ilva
  python -m tutor progress show --learner Ilva --png ilva.png
  python -m tutor progress export ilva.jsonl --learner Ilva
  python -m tutor progress merge ilva.jsonl ravi.csv --into club.csv
  python -m tutor progress import club.csv

Columns of a table, keys of a line: {", ".join(COLUMNS)}."""

TABLE, LINES = ".csv", ".jsonl"
LARGEST = 64 * 2**20
"""Bytes of a file that is taken in, at most: some hundred thousand attempts."""


def add_to(commands: argparse._SubParsersAction[Any]) -> None:
    """Add this command to those of the command line."""
    parser = commands.add_parser(
        "progress",
        help="show, export, import, merge, back up or reset what was practised",
        description=_DESCRIPTION,
        epilog=_EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    actions = parser.add_subparsers(
        title="what to do", metavar="show|export|import|merge|backup|reset", dest="action", required=True
    )
    show = _action(actions, "show", run_show, "tell how the learners stand")
    show.add_argument("--learner", metavar="NAME", help="only this one, case by case")
    form = show.add_mutually_exclusive_group()
    form.add_argument("--json", action="store_true", help="answer with JSON")
    form.add_argument("--csv", action="store_true", help="with --learner: the 41 cases as a table")
    form.add_argument(
        "--png",
        type=Path,
        metavar="FILE",
        help="with --learner: the Progress screen as a picture",
    )
    show.add_argument("--force", action="store_true", help="replace a picture that is there")
    export = _action(actions, "export", run_export, "write attempts to a file")
    export.add_argument("file", type=Path, metavar="FILE", help="ends in .csv or .jsonl")
    export.add_argument("--learner", metavar="NAME", help="only those of this learner")
    export.add_argument("--force", action="store_true", help="replace a file that is there")
    take_in = _action(actions, "import", run_import, "take attempts from files into the store")
    take_in.add_argument("files", nargs="+", type=Path, metavar="FILE", help="ends in .csv or .jsonl")
    merge = _action(actions, "merge", run_merge, "put files together to one; the store is not touched")
    merge.add_argument("files", nargs="+", type=Path, metavar="FILE", help="ends in .csv or .jsonl")
    merge.add_argument("--into", required=True, type=Path, metavar="FILE", help="the file to write")
    merge.add_argument("--force", action="store_true", help="replace a file that is there")
    backup = _action(actions, "backup", run_backup, "copy the whole store")
    backup.add_argument(
        "file", nargs="?", type=Path, metavar="FILE", help="where to; by default its own place"
    )
    backup.add_argument("--force", action="store_true", help="replace a file that is there")
    reset = _action(actions, "reset", run_reset, "forget attempts; asks first, and keeps a copy")
    reset.add_argument("--learner", metavar="NAME", help="only those of this learner")
    reset.add_argument("--yes", action="store_true", help="do not ask")


def _action(
    actions: argparse._SubParsersAction[Any], name: str, run: Callable[[argparse.Namespace], int], told: str
) -> argparse.ArgumentParser:
    added: argparse.ArgumentParser = actions.add_parser(
        name, help=told, description=f"{told[0].upper()}{told[1:]}.", allow_abbrev=False
    )
    added.set_defaults(run=run)
    return added


# ------------------------------------------------------------------------------------------------ the actions


@dataclass(frozen=True, slots=True)
class LearnerStanding:
    """A learner in a list: how many attempts, how many of the 41 cases stand how, and what is due today."""

    learner: str
    attempts: int
    holds: dict[str, int]
    due: int


def run_show(chosen: argparse.Namespace) -> int:
    """Tell how the learners stand and return the exit status."""
    with open_store() as store:
        if chosen.learner is None:
            if chosen.csv or chosen.png is not None:
                what = "a table of the cases" if chosen.csv else "a picture of the Progress screen"
                raise RequestError(f"{what} is that of one learner; name one with --learner")
            standings = [_standing(store, name) for name in store.learners()]
            _show_learners(standings, as_json=chosen.json)
            return 0
        learner = learner_named(store, chosen.learner)
        summary = summary_of(store, learner)
    if chosen.png is not None:
        save_sheet(chosen.png, learner, summary, force=chosen.force)
        print(chosen.png)
    elif chosen.csv:
        _print_lines(format_standing(summary))
    elif chosen.json:
        print(json.dumps(_as_json(summary)))
    else:
        _show_cases(summary)
    return 0


def run_export(chosen: argparse.Namespace) -> int:
    """Write attempts to a file and return the exit status."""
    _check_suffix(chosen.file)
    with open_store() as store:
        learner = None if chosen.learner is None else learner_named(store, chosen.learner)
        attempts = store.attempts(learner)
    _write(chosen.file, attempts, force=chosen.force)
    print(f"{_attempts(len(attempts))} written to {chosen.file}")
    return 0


def run_import(chosen: argparse.Namespace) -> int:
    """Take attempts into the store and return the exit status; all files are read before any is taken in."""
    attempts = [attempt for file in chosen.files for attempt in _read(file)]
    with open_store() as store:
        merged = store.merge(attempts)
        # Works the cards out now, so that the window need not when it opens next.
        for learner in sorted({attempt.learner for attempt in attempts}):
            load_study(store, learner, now_utc())
    undone = f", {merged.undone} left out that had been undone here" if merged.undone else ""
    known = len(attempts) - merged.added - merged.undone
    print(f"{_attempts(merged.added)} taken in, {known} known already{undone}")
    return 0


def run_merge(chosen: argparse.Namespace) -> int:
    """Put files together and return the exit status."""
    _check_suffix(chosen.into)
    read = [attempt for file in chosen.files for attempt in _read(file)]
    once = {attempt.uuid: attempt for attempt in read}
    ordered = sorted(once.values(), key=lambda attempt: (attempt.time, attempt.uuid.hex))
    _write(chosen.into, tuple(ordered), force=chosen.force)
    print(f"{_attempts(len(ordered))} written to {chosen.into}, {len(read) - len(ordered)} were there twice")
    return 0


def run_backup(chosen: argparse.Namespace) -> int:
    """Copy the store and return the exit status."""
    if chosen.file is not None and chosen.file.exists() and not chosen.force:
        raise RequestError(f"{chosen.file} is there already; choose another name, or replace it with --force")
    with open_store() as store:
        print(store.back_up(chosen.file))
    return 0


def run_reset(chosen: argparse.Namespace) -> int:
    """Forget attempts, once asked, and return the exit status."""
    with open_store() as store:
        learner = None if chosen.learner is None else learner_named(store, chosen.learner)
        count = len(store.attempts(learner))
        whose = "of all learners" if learner is None else f"of {learner}"
        if not chosen.yes:
            if not sys.stdin.isatty():
                raise RequestError("nobody is there to be asked; say --yes to forget without being asked")
            print(
                f"Forget {_attempts(count)} {whose}? A copy is kept. Type yes to go on: ", end="", flush=True
            )
            if sys.stdin.readline().strip().casefold() != "yes":
                print("Nothing was changed.")
                return 1
        copy = store.reset(learner)
    print(f"{_attempts(count)} {whose} forgotten. A copy is {copy}")
    return 0


# ------------------------------------------------------------------------------------------------------ files


def _check_suffix(file: Path) -> None:
    if file.suffix not in (TABLE, LINES):
        raise RequestError(f"{file}: the name must end in {TABLE} for a table or {LINES} for JSON lines")


def _read(file: Path) -> list[Attempt]:
    _check_suffix(file)
    try:
        content = _content(file)
        # A spreadsheet may have put a byte order mark before the first column.
        text = io.StringIO(content.decode("utf-8-sig"), newline="")
        if file.suffix == TABLE:
            return list(parse_table(text))
        return [_line(line, number) for number, line in enumerate(text, 1) if line.strip()]
    except AttemptError as fault:
        raise RequestError(f"{file}: {fault}") from fault
    except UnicodeDecodeError as fault:
        raise RequestError(f"{file} is not UTF-8 text; save it as UTF-8") from fault
    except OSError as fault:
        raise RequestError(f"{file} cannot be read: {fault.strerror}") from fault


def _content(file: Path) -> bytes:
    """All of a file, read piece by piece, so that nothing larger than allowed is ever in memory."""
    content = bytearray()
    with file.open("rb") as opened:
        while piece := opened.read(1 << 20):
            content += piece
            if len(content) > LARGEST:
                told = f"{file} is too large; a file has at most {LARGEST >> 20} MB, so share it out"
                raise RequestError(told)
    return bytes(content)


def _line(line: str, number: int) -> Attempt:
    try:
        return parse_line(line)
    except AttemptError as fault:
        raise AttemptError(f"line {number}: {fault}") from fault


def _write(file: Path, attempts: tuple[Attempt, ...], *, force: bool) -> None:
    if file.suffix == TABLE:
        content = "".join(format_table(attempts))
    else:
        content = "".join(f"{format_line(attempt)}\n" for attempt in attempts)
    try:
        write_bytes(file, content.encode("utf-8"), force=force)
    except PublishError as fault:
        raise RequestError(str(fault)) from fault


# -------------------------------------------------------------------------------------------------- the store


@contextmanager
def open_store() -> Iterator[Store]:
    """The store; what it has to say goes to standard error, what it cannot do is a request it refuses."""
    try:
        with Store.open(data_folder()) as store:
            try:
                yield store
            finally:
                for notice in store.notices:
                    print(notice, file=sys.stderr)
    except (StoreError, NewerStoreError) as fault:
        raise RequestError(str(fault)) from fault


def learner_named(store: Store, name: str) -> str:
    """The learner of this name as it is written. Raises RequestError when there is none."""
    learners = store.learners()
    for learner in learners:
        if learner.casefold() == name.strip().casefold():
            return learner
    raise RequestError(f"there is no learner of this name; there are {', '.join(learners)}")


def summary_of(store: Store, learner: str) -> Summary:
    """How the learner stands now."""
    now = now_utc()
    return summarise(load_study(store, learner, now), now, now.astimezone().tzinfo or UTC)


def _standing(store: Store, learner: str) -> LearnerStanding:
    summary = summary_of(store, learner)
    holds = {hold.word: summary.count(hold) for hold in Hold}
    attempts = sum(each.attempts for each in summary.cases)
    return LearnerStanding(learner, attempts, holds, len(summary.week[0].slugs))


def _attempts(count: int) -> str:
    return "1 attempt" if count == 1 else f"{count} attempts"


# ---------------------------------------------------------------------------------------------------- showing


def _show_learners(standings: list[LearnerStanding], *, as_json: bool) -> None:
    if as_json:
        print(json.dumps([_plain(standing) for standing in standings]))
        return
    # Imported here, so that neither the window nor JSON waits for it.
    from rich.console import Console
    from rich.table import Table

    table = Table("Learner", *("Attempts", *(hold.word.capitalize() for hold in Hold), "Due today"))
    for standing in standings:
        counts = (standing.attempts, *standing.holds.values(), standing.due)
        table.add_row(standing.learner, *map(str, counts))
    Console(highlight=False).print(table)


def _plain(standing: LearnerStanding) -> dict[str, Any]:
    holds = {"learner": standing.learner, "attempts": standing.attempts, "due": standing.due}
    return holds | {"cases": standing.holds}


def _show_cases(summary: Summary) -> None:
    from rich.console import Console
    from rich.table import Table

    console = Console(highlight=False)
    table = Table("", expand=True)
    # What is left of the line goes to the names, which are long.
    table.add_column("Case", ratio=1)
    table.add_column("Holds")
    for heading in ("Recall", "Tries", "Extra\nturns", "Seconds\nto see it"):
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


def _print_lines(lines: Iterator[str]) -> None:
    for line in lines:
        print(line.rstrip("\r\n"))


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
