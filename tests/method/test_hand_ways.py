"""Lifts, lowers, blocks and turn-aways, and the sequences that are made of them."""

from __future__ import annotations

from itertools import pairwise

import pytest

from tests.method.plain_routes import hand_sequences as plain_sequences
from tests.method.plain_routes import lifts as plain_lifts
from tests.method.plain_routes import named
from tutor.cube.faces import TURNS, Face, inverse
from tutor.cube.position import SLOTS, SOLVED, Slot
from tutor.method.hand_ways import (
    LIFTS,
    LONGEST,
    blocks,
    hand_sequences,
    is_lift,
    joined_on,
    merged,
    open_slots,
    turn_aways,
)
from tutor.method.settling_sequences import NO_TURN
from tutor.solver.task import Task


@pytest.mark.parametrize(
    ("slot", "lifts"),
    # Turned by hand on a real cube, from memory: which quarters carry a slot's two places up.
    [(Slot.FR, "R F'"), (Slot.FL, "L' F"), (Slot.BL, "L B'"), (Slot.BR, "R' B")],
)
def test_each_slot_is_lifted_by_one_quarter_of_each_of_its_two_faces(slot: Slot, lifts: str) -> None:
    assert set(LIFTS[slot]) == set(named(lifts)) == set(plain_lifts(slot))
    assert {turn for turn in TURNS if is_lift(turn, slot)} == set(LIFTS[slot])


@pytest.mark.parametrize("slot", SLOTS)
def test_a_block_leaves_everything_settled_but_its_own_slot(slot: Slot) -> None:
    made = blocks((slot,))
    assert len(made) == len(set(made)) == 6
    for lift, top, lower in made:
        assert lift in LIFTS[slot]
        assert top.face is Face.U
        after = SOLVED.after((lift, top, lower))
        assert after.cross_home
        assert after.home_pairs == set(SLOTS) - {slot}


@pytest.mark.parametrize("slot", SLOTS)
def test_a_turn_away_brings_a_pair_home_that_matches_on_top(slot: Slot) -> None:
    """And nothing else of cross and pairs moves: it uses the slot's two faces, two quarters of each."""
    faces = {Face[name] for name in slot.name}
    for turns in turn_aways(slot):
        assert {turn.face for turn in turns} == faces
        assert [turn.face for turn in turns[:2]] == [turn.face for turn in turns[2:]]
        assert inverse(turns[:2]) == tuple(reversed(turns[2:]))
        before = SOLVED.after(inverse(turns))
        assert before.cross_home
        assert before.home_pairs == set(SLOTS) - {slot}


def test_the_turn_aways_of_front_right_are_the_two_defined_and_the_others_their_images() -> None:
    assert set(turn_aways(Slot.FR)) == {named("R' F R F'"), named("F R' F' R")}
    # Left and right exchanged, half a turn round, front and back exchanged: written out by hand.
    assert set(turn_aways(Slot.FL)) == {named("L F' L' F"), named("F' L F L'")}
    assert set(turn_aways(Slot.BL)) == {named("L' B L B'"), named("B L' B' L")}
    assert set(turn_aways(Slot.BR)) == {named("R B' R' B"), named("B' R B R'")}


def test_neighbours_of_one_face_merge_and_those_that_cancel_are_not_joined() -> None:
    assert joined_on((), named("R U")) == named("R U")
    assert joined_on(named("R U R'"), named("R' F")) == named("R U R2 F")
    assert joined_on(named("U"), named("U R")) == named("U2 R")
    assert joined_on(named("F' U F"), named("F' U2 F")) is None
    assert merged(*named("R L")) is None
    assert merged(*named("R2 R'")) == named("R")[0]


@pytest.mark.parametrize("keep", [0b1110, 0b0110])
def test_the_sequences_are_those_of_the_plain_search_and_merge_where_blocks_end(keep: int) -> None:
    task = Task(Slot.FR, frozenset(SLOTS) - set(open_slots(keep)))
    plain = {hand.turns for hand in plain_sequences(task, LONGEST)}
    table = hand_sequences(keep)
    made = set()
    for number in range(len(table.length)):
        turns = list(table.tuple_of(number))
        assert all(a // 3 != b // 3 for a, b in pairwise(turns))
        for at in reversed(range(LONGEST)):
            lower = int(table.seams[number, at])
            if lower != NO_TURN:
                # What merged at a seam was the same quarter twice: the other merge cancels.
                assert turns[at] % 3 == 1
                turns[at : at + 1] = [lower, lower]
        made.add(tuple(TURNS[turn] for turn in turns))
    assert made == plain
