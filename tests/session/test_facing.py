"""The key that turns the whole cube so that the slot in question faces the learner."""

from __future__ import annotations

import pytest

from tests.session.pilot import Pilot
from tutor.coach.guidance import Help
from tutor.cube.position import Slot
from tutor.screens.practice.commands import TryCase


@pytest.mark.parametrize(("slot", "rotation"), [(Slot.FL, "y'"), (Slot.BL, "y2"), (Slot.BR, "y")])
def test_one_key_brings_the_slot_to_the_front_right_and_the_same_key_takes_it_back(
    pilot: Pilot, slot: Slot, rotation: str
) -> None:
    # WCA 12a4: y turns the whole cube as U turns, so what is at the back right comes to the front right.
    pilot.press(TryCase("corner-right-edge-back-front-up", slot, help=Help.WITH_HINTS))
    pilot.settle()
    before = pilot.session.attempt
    assert before is not None
    pilot.key("o")
    pilot.settle()
    after = pilot.session.attempt
    assert after is not None
    bearing = after.bearing()
    assert bearing is not None
    assert bearing.task.slot is Slot.FR
    assert after.cube.state == before.cube.state
    assert (after.turns_made, after.history.notation) == (0, rotation)
    assert pilot.moving
    pilot.key("o")
    pilot.settle()
    back = pilot.session.attempt
    assert back is not None
    assert back.cube == before.cube


def test_a_slot_that_faces_you_stays_and_that_is_said(pilot: Pilot) -> None:
    pilot.press(TryCase("corner-right-edge-back-front-up", help=Help.WITH_HINTS))
    pilot.settle()
    pilot.key("o")
    assert pilot.view.notice == "The slot faces you already."
