"""Speed, start and memory of the solver, as a table, with the bare table look-up as the baseline.

Not collected by a plain run of the tests. Run it with
``python -m pytest tests/bench/bench_solver.py``; the tables go to the terminal at the end. Every round asks
about another position, and nothing is remembered between them. The planner comparison needs the ``planner``
extra and takes minutes, most of them at distance 7; ``-k "not planner"`` leaves it out.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from tests.bench.bare_look_up import NAME, bare_look_up
from tests.bench.solver_figures import KEPT, positions_off, start, wandered
from tests.solver.plain_search import unsolved_placements
from tests.solver.planning_task import plan
from tests.solver.test_planner import FAR
from tutor.cube.faces import TURNS, Turn
from tutor.cube.position import SLOTS, SOLVED, Position, Slot
from tutor.method.answer import answer
from tutor.solver.search import Solver
from tutor.solver.store import default_folder
from tutor.solver.task import Task

KEEPS = {0: (), 1: (Slot.FL,), 2: (Slot.FL, Slot.BL), 3: SLOTS[1:]}
HAND_KEEPS = ((), (Slot.FL,), (Slot.BL,), (Slot.FL, Slot.BL), (Slot.FL, Slot.BR))
"""With the last of these the free slot is opposite the target: five faces turn, and most must be kept."""
PLANNED = {
    **FAR,
    7: (Turn.B_PRIME, Turn.L2, Turn.B, Turn.F, Turn.D2, Turn.L2, Turn.D2),
}
"""Turns away from home that make positions for the planner, by their distance."""
ROWS: list[tuple[str, int, float, float, float]] = []
LINES: list[str] = []


def _named(keep: tuple[Slot, ...]) -> str:
    return "-".join(slot.name for slot in keep) or "none"


@pytest.fixture(scope="module")
def solver(request: pytest.FixtureRequest) -> Iterator[Solver]:
    solver = Solver.open(default_folder())
    solver.tables.build_large(lambda share: None)
    yield solver
    capture = request.config.pluginmanager.getplugin("capturemanager")
    with capture.global_and_fixture_disabled():
        print_table()


def print_table() -> None:
    base = next((row[2] for row in ROWS if row[0].startswith("bare look-up")), float("nan"))
    head = f"{'':44}{'rounds':>7}{'median ms':>11}{'p99 ms':>9}{'max ms':>9}{'x bare':>8}"
    body = [f"{n:44}{c:7}{m:11.3f}{p:9.3f}{x:9.2f}{m / base:8.1f}" for n, c, m, p, x in ROWS]
    print("\n".join(["", head, *body, *LINES]))


def measure(benchmark: Any, name: str, ask: Callable[[Position], object], positions: list[Position]) -> None:
    """One round for each position; keeps the row for the table."""
    ask(positions[0])
    ask(SOLVED)
    upcoming = iter(positions)
    benchmark.pedantic(ask, setup=lambda: ((next(upcoming),), {}), rounds=len(positions))
    spent = 1000 * np.array(benchmark.stats.stats.data)
    row = (name, len(spent), float(np.median(spent)), float(np.percentile(spent, 99)), float(spent.max()))
    benchmark.extra_info.update(median_ms=row[2], p99_ms=row[3])
    ROWS.append(row)


def test_bare_look_up(benchmark: Any, solver: Solver) -> None:
    measure(benchmark, NAME, bare_look_up(solver), positions_off(solver, 0))


@pytest.mark.parametrize("wrong", [0, 1, 2, 4])
def test_distances(benchmark: Any, solver: Solver, wrong: int) -> None:
    ask = lambda position: solver.distances(position, KEPT)  # noqa: E731
    measure(benchmark, f"18 distances, {wrong} wrong turns off", ask, positions_off(solver, wrong))


@pytest.mark.parametrize("wrong", [0, 1, 2, 4])
def test_distances_by_hand(benchmark: Any, solver: Solver, wrong: int) -> None:
    ask = lambda position: solver.hand_distances(position, KEPT)  # noqa: E731
    measure(benchmark, f"18 by hand, {wrong} wrong turns off", ask, positions_off(solver, wrong))


@pytest.mark.parametrize("wrong", [0, 1, 4])
def test_distances_both_ways(benchmark: Any, solver: Solver, wrong: int) -> None:
    def ask(position: Position) -> None:
        solver.distances(position, KEPT)
        solver.hand_distances(position, KEPT)

    measure(benchmark, f"18 both ways, {wrong} wrong turns off", ask, positions_off(solver, wrong))


@pytest.mark.parametrize("wrong", [4, 6])
def test_distances_by_hand_after_working_turns(benchmark: Any, solver: Solver, wrong: int) -> None:
    """Wrong turns of far faces mostly end all ways by hand at once; others leave something to search."""
    chooser = random.Random(wrong)
    every = unsolved_placements(Slot.FR)
    found = [wandered(chooser.choice(every), wrong, chooser, KEPT.working_faces) for _ in range(149)]
    ask = lambda position: solver.hand_distances(position, KEPT)  # noqa: E731
    measure(benchmark, f"18 by hand, {wrong} working turns off", ask, found)


@pytest.mark.parametrize("wrong", [0, 1, 4])
def test_whole_answer(benchmark: Any, solver: Solver, wrong: int) -> None:
    ask = lambda position: answer(solver, position, KEPT)  # noqa: E731
    measure(benchmark, f"whole answer, {wrong} wrong turns off", ask, positions_off(solver, wrong))


@pytest.mark.parametrize("kept", KEEPS)
def test_kept_pairs(benchmark: Any, solver: Solver, kept: int) -> None:
    task = Task(Slot.FR, frozenset(KEEPS[kept]))
    ask = lambda position: solver.distances(position, task)  # noqa: E731
    measure(benchmark, f"18 distances, cases, {kept} kept pairs", ask, unsolved_placements(Slot.FR))


@pytest.mark.parametrize("wrong", [0, 4])
@pytest.mark.parametrize("keep", HAND_KEEPS, ids=_named)
def test_kept_pairs_by_hand(benchmark: Any, solver: Solver, keep: tuple[Slot, ...], wrong: int) -> None:
    task, chooser = Task(Slot.FR, frozenset(keep)), random.Random(wrong)
    found = [wandered(position, wrong, chooser) for position in unsolved_placements(Slot.FR)]
    ask = lambda position: solver.hand_distances(position, task)  # noqa: E731
    measure(benchmark, f"18 by hand, kept {_named(keep)}, {wrong} wrong off", ask, found)


@pytest.mark.parametrize("distance", range(1, 12))
def test_distance(benchmark: Any, solver: Solver, distance: int) -> None:
    chooser = random.Random(distance)
    every = unsolved_placements(Slot.FR)
    found: list[Position] = []
    while len(found) < 30:
        position = wandered(chooser.choice(every), chooser.choice((0, 1, 2, 3)), chooser)
        line = solver.lines(position, KEPT, 1)[0]
        if len(line) >= distance:
            found.append(position.after(line[: len(line) - distance]))
    ask = lambda position: solver.distances(position, KEPT)  # noqa: E731
    measure(benchmark, f"18 distances at distance {distance}", ask, found)


def test_start_and_memory(solver: Solver, tmp_path: Path) -> None:
    with_cache = min(start(default_folder())[0] for _ in range(3))
    without = min(start(tmp_path / str(attempt))[0] for attempt in range(3))
    grown = start(default_folder(), 3000)[1]
    LINES.append(f"first answer after process start: {with_cache:.2f} s with cache, {without:.2f} s without")
    LINES.append(f"resident memory added, after 3000 answers: {grown:.0f} MB (10^6 bytes)")
    assert grown > 0


@pytest.mark.parametrize("distance", PLANNED)
def test_planner(benchmark: Any, solver: Solver, distance: int) -> None:
    position = SOLVED.after(PLANNED[distance])
    planned = plan(position, KEPT)
    assert len(planned.turns) == distance
    other = SOLVED.turned(TURNS[0])
    benchmark.pedantic(
        solver.distances, setup=lambda: (solver.distance(other, KEPT), ((position, KEPT), {}))[1], rounds=100
    )
    mine = float(np.median(benchmark.stats.stats.data))
    ratio = planned.search_seconds / mine
    LINES.append(
        f"planner at distance {distance}: its search {planned.search_seconds:.2f} s, "
        f"18 distances here {1000 * mine:.3f} ms: {ratio:,.0f} times"
    )
