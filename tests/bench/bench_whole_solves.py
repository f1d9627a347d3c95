"""Whole solves by a driver that follows the advice with the screen's own commands, and how long advice takes.

``python -m tests.bench.bench_whole_solves 1000`` solves so many random legal positions and reports mean and
spread of the turns for the pairs, beside those of the slots as they come. ``python -m pytest
tests/bench/bench_whole_solves.py`` measures the costs of pairs and the search over orders as ratios to a bare
look-up of 18 neighbours in the same run; the bounds are 0.3 s and 2 s.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator
from random import Random
from statistics import mean, median, stdev
from typing import Any

import pytest

from tests.bench.bare_look_up import NAME, bare_look_up
from tests.screens.solve.test_solving import whole_solves
from tutor.cube.position import Position
from tutor.cube.random_position import random_with_cross
from tutor.method.advice import PairsQuestion, PlanQuestion, advise
from tutor.solver.search import Solver

ROUNDS = 40
LINES: list[str] = []
BASE: list[float] = []


@pytest.fixture(scope="module")
def solver(request: pytest.FixtureRequest) -> Iterator[Solver]:
    solver = Solver.open()
    solver.tables.build_large(lambda share: None)
    yield solver
    capture = request.config.pluginmanager.getplugin("capturemanager")
    with capture.global_and_fixture_disabled():
        print("\n" + "\n".join(LINES))


def measure(
    benchmark: Any, name: str, ask: Callable[[Position], object], rounds: int = ROUNDS
) -> list[float]:
    """One round for each of the positions, the cross made and nothing else; the line for the table."""
    random = Random(5)
    positions = [random_with_cross(random) for _ in range(rounds + 1)]
    ask(positions.pop())
    upcoming = iter(positions)
    benchmark.pedantic(ask, setup=lambda: ((next(upcoming),), {}), rounds=rounds)
    spent = sorted(benchmark.stats.stats.data)
    base = f", {median(spent) / median(BASE):.0f} times the bare look-up" if BASE else ""
    LINES.append(f"{name:32}median {1000 * median(spent):9.2f} ms, longest {1000 * spent[-1]:9.2f} ms{base}")
    return spent


def test_bare_look_up(benchmark: Any, solver: Solver) -> None:
    BASE[:] = measure(benchmark, NAME, bare_look_up(solver))


def test_costs_of_pairs(benchmark: Any, solver: Solver) -> None:
    measure(benchmark, "costs of all pairs, shortcuts", lambda each: advise(solver, PairsQuestion(each)))


def test_search_over_orders(benchmark: Any, solver: Solver) -> None:
    measure(benchmark, "search over orders", lambda each: advise(solver, PlanQuestion(each)), 20)


def main(count: int, seed: int = 2) -> None:
    """Solve random positions by following the advice and print what came of it."""
    solver, begun = Solver.open(), time.monotonic()
    taken, plain = whole_solves(solver, count, seed)
    for name, turns in (("by advice", taken), ("slot after slot", plain)):
        print(f"{name:16} mean {mean(turns):6.2f}  spread {stdev(turns):5.2f}  most {max(turns)}")
    print(f"{count} solves, all with two layers home, in {time.monotonic() - begun:.0f} s")


if __name__ == "__main__":
    main(*(int(given) for given in sys.argv[1:]))
