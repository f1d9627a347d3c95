"""How long the coach takes to speak, as ratios to the answer it speaks about.

Run it with ``python -m pytest tests/bench/bench_coach.py``. The baseline, in the same group and run, is the
exact answer for the same positions: words must cost little beside it.
"""

from __future__ import annotations

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from tests.coach.table import COLOURS, Table, deviated
from tutor.coach.feedback import feedback
from tutor.coach.hints import Rung, hint
from tutor.coach.why import why
from tutor.cube.faces import TURNS
from tutor.method.answer import Answer
from tutor.solver.search import Solver


@pytest.fixture(scope="module")
def table(tmp_path_factory: pytest.TempPathFactory) -> Table:
    return Table(Solver.open(tmp_path_factory.mktemp("tables")))


@pytest.fixture(scope="module")
def answers(table: Table) -> list[Answer]:
    return [answer for start in deviated(40, seed=3) if (answer := table.answer(*start)).distance]


@pytest.mark.benchmark(group="coach")
def test_speed_of_an_answer_the_baseline(
    benchmark: BenchmarkFixture, table: Table, answers: list[Answer]
) -> None:
    benchmark(lambda: [table.answer(start.position, start.task) for start in answers])


@pytest.mark.benchmark(group="coach")
def test_speed_of_a_remark_on_one_turn(benchmark: BenchmarkFixture, answers: list[Answer]) -> None:
    pairs = list(zip(answers, TURNS * 3, strict=False))
    said = benchmark(lambda: [feedback(start, turn, COLOURS) for start, turn in pairs])
    assert all(remark.text for remark in said)


@pytest.mark.benchmark(group="coach")
def test_speed_of_a_hint(benchmark: BenchmarkFixture, answers: list[Answer]) -> None:
    given = benchmark(lambda: [hint(start, COLOURS, Rung.IDEA) for start in answers])
    assert all(each.text for each in given)


@pytest.mark.benchmark(group="coach")
def test_speed_of_a_question(benchmark: BenchmarkFixture, answers: list[Answer]) -> None:
    benchmark(lambda: [why(start, start.lines[0][0], COLOURS, 1) for start in answers])
