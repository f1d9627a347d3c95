"""Cross and pair numbers move as the positions they name."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tutor.cube.faces import TURNS, Turn
from tutor.cube.position import SLOTS, SOLVED, Position, Slot
from tutor.solver.coordinates import (
    HOME_CROSS,
    HOME_PAIR,
    PAIR_MOVES,
    VIEWS,
    Int32Array,
    cross_locations,
    cross_number,
    cross_numbers,
    make_cross_moves,
    make_cross_views,
    pair_number,
    turns_in_view,
)
from tutor.solver.nodes import CLASSES, Tracked, frame_of

positions = st.lists(st.sampled_from(TURNS), max_size=25).map(SOLVED.after)


@pytest.fixture(scope="module")
def moves() -> Int32Array:
    return make_cross_moves()


@pytest.fixture(scope="module")
def views() -> Int32Array:
    return make_cross_views()


def test_every_cross_number_names_one_placement() -> None:
    assert np.array_equal(cross_numbers(cross_locations()), np.arange(190080))


def test_home_has_the_home_numbers() -> None:
    assert cross_number(SOLVED) == HOME_CROSS
    assert {pair_number(SOLVED, slot) for slot in SLOTS} == {HOME_PAIR}


@given(positions, st.sampled_from(TURNS), st.sampled_from(SLOTS))
def test_numbers_move_as_the_position_does(
    moves: Int32Array, position: Position, turn: Turn, slot: Slot
) -> None:
    turned = position.turned(turn)
    assert moves[cross_number(position), turn] == cross_number(turned)
    in_view = turns_in_view(slot)[turn]
    assert PAIR_MOVES[pair_number(position, slot), in_view] == pair_number(turned, slot)


@given(positions, st.sampled_from(SLOTS))
def test_a_pair_in_its_own_view_is_the_pair_of_fr(views: Int32Array, position: Position, slot: Slot) -> None:
    seen = position.carried(VIEWS[slot])
    assert views[slot, cross_number(position)] == cross_number(seen)
    assert pair_number(position, slot) == pair_number(seen, Slot.FR)


@given(positions, st.sets(st.sampled_from(SLOTS), min_size=1), st.sampled_from(TURNS))
def test_nodes_of_any_slots_move_as_the_position_does(
    moves: Int32Array, views: Int32Array, position: Position, slots: set[Slot], turn: Turn
) -> None:
    frame = frame_of(frozenset(slots))
    tracked = Tracked(CLASSES[frame.index], moves)
    node = np.array([frame.node(position, tracked, views)])
    child = tracked.children(node)[0, frame.there[turn]]
    assert child == frame.node(position.turned(turn), tracked, views)
    assert frame.back[frame.there[turn]] is turn


def test_no_slots_at_all_are_refused() -> None:
    with pytest.raises(ValueError, match="at least one slot"):
        frame_of(frozenset())
