"""``checkup``: what the machine offers, and whether the saved data is sound, in words."""

from __future__ import annotations

import argparse
import json
from typing import Any

from tutor.app.checkup import words
from tutor.app.checkup.check_result import CheckResult, State
from tutor.app.terminal import answer_console, tell

_STYLES = {State.FINE: "", State.NOTE: "yellow", State.MISSING: "bold yellow", State.WRONG: "bold red"}
WELL, WRONG, NO_DISPLAY = 0, 1, 3
"""The exit status; 2 is for wrong arguments."""


def add_to(commands: argparse._SubParsersAction[Any], about: str) -> None:
    """Add this command to those of the command line; ``about`` says there what it does."""
    parser = commands.add_parser(
        "checkup",
        help=about,
        description=words.DESCRIPTION,
        epilog=words.EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("--json", action="store_true", help=words.JSON_HELP)
    parser.set_defaults(run=run)


def run(chosen: argparse.Namespace) -> int:
    """Print what is found and return the exit status."""
    # Imported here, so that no other command waits for what this one looks at.
    from tutor.app.checkup.checks import check_everything

    results = tuple(check_everything())
    if chosen.json:
        tell(json.dumps([{"about": f.about, "state": f.state.value, "told": f.told} for f in results]))
    else:
        _show(results)
    states = {result.state for result in results}
    return WRONG if State.WRONG in states else NO_DISPLAY if State.MISSING in states else WELL


def _show(results: tuple[CheckResult, ...]) -> None:
    from rich.table import Table
    from rich.text import Text

    console = answer_console()
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
    console.print(f"\n{words.summary(count, display=not away)}", style="bold")
