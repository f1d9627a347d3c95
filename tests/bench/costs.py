"""``python -m tests.bench.costs``: the ten functions that cost most, for each moment a person waits for.

A moment is profiled in a new process, with the processor time of all threads as the clock; a profiler
makes Python's own part look up to twice as large. One profile is taken of each, so the order of what costs
most is sound and a difference of a few per cent is not. It needs Debian's xvfb and takes a minute.
``--compare REF`` puts another commit's beside them. What it prints is Markdown, for COSTS.md.
"""

from __future__ import annotations

import argparse
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import nullcontext
from itertools import zip_longest
from pathlib import Path

import msgspec

from tests.bench.moments import MOMENTS
from tests.bench.profiling import Costs
from tests.bench.table import tree_of
from tests.bench.window_figures import Environment, with_home
from tests.virtual_screen import virtual_screen

COMMANDS = {
    "start to Home answering a key": ("tests.bench.window_probe", "costs of a start"),
    "frame of a turn with mirrors": ("tests.bench.window_probe", "costs of a frame"),
    **{name: ("tests.bench.moments", name, "--costs") for name in MOMENTS},
}


def costs_in(tree: Path, environment: Environment, command: tuple[str, ...]) -> Costs:
    """What a moment costs in that tree, once its modules are compiled."""
    for _ in range(2):
        told = subprocess.run(
            [sys.executable, "-m", *command], cwd=tree, env=environment, check=True, stdout=subprocess.PIPE
        ).stdout
    return msgspec.json.decode(told.splitlines()[-1], type=Costs)


def lines_of(moment: str, trees: dict[str, Costs]) -> Iterator[str]:
    """A table of one moment; a column for each tree."""
    wholes = (f"{name}: {_ms(costs.whole)} ms" for name, costs in trees.items())
    libraries = (f"{_ms(costs.library)} ms" for costs in trees.values())
    yield f"**{moment}**: {', '.join(wholes)}; of it in pyglet {' and '.join(libraries)}"
    yield ""
    yield f"| {' | '.join(f'{name}, ms' for name in trees)} |"
    yield "| --- " * len(trees) + "|"
    for row in zip_longest(*(costs.largest for costs in trees.values())):
        cells = ("" if each is None else f"{_ms(each[2])}: `{each[0]}` ({_calls(each[1])})" for each in row)
        yield f"| {' | '.join(cells)} |"
    yield ""


def _ms(spent: float) -> str:
    return f"{spent:,.0f}" if spent >= 10 else f"{spent:.2g}"


def _calls(count: float) -> str:
    return f"{count:,.0f}" if count >= 10 else f"{count:.3g}"


def report(trees: dict[str, Path]) -> Iterator[str]:
    """All tables, line by line."""
    with tempfile.TemporaryDirectory() as folder, virtual_screen() as screen:
        for moment, command in COMMANDS.items():
            costs = {}
            for number, (name, tree) in enumerate(trees.items()):
                environment = with_home(screen.environment, Path(folder, str(number)))
                costs[name] = costs_in(tree, environment, command)
            yield from lines_of(moment, costs)


def main() -> None:
    """Run it from the command line."""
    parser = argparse.ArgumentParser(prog="python -m tests.bench.costs")
    parser.add_argument("--compare", metavar="REF", help="another commit, its costs in the first column")
    chosen = parser.parse_args()
    with nullcontext() if chosen.compare is None else tree_of(chosen.compare) as other:
        trees = {} if other is None else {f"before ({chosen.compare})": other}
        for line in report({**trees, "here": Path.cwd()}):
            print(line, flush=True)


if __name__ == "__main__":
    main()
