"""Faces, turns and sequences of turns."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tutor.cube.faces import FACES, TURNS, Face, Turn, inverse
from tutor.cube.position import SOLVED

sequences = st.lists(st.sampled_from(TURNS), max_size=30).map(tuple)


def test_there_are_six_faces_and_eighteen_turns() -> None:
    assert [face.name for face in FACES] == ["U", "D", "L", "R", "F", "B"]
    assert len(TURNS) == 18
    assert {(turn.face, turn.quarters) for turn in TURNS} == {(f, q) for f in FACES for q in (1, 2, 3)}


@pytest.mark.parametrize("pair", ["UD", "LR", "FB"])
def test_opposite_faces_lie_across_the_cube(pair: str) -> None:
    first, second = Face[pair[0]], Face[pair[1]]
    assert first.opposite is second
    assert second.opposite is first


@pytest.mark.parametrize("turn", TURNS)
def test_a_turn_is_told_by_its_face_and_quarters(turn: Turn) -> None:
    assert Turn.of(turn.face, turn.quarters) is turn
    assert Turn.of(turn.face, turn.quarters - 4) is turn
    assert Turn.of(turn.face, turn.quarters + 8) is turn


@pytest.mark.parametrize("quarters", [0, 4, -4])
def test_whole_rounds_are_no_turn(quarters: int) -> None:
    with pytest.raises(ValueError, match=f"{quarters} quarters of R are no turn"):
        Turn.of(Face.R, quarters)


@pytest.mark.parametrize("turn", TURNS)
def test_the_inverse_takes_a_turn_back(turn: Turn) -> None:
    assert turn.inverse.inverse is turn
    assert SOLVED.turned(turn).turned(turn.inverse) == SOLVED


def test_notation_is_letter_then_2_or_prime() -> None:
    assert [turn.notation for turn in TURNS[9:12]] == ["R", "R2", "R'"]


@given(sequences)
def test_the_inverse_of_a_sequence_leads_back(turns: tuple[Turn, ...]) -> None:
    assert SOLVED.after(turns).after(inverse(turns)) == SOLVED
    assert inverse(inverse(turns)) == turns
