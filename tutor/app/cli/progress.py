"""``progress``: attempts of the store shown, written to files, taken in from files, backed up, and reset."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

from tutor.app.cli.assigning import add_assign, run_assign
from tutor.app.cli.attempt_files import check_suffix, read_lines, sorted_out, write_records
from tutor.app.cli.group_sheet import print_group, report_of, save_group
from tutor.app.cli.line_fates import print_fates, right_of, under_one_name
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
from tutor.app.cli.words import progress as words
from tutor.app.files.folders import data_folder
from tutor.app.terminal import finish, tell
from tutor.progress.backup import BACKUPS
from tutor.progress.interchange import COLUMNS
from tutor.progress.notes import latest
from tutor.progress.own_words import OwnWords
from tutor.progress.store import check_backup
from tutor.progress.summary import RECENT
from tutor.quoting import visible

ACTIONS = "show|group|assign|export|import|merge|backup|restore|reset"
LEFT_OUT = 1
"""Exit status when lines were left out that were wrong."""


def add_to(commands: argparse._SubParsersAction[Any], about: str) -> None:
    """Add this command to those of the command line; ``about`` says there what it does."""
    parser = commands.add_parser(
        "progress",
        help=about,
        description=words.DESCRIPTION,
        epilog=words.epilog(COLUMNS, RECENT.days, data_folder() / BACKUPS),
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    actions = parser.add_subparsers(
        title=words.WHAT_TO_DO,
        metavar=ACTIONS,
        dest="action",
        required=True,
    )
    _add_show(actions)
    add_assign(_action(actions, "assign", run_assign, words.ASSIGN))
    _add_exchange(actions)
    _add_upkeep(actions)


def _add_show(actions: argparse._SubParsersAction[Any]) -> None:
    show = _action(actions, "show", run_show, words.SHOW)
    show.add_argument("--learner", metavar=words.NAME, help=words.SHOW_LEARNER)
    form = show.add_mutually_exclusive_group()
    form.add_argument("--json", action="store_true", help=words.SHOW_JSON)
    form.add_argument("--csv", action="store_true", help=words.SHOW_CSV)
    form.add_argument("--png", type=Path, metavar=words.FILE, help=words.SHOW_PNG)
    show.add_argument("--force", action="store_true", help=words.SHOW_FORCE)
    group = _action(actions, "group", run_group, words.GROUP)
    group.add_argument("--out", type=Path, metavar=words.FILE, help=words.GROUP_OUT)
    group.add_argument("--force", action="store_true", help=words.FORCE)


def _add_exchange(actions: argparse._SubParsersAction[Any]) -> None:
    """What carries attempts from one machine to another."""
    export = _action(actions, "export", run_export, words.EXPORT)
    export.add_argument("file", type=Path, metavar=words.FILE, help=words.SUFFIXES)
    export.add_argument("--learner", metavar=words.NAME, help=words.EXPORT_LEARNER)
    export.add_argument("--force", action="store_true", help=words.FORCE)
    take_in = _action(actions, "import", run_import, words.IMPORT)
    take_in.add_argument("files", nargs="+", type=Path, metavar=words.FILE, help=words.SUFFIXES)
    take_in.add_argument("--lines", action="store_true", help=words.LINES)
    merge = _action(actions, "merge", run_merge, words.MERGE)
    merge.add_argument("files", nargs="+", type=Path, metavar=words.FILE, help=words.SUFFIXES)
    merge.add_argument("--into", required=True, type=Path, metavar=words.FILE, help=words.MERGE_INTO)
    merge.add_argument("--lines", action="store_true", help=words.LINES)
    merge.add_argument("--force", action="store_true", help=words.FORCE)


def _add_upkeep(actions: argparse._SubParsersAction[Any]) -> None:
    """What looks after the store itself."""
    backup = _action(actions, "backup", run_backup, words.BACKUP)
    backup.add_argument("file", nargs="?", type=Path, metavar=words.FILE, help=words.BACKUP_FILE)
    backup.add_argument("--force", action="store_true", help=words.FORCE)
    restore = _action(actions, "restore", run_restore, words.RESTORE)
    restore.add_argument("file", type=Path, metavar=words.FILE, help=words.RESTORE_FILE)
    restore.add_argument("--yes", action="store_true", help=words.RESET_YES)
    reset = _action(actions, "reset", run_reset, words.RESET)
    reset.add_argument("--learner", metavar=words.NAME, help=words.RESET_LEARNER)
    reset.add_argument("--yes", action="store_true", help=words.RESET_YES)


def _action(
    actions: argparse._SubParsersAction[Any], name: str, run: Callable[[argparse.Namespace], int], told: str
) -> argparse.ArgumentParser:
    added: argparse.ArgumentParser = actions.add_parser(
        name, help=told, description=f"{told[0].upper()}{told[1:]}.", allow_abbrev=False
    )
    added.set_defaults(run=run)
    return added


def run_show(chosen: argparse.Namespace) -> int:
    """Show how the learners are doing and return the exit status."""
    with open_store() as store:
        if chosen.learner is None:
            if chosen.csv or chosen.png is not None:
                raise RequestError(words.of_one_learner(chosen.csv))
            standings = [standing_of(store, name) for name in store.learners()]
            print_learners(standings, as_json=chosen.json)
            return 0
        learner = learner_named(store, chosen.learner)
        summary = summary_of(store, learner)
    if chosen.png is not None:
        save_sheet(chosen.png, learner, summary, force=chosen.force)
        tell(visible(chosen.png))
    else:
        print_cases(summary, as_json=chosen.json, as_table=chosen.csv)
    return 0


def run_group(chosen: argparse.Namespace) -> int:
    """Show or write how the group is doing and return the exit status."""
    with open_store() as store:
        report = report_of(store)
    if chosen.out is None:
        print_group(report)
    else:
        save_group(chosen.out, report, force=chosen.force)
        tell(visible(chosen.out))
    return 0


def run_export(chosen: argparse.Namespace) -> int:
    """Write attempts to a file and return the exit status."""
    check_suffix(chosen.file)
    with open_store() as store:
        learner = None if chosen.learner is None else learner_named(store, chosen.learner)
        attempts, notes = store.attempts(learner), store.notes(learner)
    write_records(chosen.file, attempts, notes, force=chosen.force)
    tell(words.exported(len(attempts), chosen.file))
    return 0


def run_import(chosen: argparse.Namespace) -> int:
    """Take attempts into the store and return the exit status; all files are read before any is taken in.

    Line by line, those that are wrong are left out, and the status says that there were some.
    """
    lines = [line for file in chosen.files for line in read_lines(file)]
    good = right_of(lines) if chosen.lines else lines
    attempts, notes = sorted_out(good)
    with open_store() as store:
        merged = store.merge(attempts, notes)
    if chosen.lines:
        print_fates(lines, merged.new, merged.notes, merged.left_out)
    known = len(attempts) - merged.added - merged.undone
    own = sum(isinstance(note, OwnWords) and bool(note.text) for note in merged.notes)
    tell(words.imported(merged.added, known, merged.undone, own, len(lines) - len(good)))
    return 0 if len(good) == len(lines) else LEFT_OUT


def run_merge(chosen: argparse.Namespace) -> int:
    """Put files together and return the exit status, as ``run_import`` does."""
    check_suffix(chosen.into)
    lines = [line for file in chosen.files for line in read_lines(file)]
    good = right_of(lines) if chosen.lines else lines
    read, notes = under_one_name(sorted_out(good))
    once = {attempt.uuid: attempt for attempt in read}
    ordered = sorted(once.values(), key=lambda attempt: (attempt.time, attempt.uuid.hex))
    kept = latest(notes)
    write_records(chosen.into, ordered, kept, force=chosen.force)
    if chosen.lines:
        print_fates(lines, frozenset(once), kept)
    tell(words.merged(len(ordered), chosen.into, len(read) - len(ordered), len(lines) - len(good)))
    return 0 if len(good) == len(lines) else LEFT_OUT


def run_backup(chosen: argparse.Namespace) -> int:
    """Copy the store and return the exit status."""
    if chosen.file is not None and os.path.lexists(chosen.file) and not chosen.force:
        raise RequestError(words.file_exists(chosen.file))
    with open_store() as store:
        # Under a name of its own: today's backup is written anew by the program.
        tell(visible(store.back_up(chosen.file or store.free_copy("by-hand"))))
    return 0


def run_restore(chosen: argparse.Namespace) -> int:
    """Take a backup back, once a person has agreed, and return the exit status."""
    check_backup(chosen.file)
    with open_store() as store:
        if not _agreed(words.restore(chosen.file, len(store.attempts())), chosen):
            return 1
        copy = store.restore(chosen.file)
        count = len(store.attempts())
    tell(words.restored(count, chosen.file, copy))
    return 0


def _agreed(question: str, chosen: argparse.Namespace) -> bool:
    """Whether a person agrees; without ``--yes`` somebody has to be there to be asked."""
    if chosen.yes:
        return True
    if not sys.stdin.isatty():
        raise RequestError(words.SAY_YES)
    tell(question, end="")
    finish()
    agreed = sys.stdin.readline().strip().casefold() == "yes"
    if not agreed:
        tell(words.NOTHING_CHANGED)
    return agreed


def run_reset(chosen: argparse.Namespace) -> int:
    """Delete attempts, once a person has agreed, and return the exit status."""
    with open_store() as store:
        learner = None if chosen.learner is None else learner_named(store, chosen.learner)
        count = len(store.attempts(learner))
        if not _agreed(words.forget(count, learner), chosen):
            return 1
        copy = store.reset(learner)
    tell(words.forgotten(count, learner, copy))
    return 0
