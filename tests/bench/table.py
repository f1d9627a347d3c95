"""``python -m tests.bench.table``: start, answers, frames, films and memory, each beside a plain baseline.

Every figure is taken beside that of its baseline in the same run, so that their ratio hardly depends on the
machine. It takes about four minutes and needs Debian's xvfb and xdotool; ``--seconds`` makes the part with
turning layers longer. Nothing else should run meanwhile.

``--compare REF`` measures another commit in the same sitting, with the measuring code of this one, by turns
and ``--rounds`` times each, so that a change of the machine does not pass for one of the program.
"""

from __future__ import annotations

import argparse
import json
import os
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from statistics import median

import numpy as np
from msgspec import Struct
from msgspec.structs import asdict, replace
from rich.console import Console
from rich.table import Table

from tests.bench import window_figures
from tests.bench.bare_look_up import bare_look_up
from tests.bench.film_figures import case_film, film_costs, timed
from tests.bench.moments import MOMENTS
from tests.bench.solver_figures import KEPT, positions_off, start
from tests.virtual_screen import virtual_screen
from tutor.cube.position import Position
from tutor.method.answer import answer
from tutor.publish.cinema import ENCODERS
from tutor.solver.search import Solver
from tutor.solver.store import default_folder

ROUNDS = 7
ROUNDS_COMPARED = 3
MOMENT_ROUNDS = 3
TURNS = ["-m", "tutor", "turns", "--setup", "R U R'", "--slot", "FR"]
REST = 10.0
FILM_SIZE = (640, 360)


class Row(Struct, frozen=True):
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
    yield Row("memory once layers have turned", bare, drawn.memory, told.bare_memory, "MiB")
    idle = window_figures.idle(environment, window_figures.BARE_LOOP, seconds=REST)
    keys = window_figures.INTO_FREE_PLAY
    mine = window_figures.idle(environment, window_figures.PROGRAM, *keys, seconds=REST)
    yield Row("idle, with a cube in hand", "the library's bare loop", 100 * mine, 100 * idle, "% of a core")


def answer_rows(environment: window_figures.Environment) -> Iterator[Row]:
    """The first answer of a process, and any later one."""
    plain = median(timed(partial(_start_numpy, environment)) for _ in range(ROUNDS))
    first = median(start(default_folder(), environment=environment)[0] for _ in range(ROUNDS))
    yield Row("first answer of a new process", "a process that imports numpy", first, plain, "s")
    solver = Solver.open(default_folder())
    solver.tables.build_large(lambda share: None)
    for wrong, words in ((0, "on a line"), (1, "one wrong turn off")):
        positions = positions_off(solver, wrong)
        bare = _median_ms(bare_look_up(solver), positions)
        mine = _median_ms(lambda position: answer(solver, position, KEPT), positions)
        yield Row(f"whole answer, {words}", "bare look-up of 18 neighbours", mine, bare, "ms")


def worked(environment: window_figures.Environment, *arguments: str) -> float:
    """Seconds of processor time of a new process of Python."""
    command = [sys.executable, *arguments]
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(command, env=environment, check=True, stdout=subprocess.DEVNULL)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def process_rows(environment: window_figures.Environment) -> Iterator[Row]:
    """Whole processes, in processor time, by turns with their baselines."""
    probe = ("-m", "tests.bench.window_probe")
    for name, baseline, mine, bare in (
        (
            "start to Home answering a key",
            "a bare window of the library",
            (*probe, "program"),
            (*probe, "bare"),
        ),
        ("turns of one position", "a process that imports numpy", TURNS, ("-c", "import numpy")),
        ("--help", "an empty interpreter", ("-m", "tutor", "--help"), ("-c", "")),
    ):
        pairs = [(worked(environment, *mine), worked(environment, *bare)) for _ in range(ROUNDS)]
        here, there = (median(column) for column in zip(*pairs, strict=True))
        yield Row(f"processor time: {name}", baseline, here, there, "s")


def moment_rows(environment: window_figures.Environment) -> Iterator[Row]:
    """What a person waits for, each moment in new processes, in processor time."""
    for name in MOMENTS:
        command, pairs = [sys.executable, "-m", "tests.bench.moments", name], []
        for _ in range(MOMENT_ROUNDS):
            told = subprocess.run(command, env=environment, check=True, capture_output=True, text=True).stdout
            plain = 1000 * worked(environment, "-c", "import numpy")
            pairs.append((float(json.loads(told)), plain))
        here, bare = (median(column) for column in zip(*pairs, strict=True))
        yield Row(f"processor time: {name}", "a process that imports numpy", here, bare, "ms")


def film_rows(folder: Path) -> Iterator[Row]:
    """Films of one case."""
    film = case_film(FILM_SIZE)
    for suffix in ENCODERS:
        costs = film_costs(film, suffix, folder)
        yield Row(f"film, {suffix[1:]}", "drawn once and encoded", costs.whole, costs.least, "s")


def _start_numpy(environment: window_figures.Environment) -> None:
    subprocess.run([sys.executable, "-c", "import numpy"], check=True, env=environment)


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


PARTS = ("window", "processes", "moments", "answers", "films")


def measured(only: list[str], seconds: float, tell: Callable[[str], None]) -> list[Row]:
    """The rows of these parts, for the tree in which this runs."""
    rows: list[Row] = []
    with tempfile.TemporaryDirectory() as folder, virtual_screen() as screen:
        environment = window_figures.with_home(screen.environment, Path(folder))
        parts = (
            window_rows(environment, seconds),
            process_rows(environment),
            moment_rows(environment),
            answer_rows(environment),
            film_rows(Path(folder)),
        )
        for name, part in zip(PARTS, parts, strict=True):
            if name in only:
                tell(f"{time.strftime('%H:%M:%S')}  measuring {name}")
                rows += part
    return rows


@contextmanager
def tree_of(ref: str) -> Iterator[Path]:
    """Another commit's tree in a temporary folder, with the benchmarks of this one."""
    with tempfile.TemporaryDirectory() as folder:
        tree = Path(folder) / "tree"
        try:
            subprocess.run(["git", "worktree", "add", "--quiet", "--detach", str(tree), ref], check=True)
            shutil.copytree("tests/bench", tree / "tests/bench", dirs_exist_ok=True)
            yield tree
        finally:
            # Also what an interrupted command has left behind.
            shutil.rmtree(tree, ignore_errors=True)
            subprocess.run(["git", "worktree", "prune"], check=True)


def measured_in(tree: Path, only: list[str], seconds: float) -> list[Row]:
    """The rows, measured by a process in that tree."""
    command = [sys.executable, "-m", "tests.bench.table", "--json", "--seconds", str(seconds)]
    command += ["--only", *only]
    told = subprocess.run(command, cwd=tree, check=True, stdout=subprocess.PIPE, text=True).stdout
    return [Row(**each) for each in json.loads(told)]


def median_rows(rounds: list[list[Row]]) -> list[Row]:
    """Row by row the median of several rounds."""
    return [
        replace(each[0], mine=median(row.mine for row in each), bare=median(row.bare for row in each))
        for each in zip(*rounds, strict=True)
    ]


def comparison(here: list[Row], there: list[Row], ref: str) -> Table:
    """Both programs side by side; the last column is how many times the other's figure this one has."""
    table = Table(title=f"This tree beside {ref}, by turns in one sitting")
    for column in ("", "here", "times its baseline", ref, "times its baseline", "here / there"):
        table.add_column(column, justify="right" if column else "left")
    for mine, other in zip(here, there, strict=True):
        cells = (cell for row in (mine, other) for cell in (row.cells()[1], row.cells()[3]))
        table.add_row(mine.name, *cells, f"{mine.mine / other.mine:.2f}")
    return table


def compared(chosen: argparse.Namespace, tell: Callable[[str], None]) -> Table:
    """The table of this tree and of another commit."""
    ref, rounds = chosen.compare, chosen.rounds
    here: list[list[Row]] = []
    there: list[list[Row]] = []
    with tree_of(ref) as other:
        for number in range(rounds):
            tell(f"{time.strftime('%H:%M:%S')}  round {number + 1} of {rounds}")
            here.append(measured_in(Path.cwd(), chosen.only, chosen.seconds))
            there.append(measured_in(other, chosen.only, chosen.seconds))
    return comparison(median_rows(here), median_rows(there), ref)


def main() -> int:
    """Run it from the command line."""
    parser = argparse.ArgumentParser(
        prog="python -m tests.bench.table", description=(__doc__ or "").splitlines()[0]
    )
    parser.add_argument("--seconds", type=float, default=30.0, help="of turning layers, usually 30")
    parser.add_argument("--only", nargs="+", choices=PARTS, default=list(PARTS), help="parts to measure")
    parser.add_argument("--compare", metavar="REF", help="another commit to measure in the same sitting")
    parser.add_argument("--rounds", type=int, default=ROUNDS_COMPARED, help="of a comparison, usually 3")
    parser.add_argument("--json", action="store_true", help="print the rows as JSON and nothing else")
    chosen = parser.parse_args()
    console = Console(width=None if sys.stdout.isatty() else 120)
    if chosen.json:
        rows = measured(chosen.only, chosen.seconds, lambda words: None)
        print(json.dumps([asdict(row) for row in rows]))
        return 0
    if chosen.compare:
        console.print(compared(chosen, console.print))
    else:
        console.print(table_of(measured(chosen.only, chosen.seconds, console.print)))
    console.print(f"load of the machine at the end: {os.getloadavg()[0]:.1f} on {os.cpu_count()} cores")
    return 0


if __name__ == "__main__":
    sys.exit(main())
