"""When each step is done, held against the pictures one sees on a cube."""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.method.placements import first_step_not_done, placements
from tests.method.plain_routes import plain_routes
from tutor.cube.faces import TURNS, Face, Turn
from tutor.cube.geometry import CORNER_STICKERS, EDGE_STICKERS, STICKERS
from tutor.cube.position import SLOTS, SOLVED, Position, Slot
from tutor.cube.symmetry import MIRROR_LEFT_RIGHT
from tutor.method.pairs import MATCH, TOP_CORNER, TOP_EDGE, TOUCH, match, pair_locations, touch
from tutor.method.steps import (
    DONE_WHEN,
    TURNING_STEPS,
    Step,
    joined,
    parted,
    raised,
    ready,
)
from tutor.solver.task import Task

FR = Slot.FR
ALL_KEPT = Task(FR, frozenset(SLOTS) - {FR})
R, RP, U, UP, U2 = Turn.R, Turn.R_PRIME, Turn.U, Turn.U_PRIME, Turn.U2
F, FP = Turn.F, Turn.F_PRIME


def test_every_corner_place_touches_three_edges_and_every_edge_place_two_corners() -> None:
    # Counting: a cube's corner has three edges, an edge has two ends.
    assert (TOUCH.sum(axis=1) == 2 * 3).all()
    assert (TOUCH.sum(axis=0) == 3 * 2).all()


def test_a_pair_can_be_joined_in_exactly_one_way_at_each_location_of_its_edge_or_corner() -> None:
    # Counting: glued together, corner and edge move as one block, which the 24 rotations carry about freely.
    for slot in SLOTS:
        assert MATCH[slot].sum() == 24
        assert (MATCH[slot].sum(axis=0) == 1).all()
        assert (MATCH[slot].sum(axis=1) == 1).all()


def colours_shown(stickers: tuple[int, ...], piece: int, size: int, location: int) -> dict[Face, Face]:
    """What a piece shows on each face when its first sticker lies at ``location``: faces of its home."""
    place, first = divmod(location, size)
    home = [STICKERS[sticker][1] for sticker in stickers[size * piece : size * piece + size]]
    here = [STICKERS[sticker][1] for sticker in stickers[size * place : size * place + size]]
    return {here[(first + number) % size]: colour for number, colour in enumerate(home)}


@pytest.mark.parametrize("slot", SLOTS)
def test_a_pair_matches_where_it_touches_and_both_colours_of_the_edge_go_on_over_the_joint(
    slot: Slot,
) -> None:
    for corner, edge in product(range(24), repeat=2):
        on_corner = colours_shown(CORNER_STICKERS, slot.corner, 3, corner)
        on_edge = colours_shown(EDGE_STICKERS, slot.edge, 2, edge)
        goes_on = all(on_corner.get(face) is colour for face, colour in on_edge.items())
        assert match(slot, corner, edge) == (touch(corner, edge) and goes_on)


def test_home_counts_as_matching() -> None:
    for slot in SLOTS:
        assert match(slot, 3 * slot.corner, 2 * slot.edge)


def test_eight_of_the_joined_placements_are_wholly_on_top() -> None:
    # Counting: the joint runs along the top in each of four corners, to either side.
    for slot in SLOTS:
        assert (MATCH[slot] & TOP_CORNER[:, None] & TOP_EDGE[None, :]).sum() == 8


@given(st.lists(st.sampled_from(TURNS), max_size=12), st.sampled_from(SLOTS))
def test_touch_and_match_look_the_same_in_the_mirror(turns: list[Turn], slot: Slot) -> None:
    position = SOLVED.after(turns)
    mirrored = position.carried(MIRROR_LEFT_RIGHT)
    other = {Slot.FR: Slot.FL, Slot.FL: Slot.FR, Slot.BL: Slot.BR, Slot.BR: Slot.BL}[slot]
    here, there = pair_locations(position, slot), pair_locations(mirrored, other)
    assert touch(*here) == touch(*there)
    assert match(slot, *here) == match(other, *there)


def test_the_solved_cube_is_done() -> None:
    assert first_step_not_done(SOLVED, ALL_KEPT) is Step.DONE


def test_taking_the_pair_out_leaves_it_joined_on_top() -> None:
    position = SOLVED.after((R, U, RP))
    assert first_step_not_done(position, ALL_KEPT) is Step.INSERT
    assert all(DONE_WHEN[step](position, ALL_KEPT) for step in (Step.RAISE, Step.PART, Step.JOIN))


def test_a_joined_pair_on_top_of_a_lifted_slot_has_done_join_but_not_raise() -> None:
    position = SOLVED.after((R, U))
    assert joined(position, ALL_KEPT)
    assert not raised(position, ALL_KEPT)
    assert not parted(position, ALL_KEPT)


@pytest.mark.parametrize(
    ("turns", "step"),
    [
        ((R, UP, RP, FP, U, F), Step.JOIN),
        ((FP, U, F, U2, R, U, RP), Step.PART),
        ((R, U, RP, UP, R, U, RP), Step.RAISE),
        ((R, UP, RP, U, FP, U, F), Step.RAISE),
    ],
)
def test_settled_positions_are_at_their_first_step_not_done(turns: tuple[Turn, ...], step: Step) -> None:
    position = SOLVED.after(turns)
    assert ALL_KEPT.settled(position)
    assert first_step_not_done(position, ALL_KEPT) is step


@given(st.lists(st.sampled_from(TURNS), max_size=12), st.sampled_from(SLOTS))
def test_part_implies_raise_and_a_settled_join_implies_part(turns: list[Turn], slot: Slot) -> None:
    position = SOLVED.after(turns)
    task = Task.at(position, slot)
    if parted(position, task):
        assert raised(position, task)
    if joined(position, task) and task.settled(position):
        assert parted(position, task)


def test_steps_come_in_the_order_in_which_they_are_taught() -> None:
    assert TURNING_STEPS == (Step.RAISE, Step.PART, Step.JOIN, Step.INSERT)
    assert [step.value for step in Step] == ["find", "raise", "part", "join", "insert", "done"]


def test_tables_cannot_be_written_to() -> None:
    with pytest.raises(ValueError, match="read-only"):
        TOUCH[0, 0] = True
    assert TOUCH.dtype == np.bool_


# ------------------------------------------------------------------------------------ ready


def on_top_places() -> list[Position]:
    """The 96 settled positions with both pieces of front right on top: 12 by 8 locations."""
    return [position for position, task in placements(FR) if raised(position, task)]


def test_ready_is_what_the_plain_search_finds_however_the_top_is_turned() -> None:
    positions = on_top_places()
    assert len(positions) == 12 * 8
    for keep in (ALL_KEPT.keep, frozenset({Slot.FL, Slot.BR}), frozenset({Slot.BL})):
        task = Task(FR, keep)
        plain = plain_routes(task)
        for position in positions:
            place = position.corners[FR.corner], position.edges[FR.edge]
            assert ready(position, task) == plain.ready(place), (position, task)
            assert ready(position, task) == ready(position.turned(U), task)


def test_two_that_touch_the_wrong_way_round_are_not_ready() -> None:
    for position in on_top_places():
        place = pair_locations(position, FR)
        if touch(*place):
            assert ready(position, ALL_KEPT) == match(FR, *place) == joined(position, ALL_KEPT)


def test_two_that_are_apart_but_would_meet_the_wrong_way_round_are_not_ready() -> None:
    """There are such among those that do not touch: with them Part is the step under way."""
    apart = [position for position in on_top_places() if not touch(*pair_locations(position, FR))]
    assert {ready(position, ALL_KEPT) for position in apart} == {True, False}
    for position in apart:
        step = Step.JOIN if ready(position, ALL_KEPT) else Step.PART
        assert first_step_not_done(position, ALL_KEPT) is step
