from __future__ import annotations

from itertools import product

import pytest

from tests.coach.table import COLOURS, Table
from tutor.coach.claims_of_ways import Costs
from tutor.coach.feedback import feedback
from tutor.cube.faces import TURNS, Turn
from tutor.cube.notation import parse_turns
from tutor.cube.position import SLOTS, Slot
from tutor.method.cases import ALIGNMENTS, CASES
from tutor.method.continuations import Verdict
from tutor.method.hand_ways import LIFTS
from tutor.method.steps import Step
from tutor.solver.task import Task


def test_the_made_pair_is_told_all_the_way_home(table: Table) -> None:
    said = []
    start = table.at("R U R'")
    for turn in parse_turns("R U' R'"):
        remark = feedback(start, turn, COLOURS)
        assert remark.title == "Optimal"
        said.append(remark.text)
        start = table.answer(start.position.turned(turn), start.task)
    assert "lifted" in said[0]
    assert "match" in said[1] or "joined" in said[1]
    assert "lifted slot" in said[1]
    assert "You need one more turn." in said[1]
    assert "the white-green-orange corner" in said[2]
    assert "front-right slot" in said[2]
    assert "You need" not in said[2]


def test_a_detour_names_its_price(table: Table) -> None:
    remark = feedback(table.at("R U R'"), Turn.R2, COLOURS)
    assert remark.verdict is Verdict.DETOUR
    assert remark.text.endswith("That costs one extra turn.")
    assert Costs(1) in remark.claims


def test_nobody_is_told_to_undo_a_turn_that_brings_the_end_nearer_by_hand(table: Table) -> None:
    start = table.at("D R", keep=frozenset())
    assert start.by_hand == 9
    for turn in TURNS:
        own, remark = start.continuations[turn], feedback(start, turn, COLOURS)
        assert own.by_hand is not None
        # Undone, it was one turn for nothing: so that helps only where 10 are to go.
        assert ("Turn it back" in remark.text) <= (own.by_hand == 10)
        if own.verdict is Verdict.DETOUR:
            priced = "costs" in remark.text or "way one turn shorter" in remark.text
            assert priced is (own.lost > 0), remark.text
    told = feedback(start, Turn.D_PRIME, COLOURS).text
    assert told.endswith("But there was a shorter way with far layers. By hand you need seven more turns.")


def test_an_acceptable_turn_is_told_neutrally(table: Table) -> None:
    told = []
    for setup in ("R U R' U2", "F' U F U'", "R U2 R'"):
        start = table.at(setup)
        for turn in start.turns(Verdict.ACCEPTABLE):
            remark = feedback(start, turn, COLOURS)
            told.append(remark.text)
            assert "costs" not in remark.text
            assert "more than the shortest" in remark.text
    assert told


def test_the_step_that_a_turn_ends_is_named_only_when_it_was_under_way(table: Table) -> None:
    start = table.at("R U' R'")
    assert "Join is done" in feedback(start, Turn.R, COLOURS, step=Step.JOIN).text
    assert "Join is done" not in feedback(start, Turn.R, COLOURS, step=Step.PART).text


def test_with_the_pair_home_there_is_nothing_to_judge(table: Table) -> None:
    remark = feedback(table.at(""), Turn.R, COLOURS)
    assert remark.verdict is None
    assert remark.text == "The pair was solved already, so you did not need to turn."


def test_a_pair_behind_the_cube_is_told_with_its_mirror(table: Table) -> None:
    start = table.at("L U L'", Slot.BL)
    for turn in start.lines[0]:
        remark = feedback(start, turn, COLOURS)
        start = table.answer(start.position.turned(turn), start.task)
    assert "(in the left mirror)" in remark.text


def test_colours_are_those_of_the_cube_as_held(table: Table) -> None:
    other = ("white", "yellow", "green", "blue", "orange", "red")
    start = table.at("R U' R'")
    assert "yellow points" in " ".join(feedback(start, turn, other).text for turn in TURNS)
    home = feedback(table.at("R"), Turn.R_PRIME, other)
    assert "the yellow-orange-blue corner and the orange-blue edge" in home.text


def test_every_optimal_turn_is_praised_for_something_that_changed(table: Table) -> None:
    start = table.at("R U2 R' U R U R'")
    for turn in start.turns(Verdict.OPTIMAL):
        text = feedback(start, turn, COLOURS).text
        assert len(text.split(". ")) >= 2


@pytest.mark.parametrize(
    ("top", "says"),
    [
        ("U", "F' lifts the front-right slot, but now no turn of the top slides the pair into it."),
        ("", "F' lifts the front-right slot, but it takes the pair along."),
        ("U'", "The corner and the edge matched, and F' separates them."),
    ],
)
def test_a_joined_pair_is_told_why_the_other_layer_does_not_lift_its_slot(
    table: Table, top: str, says: str
) -> None:
    remark = feedback(table.at(f"R U R' {top}"), Turn.F_PRIME, COLOURS)
    assert remark.text == f"{says} Turn it back. This detour costs two turns."


@pytest.mark.parametrize("free", [None, Slot.FL, Slot.BL, Slot.BR])
def test_no_lift_is_blamed_for_what_the_lifts_of_a_good_way_take_out_too(
    table: Table, free: Slot | None
) -> None:
    keep = frozenset(SLOTS) - {Slot.FR, free}
    lifts = LIFTS[Slot.FR] if free is None else LIFTS[free]
    reasons = set()
    for case, alignment in product(CASES, ALIGNMENTS):
        start = table.answer(case.position(Slot.FR, alignment), Task(Slot.FR, keep))
        for turn in lifts:
            remark = feedback(start, turn, COLOURS)
            if remark.verdict is Verdict.DETOUR:
                assert "takes out" not in remark.text
                reasons.add(remark.text.replace(turn.notation, "…"))
    # Where no slip explains it, it is said without a figure.
    assert any("slot, but that does not help here" in reason for reason in reasons)
