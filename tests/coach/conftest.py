"""The table the coach sits at, and positions to talk about."""

from __future__ import annotations

from random import Random

import pytest

from tests.coach.table import Start, Table, deviated, every_start, one_turn_off
from tutor.solver.search import Solver


@pytest.fixture(scope="session")
def table(solver: Solver) -> Table:
    return Table(solver)


@pytest.fixture(scope="session")
def sample_of_cases() -> list[Start]:
    """The same 60 of the 656 starts each time."""
    return Random(11).sample(list(every_start()), 60)


@pytest.fixture(scope="session")
def sample_of_deviated() -> list[Start]:
    """The same 50 deviated positions each time."""
    return deviated(50, seed=12)


@pytest.fixture(scope="session")
def all_cases() -> list[Start]:
    return list(every_start())


@pytest.fixture(scope="session")
def all_one_turn_off() -> list[Start]:
    return list(one_turn_off())


@pytest.fixture(scope="session")
def many_deviated() -> list[Start]:
    """A sample: all of 5,000 were gone through when this was written."""
    return deviated(1600, seed=13)
