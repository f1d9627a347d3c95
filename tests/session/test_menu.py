"""What is seldom wanted of the bar lies on a small sheet under More."""

from __future__ import annotations

import pytest

from tests.session.pilot import Pilot, Reading
from tutor.session.commands import Act
from tutor.session.state import Sheet
from tutor.ui.view import Chevron


def labels(pilot: Pilot) -> list[str]:
    return [button.label for button in pilot.view.bar]


def test_the_bar_leads_home_and_to_three_sheets(pilot: Pilot) -> None:
    pilot.free_play()
    assert labels(pilot) == ["Home", "Words", "Keys", "More"]
    assert [button.chevron for button in pilot.view.bar] == [
        Chevron.BACK, Chevron.NONE, Chevron.NONE, Chevron.MENU,
    ]  # fmt: skip
    pilot.press("act:HOME")
    assert labels(pilot) == ["Words", "Keys", "More"]


def test_more_offers_the_rest_and_goes_once_something_was_chosen(pilot: Pilot) -> None:
    pilot.free_play()
    pilot.key("f10")
    offered = [button.label for button in Reading(pilot.view).buttons if button in pilot.view.overlay]
    assert offered == ["Light / dark", "Read aloud", "Settings", "Save picture", "Save clip", "Close"]
    before = pilot.view.look.theme
    pilot.press(Reading(pilot.view).button("Light / dark").action)
    assert pilot.view.look.theme != before
    assert not pilot.view.overlay
    pilot.press(Act.MENU)
    pilot.press(Reading(pilot.view).button("Settings").action)
    assert (pilot.view.screen, pilot.view.overlay) == ("settings", ())


@pytest.mark.parametrize("key", ["f10", "escape"])
def test_a_key_puts_more_away(pilot: Pilot, key: str) -> None:
    pilot.free_play()
    pilot.press(Act.MENU)
    assert pilot.session.sheet is Sheet.MENU
    pilot.key(key)
    assert not pilot.session.covered
    assert pilot.view.screen == "free play"


def test_with_large_text_words_and_keys_go_under_more(pilot: Pilot) -> None:
    pilot.free_play()
    while pilot.view.look.text_scale < 1.5:
        assert "Words" in labels(pilot)
        pilot.key("f3")
    assert labels(pilot) == ["Home", "More"]
    pilot.press(Act.MENU)
    pilot.press(Reading(pilot.view).button("Words").action)
    assert pilot.session.sheet is Sheet.WORDS
