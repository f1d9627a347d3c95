"""Placements counted by turns needed, against the counts of independent searches."""

from __future__ import annotations

import numpy as np
import pytest

from tests.solver.plain_search import PlainSearch
from tutor.cube.position import Slot
from tutor.solver.bounds import (
    make_corner_distances,
    make_cross_distances,
    make_edge_distances,
    make_pair_distances,
)
from tutor.solver.coordinates import Int32Array, UInt8Array, make_cross_moves

# Check values: independent search, two programs agree.
CROSS_COUNTS = [1, 15, 158, 1394, 9809, 46381, 97254, 34966, 102]
# Check values: independent search. The sum is 72990720.
PAIR_COUNTS = [1, 15, 172, 1950, 21535, 220368, 1989591, 13431990, 40963892, 16325184, 36022]


@pytest.fixture(scope="module")
def cross_moves() -> Int32Array:
    return make_cross_moves()


def counts(distances: UInt8Array, void: int = 255) -> list[int]:
    return [int(count) for count in np.bincount(distances[distances != void])]


def test_the_cross_has_as_many_placements_at_each_distance_as_known(cross_moves: Int32Array) -> None:
    assert sum(CROSS_COUNTS) == 190080
    assert counts(make_cross_distances(cross_moves)) == CROSS_COUNTS


def test_the_cross_with_a_part_of_a_pair_reaches_every_placement(cross_moves: Int32Array) -> None:
    corner, edge = counts(make_corner_distances(cross_moves)), counts(make_edge_distances(cross_moves))
    assert sum(corner) == 190080 * 24
    assert sum(edge) == 190080 * 16


def test_the_cross_with_a_pair_has_as_many_placements_near_home_as_known() -> None:
    assert PlainSearch((Slot.FR,), 5).counts == PAIR_COUNTS[:6]


def unpacked(packed: UInt8Array) -> UInt8Array:
    """The distances of a table that holds two to a byte; 15 means that there is no such placement."""
    return np.stack((packed & 15, packed >> 4), axis=1).ravel()


@pytest.mark.slow
def test_the_cross_with_a_pair_has_as_many_placements_at_each_distance_as_known(
    cross_moves: Int32Array,
) -> None:
    shares: list[float] = []
    distances = unpacked(make_pair_distances(cross_moves, shares.append))
    assert sum(PAIR_COUNTS) == 72990720
    assert counts(distances, void=15) == PAIR_COUNTS
    assert shares == sorted(shares)
    assert shares[-1] == 1.0
