"""H never does nothing without a word; where help is off, the card says which key brings it."""

from __future__ import annotations

import pytest

from tests.session.held import held
from tests.session.pilot import Pilot, Reading
from tutor.lesson.scenes import Alone, Ask, Quiz, Show
from tutor.screens.free_play.state import FREE
from tutor.screens.table import SCREENS
from tutor.session.binding import Shows
from tutor.session.commands import Open


def test_in_every_room_h_gives_a_hint_or_a_word(pilot: Pilot) -> None:
    for room in SCREENS:
        if room.shows < Shows.CUBE_IN_HAND:
            continue
        pilot.press(Open(room.name))
        pilot.settle()
        pilot.key("h")
        rung = 0 if pilot.session.attempt is None else pilot.session.attempt.rung
        assert rung or pilot.session.notice, room.name


def test_where_nothing_is_turned_the_word_says_so(pilot: Pilot) -> None:
    pilot.press("open:CASE_BOOK")
    pilot.settle()
    pilot.key("h")
    assert pilot.view.notice == "A hint needs a cube in your hands, and there is none here yet."


def test_without_a_pair_the_word_says_what_comes_first(pilot: Pilot) -> None:
    pilot.press("open:FREE_PLAY")
    pilot.press("free:SCRAMBLE_ALL")
    pilot.settle()
    pilot.key("h")
    assert pilot.view.notice == "A hint is about one pair. Solve the cross and choose a pair first."


def test_a_solved_pair_needs_no_hint(pilot: Pilot) -> None:
    pilot.press("open:FREE_PLAY")
    pilot.key("h")
    assert pilot.view.notice == "The pair is solved, so you need no hint."


def test_after_the_last_hint_the_word_says_so_and_a_turn_takes_it_away(pilot: Pilot) -> None:
    pilot.free_play("R U R'")
    for _ in range(3):
        pilot.key("h")
        assert pilot.view.notice == ""
    pilot.key("h")
    assert pilot.view.notice == "This was the last hint. Make the turn that the arrow shows."
    assert FREE.of(pilot.session).rung == 3
    pilot.turn("R")
    assert pilot.view.notice == ""


def test_while_turns_are_shown_no_hint_is_given(pilot: Pilot) -> None:
    pilot.free_play("R U R'")
    pilot.key("a")
    pilot.key("h")
    assert pilot.view.notice == "Turns are being shown. Press Esc, then ask for a hint."
    assert FREE.of(pilot.session).rung == 0


@pytest.mark.parametrize("kind", [Quiz, Show])
def test_a_scene_without_turns_says_so(pupil: Pilot, kind: type[Quiz] | type[Show]) -> None:
    pupil.scene(kind)
    pupil.key("h")
    assert pupil.view.notice


def test_on_your_own_the_card_says_that_help_is_off_and_how_to_get_it(pupil: Pilot) -> None:
    pupil.scene(Alone)
    assert "Help is off. Press V to turn it on." in Reading(pupil.view).texts
    pupil.key("h")
    assert pupil.view.notice == "Help is off. Press V to turn it on."
    assert held(pupil.session.attempt).rung == 0


def test_the_key_turns_help_on(pupil: Pilot) -> None:
    pupil.scene(Alone)
    pupil.key("v")
    pupil.settle()
    assert "Help is off. Press V to turn it on." not in Reading(pupil.view).texts
    pupil.key("h")
    assert held(pupil.session.attempt).rung == 1
    assert pupil.view.notice == ""


def test_where_help_is_on_already_the_key_says_so(pupil: Pilot) -> None:
    pupil.scene(Ask)
    pupil.key("v")
    assert pupil.view.notice == "Help is on. Press H for a hint."
