"""``checkup``: what the machine offers, and what is wrong, in words."""

from __future__ import annotations

import argparse
import json
from typing import Any

from tutor.app.checkup.check_result import CheckResult, State

_DESCRIPTION = """\
Tells what this machine offers the program (OpenGL, fonts, folders, tables, libraries), how what the program
has kept is, and what is wrong, in words. Nothing is changed by it. The exit status is 0 when all is well, 1
when something is wrong, and 3 when nothing is wrong but there is no display here to open the window on, so
that everything but the window works."""
_EPILOG = """\
example:
  python -m tutor checkup

With --json the answer is a list of objects: about, state (fine, note, missing or wrong), told."""
_STYLES = {State.FINE: "", State.NOTE: "yellow", State.MISSING: "bold yellow", State.WRONG: "bold red"}
WELL, WRONG, NO_DISPLAY = 0, 1, 3
"""The exit status; 2 is for wrong arguments."""


def add_to(commands: argparse._SubParsersAction[Any]) -> None:
    """Add this command to those of the command line."""
    parser = commands.add_parser(
        "checkup",
        help="tell what the machine offers and what is wrong",
        description=_DESCRIPTION,
        epilog=_EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("--json", action="store_true", help="answer with JSON instead of a table")
    parser.set_defaults(run=run)


def run(chosen: argparse.Namespace) -> int:
    """Tell what is found and return the exit status."""
    # Imported here, so that no other command waits for what this one looks at.
    from tutor.app.checkup.checks import check_everything

    results = tuple(check_everything())
    if chosen.json:
        print(json.dumps([{"about": f.about, "state": f.state.value, "told": f.told} for f in results]))
    else:
        _show(results)
    states = {result.state for result in results}
    return WRONG if State.WRONG in states else NO_DISPLAY if State.MISSING in states else WELL


def _show(results: tuple[CheckResult, ...]) -> None:
    from rich.console import Console
    from rich.table import Table
    from rich.text import Text

    console = Console(highlight=False)
    table = Table(box=None, show_header=False, pad_edge=False)
    table.add_column(no_wrap=True)
    table.add_column(no_wrap=True)
    table.add_column(overflow="fold")
    for result in results:
        state = Text(result.state.value, style=_STYLES[result.state])
        # As Text, since a path may hold what would be read as markup.
        table.add_row(result.about, state, Text(result.told))
    console.print(table)
    count = sum(result.state is State.WRONG for result in results)
    away = any(result.state is State.MISSING for result in results)
    told = "Nothing is wrong." if count == 0 else f"Wrong: {count}."
    console.print(f"\n{told}{' Without a display the window cannot open.' if away else ''}", style="bold")
