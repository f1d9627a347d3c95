from __future__ import annotations

from tests.coach.table import COLOURS, Table
from tutor.coach.claims import Costs, LeadsTo, ToGo
from tutor.coach.feedback import feedback
from tutor.coach.scene import When
from tutor.cube.faces import TURNS, Turn
from tutor.cube.notation import parse_turns
from tutor.cube.position import Slot
from tutor.method.steps import Step
from tutor.solver.continuations import Verdict


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
    assert "One turn to go." in said[1]
    assert "the white-green-orange corner" in said[2]
    assert "front-right slot" in said[2]
    assert "to go" not in said[2]


def test_a_detour_names_its_price(table: Table) -> None:
    remark = feedback(table.at("R U R'"), Turn.R2, COLOURS)
    assert remark.verdict is Verdict.DETOUR
    assert "costs one extra turn: three to go now" in remark.text
    assert Costs(1) in remark.claims
    assert ToGo(When.AFTER, 3) in remark.claims


def test_an_acceptable_turn_is_told_neutrally(table: Table) -> None:
    told = []
    for setup in ("R U R' U2", "F' U F U'", "R U2 R'"):
        start = table.at(setup)
        for turn in start.turns(Verdict.ACCEPTABLE):
            remark = feedback(start, turn, COLOURS)
            told.append(remark.text)
            assert "costs" not in remark.text
            assert "longer" in remark.text
    assert told


def test_a_turn_that_moves_neither_piece_and_brings_no_nearer_says_how_it_is_taken_back(table: Table) -> None:
    start = table.at("L", Slot.FL)
    remark = feedback(start, Turn.R, COLOURS)
    assert remark.verdict is Verdict.ACCEPTABLE
    assert "no nearer: R' takes it back" in remark.text
    assert "two turns longer: two to go" in remark.text
    assert LeadsTo((Turn.R, Turn.R_PRIME), 1) in remark.claims


def test_the_step_that_a_turn_ends_is_named_only_when_it_was_under_way(table: Table) -> None:
    start = table.at("R U' R'")
    assert "Join is done" in feedback(start, Turn.R, COLOURS, step=Step.JOIN).text
    assert "Join is done" not in feedback(start, Turn.R, COLOURS, step=Step.PART).text


def test_taking_back_a_detour_is_told_as_just_that(table: Table) -> None:
    remark = feedback(table.at("R U R' D"), Turn.D_PRIME, COLOURS, previous=Turn.D)
    assert remark.text.startswith("D' takes D back, and the cross is whole again.")


def test_two_turns_that_make_one_are_mentioned_even_when_the_second_is_optimal(table: Table) -> None:
    start = table.at("R U R' D")
    remark = feedback(
        table.answer(start.position.turned(Turn.D), start.task), Turn.D2, COLOURS, previous=Turn.D
    )
    assert remark.verdict is Verdict.OPTIMAL
    assert "D and then D2 come to D'" in remark.text


def test_with_the_pair_home_there_is_nothing_to_judge(table: Table) -> None:
    remark = feedback(table.at(""), Turn.R, COLOURS)
    assert remark.verdict is None
    assert "home already" in remark.text


def test_a_pair_behind_the_cube_is_told_with_its_mirror(table: Table) -> None:
    start = table.at("L U L'", Slot.BL)
    for turn in start.lines[0]:
        remark = feedback(start, turn, COLOURS)
        start = table.answer(start.position.turned(turn), start.task)
    assert "(in the left mirror)" in remark.text


def test_colours_are_those_of_the_cube_as_held(table: Table) -> None:
    other = ("white", "yellow", "green", "blue", "orange", "red")
    start = table.at("R U' R'")
    assert "its yellow" in " ".join(feedback(start, turn, other).text for turn in TURNS)
    home = feedback(table.at("R"), Turn.R_PRIME, other)
    assert "the yellow-orange-blue corner and the orange-blue edge" in home.text


def test_every_optimal_turn_is_praised_for_something_that_changed(table: Table) -> None:
    start = table.at("R U2 R' U R U R'")
    for turn in start.turns(Verdict.OPTIMAL):
        text = feedback(start, turn, COLOURS).text
        assert len(text.split(". ")) >= 2
