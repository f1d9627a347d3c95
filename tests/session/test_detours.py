"""After a Detour: undo it, go on from here, or see why; what is lit was out of place.

Which pieces a turn moves is from WCA 12a1 (a face turn moves the face's layer).
"""

from __future__ import annotations

import pytest

from tests.session.held import held
from tests.session.pilot import Pilot, Reading, stage_of
from tutor.counting import counted
from tutor.cube.faces import Turn
from tutor.lesson.scenes import Alone
from tutor.screens.free_play.state import FREE
from tutor.session.judging import answer_at
from tutor.ui.view import Mark, MiniatureGrid

SETUP = "R U R'"
"""One pair taken out; R U' R' brings it back: three turns."""


def slip(pilot: Pilot, turn: str = "L") -> Reading:
    """The card after a Detour in free play."""
    pilot.free_play(SETUP)
    pilot.turn(turn)
    reading = Reading(pilot.view)
    assert reading.verdicts[0].mark is Mark.DETOUR
    return reading


def test_after_a_detour_there_are_two_large_choices(pilot: Pilot) -> None:
    reading = slip(pilot)
    undo, on = reading.button("Undo it"), reading.button("Go on from here")
    assert (undo.detail, undo.key, undo.primary) == ("L', then three turns to go", "Backspace", True)
    assert on.detail == "Four turns to go, and far layers have to help"
    assert on.key == "Enter"


def test_from_a_detour_by_hand_the_next_idea_leads_on(pilot: Pilot) -> None:
    pilot.free_play(SETUP)
    answer = held(answer_at(pilot.session, FREE.of(pilot.session)))
    # The front is one of the two layers at the slot.
    astray = answer.continuation(Turn.F)
    pilot.turn("F")
    on = Reading(pilot.view).button("Go on from here").detail
    assert on.startswith(f"{counted(held(astray.by_hand), 'turn').capitalize()} to go. Next: ")


def test_undo_it_takes_the_detour_back(pilot: Pilot) -> None:
    before = slip(pilot)
    pilot.press(before.button("Undo it").action)
    pilot.settle()
    assert FREE.of(pilot.session).history.notation == SETUP
    assert not any(button.label == "Undo it" for button in Reading(pilot.view).buttons)


@pytest.mark.parametrize("how", ["enter", "button"])
def test_going_on_shows_the_next_idea_and_no_choice(pilot: Pilot, how: str) -> None:
    reading = slip(pilot)
    detail = reading.button("Go on from here").detail
    if how == "enter":
        pilot.key("enter")
    else:
        pilot.press(reading.button("Go on from here").action)
    pilot.settle()
    after = Reading(pilot.view)
    assert detail in after.texts
    assert not any(button.label in ("Undo it", "Go on from here") for button in after.buttons)
    assert FREE.of(pilot.session).history.notation == f"{SETUP} L"


def test_a_turn_means_going_on(pilot: Pilot) -> None:
    slip(pilot)
    pilot.key("l")
    pilot.settle()
    assert FREE.of(pilot.session).history.notation == f"{SETUP} L2"


def test_the_next_detour_brings_the_choice_again(pilot: Pilot) -> None:
    slip(pilot)
    pilot.key("enter")
    pilot.turn("D")
    assert Reading(pilot.view).button("Undo it").detail.startswith("D', then ")


def test_a_good_turn_brings_no_choice(pilot: Pilot) -> None:
    pilot.free_play(SETUP)
    pilot.turn("R")
    assert not any(button.label == "Undo it" for button in Reading(pilot.view).buttons)


def test_why_shows_the_damage_then_the_turn_back(pilot: Pilot) -> None:
    """L moves the pairs at the left and one cross edge; lit they are out, then in their places (12a1)."""
    slip(pilot)
    pilot.key("s")
    shown = held(pilot.session.demonstration)
    assert [turn.notation for turn in shown.turns] == ["L'"]
    explained = held(shown.detour)
    assert {slot.name for slot in explained.pairs} == {"FL", "BL"}
    assert {side.name for side in explained.edges} == {"L"}
    first = stage_of(pilot).glowing
    pilot.wait(10.0)
    last = stage_of(pilot)
    assert len(first) == len(last.glowing) == 5
    assert first != last.glowing
    home = {(-1, y, z) for y in (-1, 0) for z in (-1, 1)} | {(-1, -1, 0)}
    assert last.glowing == {9 * (x + 1) + 3 * (y + 1) + (z + 1) for x, y, z in home}
    assert not last.glowing & last.dimmed


def test_why_says_what_has_to_come_back(pilot: Pilot) -> None:
    slip(pilot)
    pilot.key("s")
    reading = Reading(pilot.view)
    assert reading.texts[0] == (
        "First you have to put the front-left and back-left pairs and one cross edge back, and L' does that."
    )
    pictures = next(block for block in reading.blocks if isinstance(block, MiniatureGrid))
    assert [each.label for each in pictures.miniatures] == ["With L", "Without L"]
    with_it, without = (each.stage for each in pictures.miniatures)
    assert with_it.colours != without.colours
    assert len(with_it.glowing) == len(without.glowing) == 5


def test_why_leads_on_to_the_turn_that_was_right(pilot: Pilot) -> None:
    """The slot stays lifted while another layer turns: after the turn back comes the lowering turn."""
    pilot.free_play(SETUP)
    pilot.turn("R U' L")
    assert Reading(pilot.view).verdicts[0].mark is Mark.DETOUR
    pilot.key("s")
    assert [turn.notation for turn in held(pilot.session.demonstration).turns] == ["L'", "R'"]
    pilot.key("escape")
    assert pilot.session.demonstration is None


def test_where_no_help_is_given_enter_chooses_nothing(pupil: Pilot) -> None:
    pupil.scene(Alone)
    pupil.turn("D")
    assert not any(button.label == "Undo it" for button in Reading(pupil.view).buttons)
    pupil.key("enter")
    assert not held(pupil.session.attempt).went_on
