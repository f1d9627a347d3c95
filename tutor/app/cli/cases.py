"""``cases``: the 41 cases, each with a setup, its figures, the route by steps, and its mirror."""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterator
from dataclasses import dataclass, fields
from itertools import groupby
from typing import Any

from tutor.app.cli.route_text import by_step, with_far_layers
from tutor.app.cli.solver import open_solver
from tutor.cube.faces import Turn
from tutor.cube.notation import format_moves
from tutor.cube.position import Slot
from tutor.method.answer import answer, route_as_dict
from tutor.method.cases import CASES
from tutor.method.routes import Route
from tutor.screens.case_book.update import fewest
from tutor.solver.search import Solver
from tutor.solver.task import Task

_DESCRIPTION = """\
Lists the 41 cases: where the corner and edge of a pair can be while the cross and the other slots are
solved, turns of the top not counted. The setup makes the case in the slot FR just as its name says and as
the case book and the sheets picture it. You can make it by hand, since it undoes the route. “By hand” is
the fewest turns of the top and of the two faces beside the slot, with the top turned as best; “As set up” is
the same from the setup. The mirror is the case that you see in a mirror that exchanges front and right."""
_EPILOG = """\
example:
  python -m tutor cases

Beneath the name you find, with hyphens, what other commands take for CASE. With --json the answer is a list
of 41 objects:
  name, slug (what commands take for CASE), family
  setup     turns that make the case
  shortest  the fewest turns by hand from the setup
  fewest    the same with the top turned as best, a turn of the top before them not counted
  at_all    the fewest with far layers too, from the setup: length and notation; where far layers save
            nothing, the length is shortest and the notation a shortest line by hand
  route     the route from the setup: notation, length, and steps (the turns of each step)
  mirror    the name of the mirror image"""
_WIDEST = len("mirror ") + max(len(case.slug) for case in CASES)
"""Characters that a name for commands needs, so that it is never broken."""


@dataclass(frozen=True, slots=True)
class CaseEntry:
    """A case as listed; ``slug`` is the name that commands take.

    From ``setup``: ``shortest`` is the fewest turns by hand, ``at_all`` a shortest sequence with far layers
    too (by hand where those save nothing), ``route`` the route. ``fewest`` is the case's own figure.
    """

    name: str
    slug: str
    family: str
    setup: str
    shortest: int
    fewest: int
    at_all: tuple[Turn, ...]
    route: Route
    mirror: str

    def as_dict(self) -> dict[str, object]:
        """The entry in plain values for JSON."""
        at_all = {"length": len(self.at_all), "notation": format_moves(self.at_all)}
        plain = {field.name: getattr(self, field.name) for field in fields(self)}
        return {**plain, "at_all": at_all, "route": route_as_dict(self.route)}


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
        print(json.dumps([entry.as_dict() for entry in entries]))
    else:
        _show(entries)
    return 0


def case_entries(solver: Solver) -> Iterator[CaseEntry]:
    """All cases, by family."""
    for case in CASES:
        position = case.position()
        found = answer(solver, position, Task.at(position, Slot.FR))
        yield CaseEntry(
            name=case.name,
            slug=case.slug,
            family=case.family,
            setup=format_moves(case.setup()),
            shortest=found.to_go,
            fewest=fewest(found),
            at_all=found.at_all_line or found.lines[0],
            route=case.route(),
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
        table.add_column("Case", min_width=_WIDEST, ratio=1)
        for heading in ("By hand", "As set up", "Route"):
            table.add_column(heading, justify="right", no_wrap=True)
        for entry in members:
            named = Text(entry.name)
            named.append(f"\n{entry.slug}", style="bold")
            named.append(f"\nmirror {slugs[entry.mirror]}", style="dim")
            named.append("".join(f"\n{told}" for told in _told(entry)))
            table.add_row(named, str(entry.fewest), str(entry.shortest), str(len(entry.route.turns)))
        console.print(table)


def _told(entry: CaseEntry) -> Iterator[str]:
    """What is said of a case beneath its name, in lines."""
    yield f"Setup {entry.setup}"
    yield f"Route {by_step(entry.route)}"
    if len(entry.at_all) < entry.shortest:
        yield f"With far layers too: {with_far_layers(entry.at_all)}"
