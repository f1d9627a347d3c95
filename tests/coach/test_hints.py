from __future__ import annotations

import pytest

from tests.coach.table import COLOURS, Table
from tutor.coach.catalogue import ENGLISH
from tutor.coach.hints import Rung, hint, layer_cubies
from tutor.coach.sight import places_of_slot
from tutor.cube.faces import TURNS, Face, Turn
from tutor.cube.geometry import EDGE_FACES, EDGE_MOVE, cubie_number
from tutor.cube.position import SLOTS, Slot
from tutor.method.cases import CASES, Family
from tutor.method.terms import Step
from tutor.solver.task import Task


def test_the_first_rung_lights_the_pieces_and_draws_no_arrow(table: Table) -> None:
    given = hint(table.at("R U' R'"), COLOURS, 1)
    assert given.rung is Rung.LOOK
    assert given.turn is None
    # After R U' R' the corner is above its slot and the edge at the back of the top.
    assert given.glowing == {cubie_number((1, 1, 1)), cubie_number((0, 1, -1))}
    assert given.framed == places_of_slot(Slot.FR) == {cubie_number((1, -1, 1)), cubie_number((1, 0, 1))}


def test_the_second_rung_tells_the_idea_and_not_the_turn(table: Table) -> None:
    given = hint(table.at("R U' R'"), COLOURS, 2)
    assert given.turn is None
    assert "R" not in given.text.split()
    assert "together" in given.text


def test_the_last_rung_is_the_turn_with_its_arrow(table: Table) -> None:
    given = hint(table.at("R U R'"), COLOURS, 3)
    assert given.turn is Turn.R
    assert given.text == "Make R: turn the right layer so that its front goes up."


def test_a_hint_names_the_step_that_is_kept(table: Table) -> None:
    # A three-turn join: R joins the two, so that Join is kept while one is led through it.
    start = table.at("R U' R'")
    assert hint(start, COLOURS, 2).text.startswith("Join: ")
    assert hint(start, COLOURS, 2, Step.INSERT).text.startswith("Insert: ")


def test_there_is_a_hint_on_every_rung_after_any_wrong_turn(table: Table) -> None:
    for turn in TURNS:
        start = table.at(f"R U R' {turn.notation}")
        for rung in Rung:
            assert hint(start, COLOURS, rung).text


def test_a_layer_out_of_place_lights_up_whole(table: Table) -> None:
    start = table.at("F' U F B2")
    assert hint(start, COLOURS, 1).glowing >= layer_cubies(Face.B)
    assert len(layer_cubies(Face.B)) == 9


def test_a_low_piece_lights_up_alone(table: Table) -> None:
    case = next(case for case in CASES if case.family is Family.EDGE_ON_TOP)
    start = table.answer(case.position(), Task(Slot.FR, frozenset(SLOTS) - {Slot.FR}))
    assert hint(start, COLOURS, 1).glowing == {cubie_number((1, -1, 1))}


def test_with_the_pair_home_no_turn_is_shown(table: Table) -> None:
    for rung in Rung:
        given = hint(table.at(""), COLOURS, rung)
        assert given.turn is None
        assert "solved" in given.text


def test_there_is_no_fourth_rung(table: Table) -> None:
    with pytest.raises(ValueError, match="4"):
        hint(table.at("R U R'"), COLOURS, 4)


@pytest.mark.parametrize("turn", [turn for turn in TURNS if turn.quarters != 2])
def test_the_words_for_a_turn_go_the_way_it_goes(turn: Turn) -> None:
    """WCA 12a1: a turn is clockwise as seen from outside; the table of moves is derived from that."""
    words = ENGLISH.say(f"way.{turn.notation}")
    side, way = words.split(" so that its ")[1].split(" goes ")
    seen_from = {"front": Face.F, "top": Face.U}[side]
    towards = {"left": Face.L, "right": Face.R, "up": Face.U, "down": Face.D}[way]
    start = next(k for k, faces in enumerate(EDGE_FACES) if set(faces) == {turn.face, seen_from})
    reached = EDGE_FACES[EDGE_MOVE[turn, 2 * start] // 2]
    assert set(reached) == {turn.face, towards}
