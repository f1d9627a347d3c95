"""Lifts, lowers, blocks and turn-aways, and the sequences that are made of them."""

from __future__ import annotations

from itertools import pairwise

import pytest

from tests.method.plain_routes import counted, moved, named, on_top
from tests.method.plain_routes import hand_sequences as plain_sequences
from tests.method.plain_routes import lifts as plain_lifts
from tutor.cube.faces import TURNS, Face, inverse
from tutor.cube.position import SLOTS, SOLVED, Slot
from tutor.method.hand_ways import (
    LIFTS,
    LONGEST,
    blocks,
    hand_sequences,
    is_lift,
    joined_on,
    open_slots,
    turn_aways,
)
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
    assert joined_on(named("R2"), named("R'")) == named("R")
    assert joined_on(named("R"), named("L")) == named("R L")


@pytest.mark.parametrize("keep", [0b1110, 0b0110])
def test_the_sequences_are_those_of_the_plain_search(keep: int) -> None:
    task = Task(Slot.FR, frozenset(SLOTS) - set(open_slots(keep)))
    plain = {(counted(hand.turns), hand.away) for hand in plain_sequences(task, LONGEST)}
    table = hand_sequences(keep)
    made = [tuple(TURNS[turn] for turn in table.tuple_of(number)) for number in range(len(table.length))]
    assert {(turns, bool(away)) for turns, away in zip(made, table.away, strict=True)} == plain
    assert len(made) == len(plain)
    assert not any(a.face is b.face for turns in made for a, b in pairwise(turns))


def test_blocks_raise_a_pair_in_three_turns_from_one_slot_and_in_six_from_two() -> None:
    """Check value: for each of the 288 placements of a pair in slots, or one of it, with the cross home
    (independent search). Turns are as the hands make them; two blocks may meet on one face and merge.
    """
    low = [(corner, edge) for corner in range(24) for edge in range(16) if corner >= 12 or edge >= 8]
    assert len(low) == 288
    made = [hand.turns for hand in plain_sequences(Task(Slot.FR), 6) if not hand.away]
    for place in low:
        two_slots = place[0] >= 12 and place[1] >= 8 and place[0] // 3 != place[1] // 2
        fewest = min(len(turns) for turns in made if on_top(moved(place, turns)))
        assert fewest == (6 if two_slots else 3)
