"""What is seen while something is shown, and what lies over it."""

from __future__ import annotations

import pytest

from tests.session.pilot import Pilot, Reading, stage_of
from tutor.lesson.scenes import Ask, Show, Tell
from tutor.session.commands import Failed, Open
from tutor.ui.view import View


@pytest.mark.parametrize("key", ["f1", "f8"])
def test_a_sheet_lies_over_what_is_being_shown(pupil: Pilot, key: str) -> None:
    pupil.scene(Show)
    pupil.key(key)
    assert pupil.view.overlay
    pupil.key("escape")
    assert not pupil.view.overlay


def test_a_failure_is_told_over_what_is_being_shown(pupil: Pilot) -> None:
    pupil.scene(Show)
    pupil.application.give(Failed("no luck"))
    assert any("no luck" in text for text in Reading(pupil.view).texts)


def test_what_a_scene_points_out_lights_up_as_long_as_it_is_where_it_was(pupil: Pilot) -> None:
    scene = pupil.scene(Tell)
    assert scene.highlight
    assert stage_of(pupil).glowing == scene.highlight
    pupil.scene(Ask)
    assert not stage_of(pupil).glowing


def test_a_screen_has_one_name_for_its_title_and_for_the_ways_to_it(views: dict[str, View]) -> None:
    home = views["home"]
    buttons = (*Reading(home).buttons, *home.more)
    ways = {button.action.screen: button.label for button in buttons if isinstance(button.action, Open)}
    seen = set()
    # Lessons, the board and what can be printed have titles of their own.
    for name, view in views.items():
        if view.screen in ("free play", "practice", "solve", "case book", "settings"):
            assert view.title == ways[view.screen], name
            seen.add(view.title)
    assert seen == {"Free play", "Practice", "Whole solves", "Case book", "Settings"}
