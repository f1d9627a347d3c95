"""``cases``: the 41 cases, each with a setup, the lengths of a shortest line and route, and its mirror."""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from itertools import groupby
from typing import Any

from tutor.app.solving import open_solver
from tutor.cube.notation import format_moves
from tutor.cube.position import Slot
from tutor.method.cases import CASES
from tutor.method.routes import route_lengths
from tutor.solver.search import Solver
from tutor.solver.task import Task

_DESCRIPTION = """\
Lists the 41 cases: where the corner and edge of a pair can be while the cross and the other slots are
solved, turns of the top not counted. Each has a setup for the slot FR that stands as its name says, as in the
case book and on the sheets; for that setup the lengths of a shortest line and of a shortest route are told.
With the top turned first, a line can be one turn shorter and a route two. The mirror is the case one sees in
a mirror that exchanges front and right."""
_EPILOG = """\
example:
  python -m tutor cases

Beneath the name, with hyphens, stands what other commands take for CASE. With --json the answer is a list of
41 objects: name, slug (what commands take for CASE), family, setup, shortest, route, mirror (a name)."""
_WIDEST = len("mirror ") + max(len(case.slug) for case in CASES)
"""Characters that a name for commands needs, so that it is never broken."""


@dataclass(frozen=True, slots=True)
class CaseEntry:
    """A case as listed; ``shortest`` and ``route`` are lengths in turns from ``setup``.

    ``slug`` is the name that commands take.
    """

    name: str
    slug: str
    family: str
    setup: str
    shortest: int
    route: int
    mirror: str


def add_to(commands: argparse._SubParsersAction[Any]) -> None:
    """Add this command to those of the command line."""
    parser = commands.add_parser(
        "cases",
        help="list the 41 cases",
        description=_DESCRIPTION,
        epilog=_EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("--json", action="store_true", help="answer with JSON instead of a table")
    parser.set_defaults(run=run)


def run(chosen: argparse.Namespace) -> int:
    """List the cases and return the exit status."""
    with open_solver() as solver:
        entries = tuple(case_entries(solver))
    if chosen.json:
        print(json.dumps([asdict(entry) for entry in entries]))
    else:
        _show(entries)
    return 0


def case_entries(solver: Solver) -> Iterator[CaseEntry]:
    """All cases, by family."""
    for case in CASES:
        position = case.position()
        task = Task.at(position, Slot.FR)
        route = route_lengths(position, task).length
        if route is None:
            raise AssertionError(f"the case {case.slug} has a route")
        yield CaseEntry(
            name=case.name,
            slug=case.slug,
            family=case.family,
            setup=format_moves(case.setup()),
            shortest=solver.distance(position, task),
            route=route,
            mirror=case.mirror.name,
        )


def _show(entries: tuple[CaseEntry, ...]) -> None:
    # Imported here, so that neither the window nor JSON waits for it.
    from rich.console import Console
    from rich.table import Table
    from rich.text import Text

    console = Console(highlight=False)
    slugs = {entry.name: entry.slug for entry in entries}
    for family, members in groupby(entries, key=lambda entry: entry.family):
        table = Table(title=family.capitalize(), title_justify="left", expand=True)
        table.add_column("Case", min_width=_WIDEST, ratio=3)
        table.add_column("Setup", ratio=1)
        for heading in ("Shortest", "Route"):
            table.add_column(heading, justify="right", no_wrap=True)
        for entry in members:
            named = Text(entry.name)
            named.append(f"\n{entry.slug}", style="bold").append(
                f"\nmirror {slugs[entry.mirror]}", style="dim"
            )
            table.add_row(named, entry.setup, str(entry.shortest), str(entry.route))
        console.print(table)
