"""``progress``: what the store holds, shown, written to files, taken in from files, backed up, and reset."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

from tutor.app.cli.attempt_files import check_suffix, read_attempts, write_attempts
from tutor.app.cli.progress_sheet import save_sheet
from tutor.app.cli.standings import (
    learner_named,
    open_store,
    print_cases,
    print_learners,
    standing_of,
    summary_of,
)
from tutor.app.cli.task_request import RequestError
from tutor.progress.attempt import now_utc
from tutor.progress.interchange import COLUMNS
from tutor.progress.study import load_study
from tutor.progress.summary import RECENT

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

Columns of a table, keys of a line: {", ".join(COLUMNS)}.

by_hand is the fewest turns by hand from where the learner began: only the top and the layers beside the slot
turn. at_all is the fewest when far layers may turn too. Older attempts have no by_hand, so their turns count
against at_all. You can import older files, with shortest in its place, as they are. In "show", extra means
turns over the fewest by hand, on average over the last {RECENT.days} days."""


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
    _add_show(actions)
    _add_exchange(actions)
    _add_upkeep(actions)


def _add_show(actions: argparse._SubParsersAction[Any]) -> None:
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


def _add_exchange(actions: argparse._SubParsersAction[Any]) -> None:
    """What carries attempts from one machine to another."""
    export = _action(actions, "export", run_export, "write attempts to a file")
    export.add_argument("file", type=Path, metavar="FILE", help="ends in .csv or .jsonl")
    export.add_argument("--learner", metavar="NAME", help="only those of this learner")
    export.add_argument("--force", action="store_true", help="replace a file that is there")
    take_in = _action(actions, "import", run_import, "add the attempts in files to this machine's")
    take_in.add_argument("files", nargs="+", type=Path, metavar="FILE", help="ends in .csv or .jsonl")
    merge = _action(actions, "merge", run_merge, "put files together to one; attempts here stay as they are")
    merge.add_argument("files", nargs="+", type=Path, metavar="FILE", help="ends in .csv or .jsonl")
    merge.add_argument("--into", required=True, type=Path, metavar="FILE", help="the file to write")
    merge.add_argument("--force", action="store_true", help="replace a file that is there")


def _add_upkeep(actions: argparse._SubParsersAction[Any]) -> None:
    """What looks after the store itself."""
    backup = _action(actions, "backup", run_backup, "copy all attempts of this machine")
    backup.add_argument(
        "file", nargs="?", type=Path, metavar="FILE", help="where to; usually among the backups"
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


def run_show(chosen: argparse.Namespace) -> int:
    """Tell how the learners stand and return the exit status."""
    with open_store() as store:
        if chosen.learner is None:
            if chosen.csv or chosen.png is not None:
                what = "a table of the cases" if chosen.csv else "a picture of the Progress screen"
                raise RequestError(f"{what} is that of one learner; name one with --learner")
            standings = [standing_of(store, name) for name in store.learners()]
            print_learners(standings, as_json=chosen.json)
            return 0
        learner = learner_named(store, chosen.learner)
        summary = summary_of(store, learner)
    if chosen.png is not None:
        save_sheet(chosen.png, learner, summary, force=chosen.force)
        print(chosen.png)
    else:
        print_cases(summary, as_json=chosen.json, as_table=chosen.csv)
    return 0


def run_export(chosen: argparse.Namespace) -> int:
    """Write attempts to a file and return the exit status."""
    check_suffix(chosen.file)
    with open_store() as store:
        learner = None if chosen.learner is None else learner_named(store, chosen.learner)
        attempts = store.attempts(learner)
    write_attempts(chosen.file, attempts, force=chosen.force)
    print(f"{_attempts(len(attempts))} written to {chosen.file}")
    return 0


def run_import(chosen: argparse.Namespace) -> int:
    """Take attempts into the store and return the exit status; all files are read before any is taken in."""
    attempts = [attempt for file in chosen.files for attempt in read_attempts(file)]
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
    check_suffix(chosen.into)
    read = [attempt for file in chosen.files for attempt in read_attempts(file)]
    once = {attempt.uuid: attempt for attempt in read}
    ordered = sorted(once.values(), key=lambda attempt: (attempt.time, attempt.uuid.hex))
    write_attempts(chosen.into, tuple(ordered), force=chosen.force)
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


def _attempts(count: int) -> str:
    return "1 attempt" if count == 1 else f"{count} attempts"
