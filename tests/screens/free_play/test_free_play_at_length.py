"""Long and odd ways through free play: set-ups, long histories, many moves at once."""

from __future__ import annotations

import pytest

from tests.session.pilot import Pilot, Reading, bearing_of, rail_of
from tutor.cube.notation import parse_moves
from tutor.cube.position import Slot
from tutor.screens.free_play.state import FREE
from tutor.session.answers import REMEMBERED
from tutor.session.commands import Make
from tutor.solver.search import Solver
from tutor.ui.view import Mark


def test_setting_a_case_up_from_home_is_not_judged_and_then_the_case_begins(pilot: Pilot) -> None:
    pilot.press("open:FREE_PLAY")
    pilot.turn("R U")
    assert Reading(pilot.view).verdicts == []
    # There is no task while a case is set up, and so no rail.
    assert pilot.view.rail is None
    pilot.turn("R'")
    assert Reading(pilot.view).verdicts == []
    assert FREE.of(pilot.session).since == 3
    pilot.turn("R")
    (note,) = Reading(pilot.view).verdicts
    assert note.mark is Mark.OPTIMAL


def test_every_move_of_the_history_can_be_gone_back_to(pilot: Pilot) -> None:
    pilot.free_play("R U R'")
    pilot.turn("R U' R'")
    tiles = rail_of(pilot).own
    assert [tile.label for tile in tiles] == ["R", "U", "R'", "R", "U'", "R'"]
    assert [tile.mark for tile in tiles] == [Mark.NONE] * 3 + [Mark.OPTIMAL] * 3
    pilot.press(tiles[1].action)
    assert FREE.of(pilot.session).history.cursor == 2
    assert rail_of(pilot).playhead == 2.0


def test_a_very_long_attempt_asks_for_no_more_than_can_be_remembered(solver: Solver) -> None:
    pilot = Pilot(solver, ahead=True)
    pilot.free_play("R U R'")
    for _ in range(150):
        pilot.key("u")
        pilot.key("d")
    pilot.settle()
    assert len(pilot.session.answers.asked) == 0
    assert len(pilot.session.answers.known) <= REMEMBERED
    assert not pilot.application.poll()


def test_in_the_midst_of_a_case_another_slot_is_not_taken_on_and_nothing_is_lost(pilot: Pilot) -> None:
    pilot.free_play("R U R'")
    pilot.turn("R")
    for key in ("bracket right", "bracket left"):
        pilot.key(key)
        assert bearing_of(pilot).task.slot is Slot.FR
        assert "cross" in pilot.view.notice
    pilot.press("slot:BL")
    assert bearing_of(pilot).task.slot is Slot.FR
    pilot.turn("R'")
    pilot.press("slot:BL")
    assert bearing_of(pilot).task.slot is Slot.BL
    assert pilot.view.notice == ""


@pytest.mark.parametrize("setup", ["U", "R U R'", "F2"])
@pytest.mark.parametrize("end", ["", "R", "L D2", "R U' R'"])
def test_many_moves_written_at_once_lead_where_they_lead_one_by_one(
    solver: Solver, setup: str, end: str
) -> None:
    written = "R U R' U' " * 15 + end
    together, one_by_one = Pilot(solver), Pilot(solver)
    for pilot in (together, one_by_one):
        pilot.free_play(setup)
    together.key("slash")
    together.write(written)
    together.key("enter")
    together.settle()
    for move in parse_moves(written):
        one_by_one.application.give(Make(move))
    one_by_one.settle()
    for pilot in (together, one_by_one):
        pilot.wait(5.0)
    assert FREE.of(together.session).history == FREE.of(one_by_one.session).history
    assert FREE.of(together.session).bearing() == FREE.of(one_by_one.session).bearing()
    assert together.view.stage == one_by_one.view.stage
