"""One script carried to other slots, the mirror and other cross colours."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tutor.cube.faces import TURNS, Face
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import Axis, Move, Rotation, WideTurn, parse_moves
from tutor.cube.position import SLOTS, Slot
from tutor.lesson.variation import Variation, carried_move
from tutor.solver.task import Task, carried_slot

MOVES: list[Move] = [
    *TURNS,
    *(WideTurn(face, quarters) for face in Face for quarters in (1, 2, 3)),
    *(Rotation(axis, quarters) for axis in Axis for quarters in (1, 2, 3)),
]
variations = st.builds(Variation, st.integers(0, 3), st.booleans(), st.sampled_from([None, *Face]))


@given(variations, st.lists(st.sampled_from(MOVES), max_size=12))
def test_carrying_the_moves_is_carrying_the_position(variation: Variation, moves: list[Move]) -> None:
    carried = HeldCube().after(carried_move(move, variation.symmetry) for move in moves)
    assert carried.position == variation.held(HeldCube().after(moves)).position


@given(variations)
def test_the_cross_colour_is_below_and_the_rest_of_the_cube_is_a_real_one(variation: Variation) -> None:
    cube = variation.held(HeldCube())
    assert cube.colour_of(Face.D) is (Face.D if variation.cross is None else variation.cross)
    assert not cube.viewpoint.mirrors


@given(variations, st.sampled_from(SLOTS), st.sets(st.sampled_from(SLOTS)))
def test_a_task_as_played_is_found_again_as_written(
    variation: Variation, slot: Slot, keep: set[Slot]
) -> None:
    position = HeldCube().after(parse_moves("R U R' F D2")).position
    task = Task(slot, frozenset(keep - {slot}))
    played = Task(variation.slot(slot), frozenset(variation.slot(kept) for kept in task.keep))
    assert variation.written(position.carried(variation.symmetry), played) == (position, task)


@pytest.mark.parametrize(
    ("variation", "slots"),
    [
        (Variation(), (Slot.FR, Slot.FL, Slot.BL, Slot.BR)),
        (Variation(quarters=1), (Slot.FL, Slot.BL, Slot.BR, Slot.FR)),
        (Variation(mirrored=True), (Slot.FL, Slot.FR, Slot.BR, Slot.BL)),
    ],
)
def test_slots_follow(variation: Variation, slots: tuple[Slot, ...]) -> None:
    assert tuple(carried_slot(slot, variation.symmetry) for slot in SLOTS) == slots
