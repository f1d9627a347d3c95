"""From what is shown back to one's own cube, and what the card says meanwhile."""

from __future__ import annotations

import pytest

from tests.session.pilot import Pilot, Reading
from tutor.session.commands import Act


def notes(pilot: Pilot) -> list[str]:
    return [note.title for note in Reading(pilot.view).verdicts]


def way_back(pilot: Pilot) -> list[bool]:
    """Of the button that leads back, whether it is the main one; nothing where there is none."""
    return [button.primary for button in Reading(pilot.view).buttons if button.action is Act.CLOSE]


@pytest.fixture
def detoured(pilot: Pilot) -> Pilot:
    """After a turn that breaks the cross."""
    pilot.free_play("R U R'")
    pilot.settle()
    pilot.key("f")
    pilot.settle()
    return pilot


def test_while_a_way_is_shown_nothing_is_said_of_turns_that_were_not_made_on_it(detoured: Pilot) -> None:
    assert detoured.session.attempt is not None
    history, said = detoured.session.attempt.history, notes(detoured)
    assert said
    assert way_back(detoured) == []
    detoured.key("a")
    detoured.settle()
    assert notes(detoured) == []
    assert way_back(detoured) == [False]
    # It plays by itself.
    detoured.wait(60.0)
    assert way_back(detoured) == [True]
    detoured.key("enter")
    detoured.settle()
    assert detoured.session.demonstration is None
    assert detoured.session.attempt.history == history
    assert notes(detoured) == said


def test_what_is_out_comes_back_before_any_step(detoured: Pilot) -> None:
    (on,) = (button for button in Reading(detoured.view).buttons if button.action is Act.GO_ON_HERE)
    assert on.detail.endswith(" to go. Next: put what is out back in place")
