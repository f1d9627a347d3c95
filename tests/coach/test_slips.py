"""Each slip where it happens, and a counter-example where something like it is no slip."""

from __future__ import annotations

import pytest

from tests.coach.table import COLOURS, Table
from tutor.coach.change import Change
from tutor.coach.feedback import feedback
from tutor.coach.slips import PREDICATES, Made, Slip, SlipKind, slips
from tutor.cube.notation import parse_turns
from tutor.cube.position import Slot
from tutor.method.continuations import Verdict

NO_SLOT: frozenset[Slot] = frozenset()


def made(table: Table, setup: str, turn: str, keep: frozenset[Slot] | None = None) -> Made:
    """A turn made after a setup from solved, for the pair of the front-right slot."""
    start = table.at(setup, keep=keep)
    return Made(start, Change(start.position, start.task, parse_turns(turn)[0], COLOURS))


def found(table: Table, kind: SlipKind, setup: str, turn: str) -> Slip | None:
    return PREDICATES[kind](made(table, setup, turn))


@pytest.mark.parametrize(
    ("kind", "setup", "turn"),
    [
        (SlipKind.WRONG_WAY, "F' U F", "F"),
        (SlipKind.WRONG_WAY, "F' U F", "F2"),
        (SlipKind.LEFT_LIFTED, "F' U F B2", "D"),
        (SlipKind.TOO_EARLY, "F' U F U", "F'"),
        (SlipKind.BOTH_LIFTED, "F' U F U' F' U2 F", "F"),
        (SlipKind.WRONG_JOIN, "F' L' U2 L F", "R"),
        (SlipKind.PUT_OUT, "F' U F", "D"),
    ],
)
def test_a_slip_is_recognised(table: Table, kind: SlipKind, setup: str, turn: str) -> None:
    slip = found(table, kind, setup, turn)
    assert slip is not None
    assert slip.kind is kind
    assert slip.phrase.text


@pytest.mark.parametrize(
    ("kind", "setup", "turn", "reason"),
    [
        (SlipKind.WRONG_WAY, "F' U F", "D", "no turn of this layer is best"),
        (SlipKind.WRONG_WAY, "F' U F", "F'", "the turn is the best one"),
        (SlipKind.LEFT_LIFTED, "F' U F", "D", "no layer was out of place"),
        (SlipKind.LEFT_LIFTED, "F' U F B2", "B2", "it is set back"),
        (SlipKind.TOO_EARLY, "F' U F", "F'", "the lift is due"),
        (SlipKind.TOO_EARLY, "F' U F U", "D", "it does not lift the slot"),
        (SlipKind.BOTH_LIFTED, "R U R' U'", "R", "the pieces match"),
        (SlipKind.BOTH_LIFTED, "F' U F U' F' U2 F", "D", "neither piece moves"),
        (SlipKind.WRONG_JOIN, "F' U F", "F'", "they match when they meet"),
        (SlipKind.WRONG_JOIN, "F' U F U' F' U2 F", "D", "they touched before"),
        (SlipKind.PUT_OUT, "F' U F", "F'", "the pair's own slot has to be lifted"),
        (SlipKind.PUT_OUT, "F' U F", "U", "nothing is put out"),
    ],
)
def test_what_only_looks_like_a_slip_is_none(
    table: Table, kind: SlipKind, setup: str, turn: str, reason: str
) -> None:
    assert found(table, kind, setup, turn) is None, reason


def test_there_are_six_slips_and_each_has_a_predicate() -> None:
    assert len(SlipKind) == 6
    assert set(PREDICATES) == set(SlipKind)


def test_with_no_pair_kept_a_slip_still_tells_what_happens_to_the_cross(table: Table) -> None:
    slip = PREDICATES[SlipKind.PUT_OUT](made(table, "F' U F", "D", keep=NO_SLOT))
    assert slip is not None
    assert slip.phrase.text == "D takes out the cross, which was already solved."


def test_the_wrong_way_is_told_before_the_pieces_carried_together(table: Table) -> None:
    kinds = [slip.kind for slip in slips(made(table, "F' U F U' F' U2 F", "F"))]
    assert kinds.index(SlipKind.WRONG_WAY) < kinds.index(SlipKind.BOTH_LIFTED)


def test_a_replay_begins_on_a_shortest_way_or_repeats_the_turn(table: Table) -> None:
    for setup, turn in (("F' U F", "F"), ("F' U F U", "F'"), ("F' U F B2", "D"), ("F' U F", "D")):
        attempt = made(table, setup, turn)
        for slip in slips(attempt):
            if not slip.replay:
                continue
            assert slip.marked is not None
            assert slip.replay[0] in (attempt.turn, *attempt.best)


def test_an_acceptable_turn_is_never_called_a_slip_of_the_way(table: Table) -> None:
    start = table.at("R U R' U2 R U R'")
    for entry in start.continuations:
        if entry.verdict is Verdict.ACCEPTABLE:
            remark = feedback(start, entry.turn, COLOURS)
            assert remark.slip is None
            assert "It works" in remark.text
