"""Each screen can be taken out of the house, and the others go on without it."""

from __future__ import annotations

import pytest

from tests.session.pilot import Pilot
from tutor.screens.table import SCREENS
from tutor.session.beginning import new_session
from tutor.session.commands import Open
from tutor.session.house import House
from tutor.session.settings import Settings
from tutor.ui.focus import pressable
from tutor.ui.inputs import Activated, KeyPressed

OTHERS = [room.name for room in SCREENS if room is not SCREENS.first]


@pytest.mark.parametrize("missing", OTHERS)
def test_without_a_room_nothing_leads_to_it_and_all_else_works(pilot: Pilot, missing: str) -> None:
    house = House(room for room in SCREENS if room.name != missing)
    beginning = new_session(house, Settings(), ())
    for room in house:
        pilot.application.session = beginning
        pilot.give(Activated(Open(room.name)))
        assert pilot.session.screen == room.name
        for action in pressable(pilot.view):
            assert house.leads_somewhere(action)
            pilot.application.session = beginning
            pilot.give(Activated(Open(room.name)), Activated(action), KeyPressed("escape"))
            assert not pilot.session.failure, (room.name, action)
            assert pilot.session.screen in house


@pytest.mark.parametrize("missing", OTHERS)
def test_a_room_that_is_not_there_cannot_be_entered(pilot: Pilot, missing: str) -> None:
    house = House(room for room in SCREENS if room.name != missing)
    pilot.application.session = new_session(house, Settings(), ())
    pilot.application.give(Open(missing))
    assert pilot.session.screen == house.first.name


def test_two_rooms_may_not_have_one_name() -> None:
    with pytest.raises(ValueError, match="one name"):
        House([*SCREENS, SCREENS.first])
