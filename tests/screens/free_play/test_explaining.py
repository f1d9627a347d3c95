"""“Explain my turns” in free play, through the real application."""

from __future__ import annotations

from msgspec.structs import replace

from tests.session.pilot import Pilot, Reading
from tutor.screens.free_play.commands import FreeAct
from tutor.session.answers import Answers


def card(pilot: Pilot) -> str:
    return " ".join(Reading(pilot.view).texts)


def explained(pilot: Pilot, setup: str, turns: str, slot: str = "FR") -> None:
    pilot.free_play(setup, slot)
    pilot.turn(turns)
    pilot.press(FreeAct.EXPLAIN)
    pilot.settle()


def test_the_button_works_once_a_turn_was_made_for_an_unsolved_pair(pilot: Pilot) -> None:
    pilot.free_play()
    assert not Reading(pilot.view).button("Explain my turns").enabled
    pilot.free_play("R U R'")
    assert not Reading(pilot.view).button("Explain my turns").enabled
    pilot.turn("R")
    assert Reading(pilot.view).button("Explain my turns").enabled
    pilot.key("backspace")
    assert not Reading(pilot.view).button("Explain my turns").enabled


def test_turns_that_solve_the_pair_are_explained_briefly_and_in_full_on_demand(pilot: Pilot) -> None:
    explained(pilot, "R U' R' U' R U R'", "R U' R' U R U R'")
    assert "Your turns: R U' R' U R U R'" in Reading(pilot.view).texts
    assert "Part R U' R'  ·  Join U R  ·  Insert U R'" in Reading(pilot.view).texts
    brief = "This solves the pair in seven turns, all by hand. No way by hand is shorter. "
    assert f"{brief}These are the turns of the route." in Reading(pilot.view).texts
    assert "Swap left and right" not in card(pilot)
    pilot.key("e")
    texts = Reading(pilot.view).texts
    assert "Swap left and right, and it becomes L' U L U' L' U' L, for the front-left slot." in texts
    assert [text for text in texts if text in ("Part", "Join", "Insert")] == ["Part", "Join", "Insert"]
    following = texts[texts.index("Part") + 1]
    assert following.startswith("R separates the white-green-orange corner and the green-orange edge")
    assert "R': Now the two are ready to join." in card(pilot)


def test_turns_that_do_not_solve_it_say_where_they_went_wrong(pilot: Pilot) -> None:
    explained(pilot, "R U R'", "R F")
    assert "This does not solve the pair. Its second turn, F, is a Detour." in card(pilot)
    pilot.key("e")
    assert "F, a Detour: F takes out the front-left pair and one cross edge" in card(pilot)


def test_the_explanation_goes_with_the_next_turn_or_the_key_and_the_verdict_comes_back(
    pilot: Pilot,
) -> None:
    explained(pilot, "R U R'", "R F")
    assert Reading(pilot.view).verdicts == []
    pilot.key("i")
    assert len(Reading(pilot.view).verdicts) == 1
    assert "Your turns" not in card(pilot)
    pilot.key("i")
    assert "Your turns: R F" in card(pilot)
    pilot.turn("U")
    assert "Your turns" not in card(pilot)
    assert len(Reading(pilot.view).verdicts) == 1


def test_until_the_answers_have_come_it_says_that_it_is_at_work(pilot: Pilot) -> None:
    pilot.free_play("R U R'")
    pilot.turn("R F")
    pilot.application.session = replace(pilot.session, answers=Answers())
    pilot.press(FreeAct.EXPLAIN)
    assert "Taking your turns apart …" in card(pilot)
    pilot.settle()
    assert "This does not solve the pair." in card(pilot)


def test_turns_made_while_the_cube_was_turned_round_are_named_as_it_was_held_first(pilot: Pilot) -> None:
    explained(pilot, "R U R'", "R y U' F'")
    assert "Your turns: R U' R'" in Reading(pilot.view).texts
    assert "This solves the pair in three turns" in card(pilot)
