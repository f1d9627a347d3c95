"""Turns typed letter by letter and in the field: primes, small letters, choosing all, clearing.

Notation is from WCA Regulations, Article 12: a face's letter, then ' for the other way or 2 for a half turn.
"""

from __future__ import annotations

import pytest

from tests.session.held import held
from tests.session.pilot import Pilot, Reading
from tutor.coach.guidance import Help
from tutor.method.cases import CASES
from tutor.screens.free_play.state import FREE
from tutor.screens.practice.commands import TryCase
from tutor.screens.practice.state import RUN
from tutor.session.writing import capital_reading
from tutor.ui.inputs import Modifier
from tutor.ui.view import Entry, Mark

SHIFT, CONTROL = Modifier.SHIFT, Modifier.CONTROL
SAID = "Shift turns a layer the other way, so press the key without Shift for R."


def made(pilot: Pilot) -> str:
    return FREE.of(pilot.session).history.notation


@pytest.mark.parametrize(
    ("keys", "notation"),
    [
        (("r", "apostrophe"), "R'"),
        (("f", "apostrophe", "u"), "F' U"),
        (("R", "apostrophe"), "R'"),
        (("r", "2", "apostrophe"), "R2"),
        (("x", "apostrophe"), "x'"),
        (("apostrophe",), ""),
    ],
)
def test_the_stroke_after_a_letter_makes_it_the_other_way(
    pilot: Pilot, keys: tuple[str, ...], notation: str
) -> None:
    pilot.press("open:FREE_PLAY")
    pilot.give_keys(*keys)
    pilot.settle()
    assert made(pilot) == notation


def test_a_turn_made_with_the_stroke_is_one_turn_with_one_verdict(pilot: Pilot) -> None:
    pilot.free_play("R U R'")
    pilot.give_keys("f", "apostrophe")
    pilot.settle()
    assert Reading(pilot.view).verdicts[0].title.startswith("F'")
    pilot.key("backspace")
    pilot.settle()
    assert made(pilot) == "R U R'"


def test_the_first_time_shift_goes_wrong_the_card_says_what_shift_does(pilot: Pilot) -> None:
    """After R U R' the way in begins with R (its inverse is R U' R'); R' is the wrong way round."""
    pilot.free_play("R U R'")
    pilot.give_keys("R")
    pilot.settle()
    (note,) = Reading(pilot.view).verdicts
    assert note.text.endswith(SAID)


@pytest.mark.parametrize("before", [False, True])
def test_it_is_said_once_a_session(pilot: Pilot, before: bool) -> None:
    """After R U2 R' the way in begins with R as well, since R U2 R' is its own inverse."""
    if before:
        pilot.free_play("R U R'")
        pilot.give_keys("R")
        pilot.settle()
        pilot.press("free:RESET")
    pilot.free_play("R U2 R'")
    pilot.give_keys("R")
    pilot.settle()
    (note,) = Reading(pilot.view).verdicts
    assert (SAID in note.text) is not before


def test_a_prime_without_shift_is_not_answered_with_shift(pilot: Pilot) -> None:
    pilot.free_play("R U R'")
    pilot.give_keys("r", "apostrophe")
    pilot.settle()
    (note,) = Reading(pilot.view).verdicts
    assert note.mark in (Mark.MAKING, Mark.DETOUR)
    assert "Shift" not in note.text


# ------------------------------------------------------------------------------------------- the field


def field(pilot: Pilot) -> Entry:
    return next(block for block in Reading(pilot.view).blocks if isinstance(block, Entry))


def test_small_letters_are_offered_as_capitals_and_enter_takes_them(pilot: Pilot) -> None:
    pilot.press("open:FREE_PLAY")
    pilot.turn("F")
    pilot.key("slash")
    pilot.write("r u r'")
    pilot.key("enter")
    assert field(pilot).error == "Did you mean R U R'? Press Enter."
    assert made(pilot) == "F"
    pilot.key("enter")
    assert made(pilot) == "F R U R'"
    assert not pilot.session.writing.open


def test_what_is_typed_after_an_offer_takes_it_away(pilot: Pilot) -> None:
    pilot.press("open:FREE_PLAY")
    pilot.key("slash")
    pilot.write("r")
    pilot.key("enter")
    pilot.write("?")
    assert field(pilot).error == ""
    pilot.key("enter")
    assert field(pilot).error
    assert "Did you mean" not in field(pilot).error


@pytest.mark.parametrize(
    ("text", "reading"),
    [
        ("r u r'", "R U R'"),
        ("ruR'u2", "R U R' U2"),
        ("x rw y'", "x Rw y'"),
        ("R U R'", None),
        ("hello", None),
        ("", None),
    ],
)
def test_the_capital_reading(text: str, reading: str | None) -> None:
    assert capital_reading(text) == reading


def test_nothing_is_offered_that_could_not_be_taken(pilot: Pilot) -> None:
    pilot.press("open:FREE_PLAY")
    pilot.key("slash")
    pilot.write("r7")
    pilot.key("enter")
    assert "Did you mean" not in field(pilot).error
    assert field(pilot).error


@pytest.mark.parametrize("key", ["backspace", "delete"])
def test_ctrl_a_chooses_all_and_a_key_erases_it(pilot: Pilot, key: str) -> None:
    pilot.press("open:FREE_PLAY")
    pilot.key("slash")
    pilot.write("R U")
    pilot.key("a", CONTROL)
    assert field(pilot).chosen
    pilot.key(key)
    assert (field(pilot).text, field(pilot).chosen) == ("", False)


def test_what_is_typed_takes_the_place_of_what_is_chosen(pilot: Pilot) -> None:
    pilot.press("open:FREE_PLAY")
    pilot.key("slash")
    pilot.write("R U")
    pilot.key("a", CONTROL)
    pilot.write("F")
    assert (field(pilot).text, field(pilot).caret, field(pilot).chosen) == ("F", 1, False)
    pilot.key("a", CONTROL)
    pilot.key("left")
    pilot.write("L")
    assert field(pilot).text == "LF"


def test_esc_clears_the_field_and_then_closes_it(pilot: Pilot) -> None:
    pilot.press("open:FREE_PLAY")
    pilot.key("slash")
    pilot.write("R U")
    pilot.key("escape")
    assert pilot.session.writing.open
    assert field(pilot).text == ""
    pilot.key("escape")
    assert not pilot.session.writing.open
    assert pilot.view.screen == "free play"


def test_long_text_that_is_nearly_moves_is_looked_through_at_once() -> None:
    # Trying each digit on either side of a prime that is not there takes nine times as long for every two.
    assert capital_reading("f11" * 600 + "?") is None
    assert capital_reading("f1" * 3) == "F1 F1 F1"


def test_more_moves_at_once_than_can_be_judged_are_refused_at_the_field(pilot: Pilot) -> None:
    pilot.application.give(TryCase(CASES[0].slug, help=Help.WITH_HINTS))
    pilot.settle()
    pilot.key("slash")
    pilot.write("(U D)500")
    pilot.key("enter")
    assert field(pilot).error == "These are 1,000 moves. Write at most 300 at once."
    assert field(pilot).text == "(U D)500"
    assert not held(RUN.of(pilot.session)).made
    pilot.key("backspace")
    pilot.key("enter")
    assert held(RUN.of(pilot.session)).attempt.turns_made == 100


def test_where_moves_are_made_together_there_may_be_thousands(pilot: Pilot) -> None:
    pilot.free_play("R U R'")
    pilot.key("slash")
    pilot.write("(U F)1000")
    pilot.key("enter")
    assert not pilot.session.writing.error
    assert FREE.of(pilot.session).history.cursor == 3 + 2000
