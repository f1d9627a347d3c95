"""Comfort: what is easy on the hands comes first. All that is expected here is common practice."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tutor.cube.faces import TURNS, Turn
from tutor.cube.notation import parse_turns
from tutor.method.ergonomics import Reason, by_comfort, comfort


def cost(text: str) -> float:
    return comfort(parse_turns(text)).cost


@pytest.mark.parametrize(
    ("easier", "harder"),
    [
        ("R U R'", "B U B'"),
        ("R U R'", "F' U F"),
        ("R U R'", "R U2 R'"),
        ("R U R'", "R D R'"),
        ("R U R' U'", "R U B U'"),
        ("R U R' U R U' R'", "R U R' U F' U F"),
        ("R U R'", "R U R"),
    ],
)
def test_the_easier_of_two_equally_long_sequences_costs_less(easier: str, harder: str) -> None:
    assert cost(easier) < cost(harder)


def test_taking_hold_anew_is_the_costliest_change() -> None:
    assert comfort(parse_turns("R U R' F' U F")).reasons == ((Reason.HOLD, 1),)
    assert cost("R U R' F' U F") > cost("R U R' L' U L")


def test_a_half_turn_of_the_back_has_two_reasons() -> None:
    assert comfort(parse_turns("B2")).reasons == ((Reason.BACK, 1), (Reason.HALF, 1))


def test_a_wrist_turned_as_far_as_it_goes_must_take_hold_anew() -> None:
    assert comfort(parse_turns("R U R")).reasons == ((Reason.HOLD, 1),)
    assert comfort(parse_turns("R U R' U R U R'")).reasons == ()


@given(st.lists(st.lists(st.sampled_from(TURNS), max_size=5).map(tuple), max_size=8))
def test_ranking_keeps_all_and_is_the_same_in_whatever_order_they_come(
    sequences: list[tuple[Turn, ...]],
) -> None:
    ranked = by_comfort(sequences)
    assert sorted(ranked) == sorted(sequences)
    assert ranked == by_comfort(reversed(sequences))
    costs = [comfort(turns).cost for turns in ranked]
    assert costs == sorted(costs)


@given(st.lists(st.sampled_from(TURNS), max_size=6), st.sampled_from(TURNS))
def test_another_turn_never_makes_it_easier(turns: list[Turn], turn: Turn) -> None:
    assert comfort([*turns, turn]).cost > comfort(turns).cost
