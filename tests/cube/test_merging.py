"""Neighbouring moves of one layer made into one."""

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from tutor.cube.faces import TURNS, Turn, inverse
from tutor.cube.merging import merged
from tutor.cube.notation import parse_moves
from tutor.cube.position import SOLVED

sequences = st.lists(st.sampled_from(TURNS), max_size=30).map(tuple)


@given(sequences)
def test_merging_changes_nothing_but_the_count(turns: tuple[Turn, ...]) -> None:
    found = merged(turns)
    assert SOLVED.after(found) == SOLVED.after(turns)
    assert all(first.face is not second.face for first, second in pairwise(found))
    assert merged(found) == found


@given(sequences)
def test_a_sequence_and_its_inverse_merge_to_nothing(turns: tuple[Turn, ...]) -> None:
    assert merged(turns + inverse(turns)) == ()


def test_merging_runs_on_when_turns_cancel() -> None:
    assert merged([Turn.R, Turn.U, Turn.U_PRIME, Turn.R]) == (Turn.R2,)
    assert merged([Turn.U, Turn.U2]) == (Turn.U_PRIME,)


def test_merging_leaves_turns_of_opposite_faces_in_their_order() -> None:
    assert merged([Turn.U, Turn.D, Turn.U]) == (Turn.U, Turn.D, Turn.U)


def test_wide_turns_merge_with_wide_turns_and_rotations_with_nothing() -> None:
    assert merged(parse_moves("R Rw Rw R x x")) == tuple(parse_moves("R Rw2 R x x"))
