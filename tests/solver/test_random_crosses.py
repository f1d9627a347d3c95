"""Random positions are uniform as far as the cross goes, and so are those with the cross made."""

from __future__ import annotations

from collections import Counter
from random import Random

import pytest

from tutor.cube.position import CROSS_EDGES
from tutor.cube.random_position import random_position, random_with_cross
from tutor.cube.stickers import check_legal, is_odd
from tutor.solver.cross import CrossSolver
from tutor.solver.search import Solver

DRAWS = 6000
PLACEMENTS = (1, 15, 158, 1394, 9809, 46381, 97254, 34966, 102)
"""How many placements of the four edges of a cross need 0, 1, 2, ... 8 turns; by an independent search, two
programs agree; 190080 in all."""

# Passed once in a thousand, by degrees of freedom (NIST/SEMATECH e-Handbook of Statistical Methods,
# 1.3.6.7.4). The random seed is fixed, so the tests give the same answer every time.
CRITICAL = {1: 10.828, 4: 18.467, 15: 37.697, 23: 49.728}


def chi_square(found: list[int], expected: list[float]) -> float:
    return sum((count - wanted) ** 2 / wanted for count, wanted in zip(found, expected, strict=True))


@pytest.fixture(scope="module")
def crosses(solver: Solver) -> CrossSolver:
    return CrossSolver(solver.tables)


def test_distances_of_the_cross_come_as_often_as_there_are_placements(crosses: CrossSolver) -> None:
    random = Random(42)
    counts = Counter(crosses.distance(random_position(random)) for _ in range(DRAWS))
    # Classes in which fewer than five are expected are put together with their neighbours.
    groups = ((0, 1, 2, 3), (4,), (5,), (6,), (7, 8))
    found = [sum(counts[each] for each in group) for group in groups]
    share = [sum(PLACEMENTS[each] for each in group) / sum(PLACEMENTS) for group in groups]
    assert chi_square(found, [DRAWS * each for each in share]) < CRITICAL[len(groups) - 1]


def test_with_the_cross_made_every_draw_is_legal_and_needs_two_turns() -> None:
    random = Random(43)
    for _ in range(300):
        position = random_with_cross(random)
        check_legal(position)
        assert position.cross_home


@pytest.mark.parametrize("piece", range(8))
def test_with_the_cross_made_corners_are_anywhere_equally_often(piece: int) -> None:
    random = Random(44 + piece)
    counts = Counter(random_with_cross(random).corners[piece] for _ in range(2400))
    assert chi_square([counts[each] for each in range(24)], [100.0] * 24) < CRITICAL[23]


@pytest.mark.parametrize("piece", [each for each in range(12) if each not in CROSS_EDGES])
def test_with_the_cross_made_the_other_edges_are_anywhere_else_equally_often(piece: int) -> None:
    random = Random(60 + piece)
    counts = Counter(random_with_cross(random).edges[piece] for _ in range(2400))
    places = [2 * place + flip for place in range(12) if place not in CROSS_EDGES for flip in (0, 1)]
    assert set(counts) <= set(places)
    assert chi_square([counts[each] for each in places], [150.0] * 16) < CRITICAL[15]


def test_with_the_cross_made_even_and_odd_arrangements_are_equally_frequent() -> None:
    random = Random(80)
    draws = [random_with_cross(random) for _ in range(2400)]
    odd = sum(is_odd([location // 3 for location in position.corners]) for position in draws)
    assert chi_square([odd, 2400 - odd], [1200.0, 1200.0]) < CRITICAL[1]
