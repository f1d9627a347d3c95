"""``cases``: the 41 cases, each with a setup, its figures, the route by steps, and its mirror."""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterator
from itertools import groupby
from typing import Any

from msgspec import Struct
from msgspec.structs import asdict

from tutor.app.cli.route_text import by_step
from tutor.app.cli.solver import open_solver
from tutor.app.cli.words import cases as words
from tutor.app.terminal import answer_console, tell
from tutor.cube.faces import Turn
from tutor.cube.notation import format_moves
from tutor.cube.position import Slot
from tutor.method.answer import answer, route_as_dict
from tutor.method.cases import CASES, Family
from tutor.method.routes import Route
from tutor.method.words import case_title
from tutor.publish.words import family_heading
from tutor.solver.search import Solver
from tutor.solver.task import Task

_WIDEST = max(len(words.mirror(case.number, case.slug)) for case in CASES)
"""Characters that a name for commands needs, so that it is never broken."""


class CaseEntry(Struct, frozen=True):
    """A case as listed; ``number`` or ``slug`` is what commands take.

    From ``setup``: ``shortest`` is the fewest turns by hand, ``at_all`` a shortest sequence with far layers
    too (by hand where those save nothing), ``route`` the route. ``fewest`` is the case's own figure.
    """

    number: int
    name: str
    short_name: str
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
        return {**asdict(self), "at_all": at_all, "route": route_as_dict(self.route)}


def add_to(commands: argparse._SubParsersAction[Any], about: str) -> None:
    """Add this command to those of the command line; ``about`` says there what it does."""
    parser = commands.add_parser(
        "cases",
        help=about,
        description=words.DESCRIPTION,
        epilog=words.EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        allow_abbrev=False,
    )
    parser.add_argument("--json", action="store_true", help=words.JSON_HELP)
    parser.set_defaults(run=run)


def run(chosen: argparse.Namespace) -> int:
    """List the cases and return the exit status."""
    with open_solver() as solver:
        entries = tuple(case_entries(solver))
    if chosen.json:
        tell(json.dumps([entry.as_dict() for entry in entries]))
    else:
        _show(entries)
    return 0


def case_entries(solver: Solver) -> Iterator[CaseEntry]:
    """All cases, by family."""
    for case in CASES:
        position = case.position()
        found = answer(solver, position, Task.at(position, Slot.FR))
        yield CaseEntry(
            number=case.number,
            name=case.name,
            short_name=case.short_name(),
            slug=case.slug,
            family=case.family,
            setup=format_moves(case.setup()),
            shortest=found.to_go,
            fewest=found.fewest_with_top_free,
            at_all=found.at_all_line or found.lines[0],
            route=case.route(),
            mirror=case.mirror.name,
        )


def _show(entries: tuple[CaseEntry, ...]) -> None:
    # Imported here, so that neither the window nor JSON waits for it.
    from rich.table import Table
    from rich.text import Text

    console = answer_console()
    numbered = {entry.name: (entry.number, entry.slug) for entry in entries}
    for family, members in groupby(entries, key=lambda entry: entry.family):
        table = Table(title=family_heading(Family(family)), title_justify="left", expand=True)
        table.add_column(words.CASE, min_width=_WIDEST, ratio=1)
        for heading in (words.BY_HAND, words.AS_SET_UP, words.ROUTE):
            table.add_column(heading, justify="right", no_wrap=True)
        for entry in members:
            named = Text(case_title(entry.number, entry.short_name))
            named.append(f"\n{entry.name}")
            named.append(f"\n{entry.slug}", style="bold")
            named.append(f"\n{words.mirror(*numbered[entry.mirror])}", style="dim")
            named.append("".join(f"\n{told}" for told in _told(entry)))
            table.add_row(named, str(entry.fewest), str(entry.shortest), str(len(entry.route.turns)))
        console.print(table)


def _told(entry: CaseEntry) -> Iterator[str]:
    """What is said of a case beneath its name, in lines."""
    yield words.setup(entry.setup)
    yield words.route(by_step(entry.route))
    if len(entry.at_all) < entry.shortest:
        yield words.far_layers(len(entry.at_all), format_moves(entry.at_all))
