"""``python -m tests.bench.table``: start, answers, frames, films and memory, each beside a plain baseline.

Every figure is taken beside that of its baseline in the same run, so that their ratio hardly depends on the
machine. It takes about three minutes and needs Debian's xvfb and xdotool; ``--seconds`` makes the part with
turning layers longer. Nothing else should run meanwhile.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from statistics import median

import numpy as np
from rich.console import Console
from rich.table import Table

from tests.bench import window_figures
from tests.bench.bare_look_up import bare_look_up
from tests.bench.film_figures import case_film, film_costs, timed
from tests.bench.solver_figures import KEPT, positions_off, start
from tests.virtual_screen import virtual_screen
from tutor.cube.position import Position
from tutor.method.answer import answer
from tutor.publish.cinema import ENCODERS
from tutor.solver.search import Solver
from tutor.solver.store import default_folder

ROUNDS = 7
REST = 10.0
FILM_SIZE = (640, 360)


@dataclass(frozen=True, slots=True)
class Row:
    """A figure of the program and of what it is measured by, both in ``unit``."""

    name: str
    baseline: str
    mine: float
    bare: float
    unit: str

    @property
    def ratio(self) -> float:
        """How many times the baseline. Raises ZeroDivisionError for a baseline of nothing."""
        return self.mine / self.bare

    def cells(self) -> tuple[str, ...]:
        """The row as text."""
        figures = (f"{value:,.3g} {self.unit}" for value in (self.mine, self.bare))
        return (self.name, *figures, f"{self.ratio:,.2f}", self.baseline)


def window_rows(environment: window_figures.Environment, seconds: float) -> Iterator[Row]:
    """Start, memory, frames and idle cost of the window."""
    bare = "a bare window of the library"
    told = window_figures.starts(environment, ROUNDS)
    yield Row("start: Home is seen", bare, told.seen, told.bare, "s")
    yield Row("start: Home answers a key", bare, told.answered, told.bare, "s")
    yield Row("memory with Home", bare, told.memory, told.bare_memory, "MiB")
    drawn = window_figures.frames(environment, seconds)
    middle = float(np.median(drawn.bare))
    yield Row("frame while a layer turns, median", bare, float(np.median(drawn.mine)), middle, "ms")
    late = float(np.percentile(drawn.mine, 99))
    yield Row("the same, 99 of 100 are shorter", bare, late, float(np.percentile(drawn.bare, 99)), "ms")
    yield Row("processor time of such a frame", bare, drawn.work, drawn.bare_work, "ms")
    idle = window_figures.idle(environment, window_figures.BARE_LOOP, seconds=REST)
    keys = window_figures.INTO_FREE_PLAY
    mine = window_figures.idle(environment, window_figures.PROGRAM, *keys, seconds=REST)
    yield Row("idle, with a cube in hand", "the library's bare loop", 100 * mine, 100 * idle, "% of a core")


def answer_rows() -> Iterator[Row]:
    """The first answer of a process, and any later one."""
    plain = median(timed(_start_numpy) for _ in range(ROUNDS))
    first = median(start(default_folder())[0] for _ in range(ROUNDS))
    yield Row("first answer of a new process", "a process that imports numpy", first, plain, "s")
    solver = Solver.open(default_folder())
    solver.tables.build_large(lambda share: None)
    for wrong, words in ((0, "on a line"), (1, "one wrong turn off")):
        positions = positions_off(solver, wrong)
        bare = _median_ms(bare_look_up(solver), positions)
        mine = _median_ms(lambda position: answer(solver, position, KEPT), positions)
        yield Row(f"whole answer, {words}", "bare look-up of 18 neighbours", mine, bare, "ms")


def film_rows(folder: Path) -> Iterator[Row]:
    """Films of one case."""
    film = case_film(FILM_SIZE)
    for suffix in ENCODERS:
        costs = film_costs(film, suffix, folder)
        yield Row(f"film, {suffix[1:]}", "drawn once and encoded", costs.whole, costs.least, "s")


def _start_numpy() -> None:
    subprocess.run([sys.executable, "-c", "import numpy"], check=True)


def _median_ms(ask: Callable[[Position], object], positions: list[Position]) -> float:
    ask(positions[0])
    return 1000 * median(timed(partial(ask, position)) for position in positions)


def table_of(rows: list[Row]) -> Table:
    """The rows as they are printed."""
    table = Table(title="Each figure beside a plain baseline of the same run")
    table.add_column("")
    for figure in ("here", "baseline", "times"):
        table.add_column(figure, justify="right")
    table.add_column("the baseline")
    for row in rows:
        table.add_row(*row.cells())
    return table


def main() -> int:
    """Run it from the command line."""
    parser = argparse.ArgumentParser(
        prog="python -m tests.bench.table", description=(__doc__ or "").splitlines()[0]
    )
    parser.add_argument("--seconds", type=float, default=30.0, help="of turning layers, usually 30")
    chosen = parser.parse_args()
    console, rows = Console(width=None if sys.stdout.isatty() else 120), list[Row]()
    with tempfile.TemporaryDirectory() as folder, virtual_screen() as screen:
        environment = {**screen.environment, "PAIRWRIGHT_HOME": folder}
        parts = (window_rows(environment, chosen.seconds), answer_rows(), film_rows(Path(folder)))
        for words, part in zip(("the window", "answers", "films"), parts, strict=True):
            console.print(f"{time.strftime('%H:%M:%S')}  measuring {words}")
            rows += part
    console.print(table_of(rows))
    console.print(f"load of the machine at the end: {os.getloadavg()[0]:.1f} on {os.cpu_count()} cores")
    return 0


if __name__ == "__main__":
    sys.exit(main())
