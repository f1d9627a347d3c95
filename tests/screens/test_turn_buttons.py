"""Turn buttons, for those who cannot type: where they are, which there are, and what they do.

The 18 face turns are those of WCA Regulations 12a1: six faces in three ways.
"""

from __future__ import annotations

import pytest

from tests.session.pilot import Pilot, Reading
from tests.workers.direct import answers_of
from tutor.cube.faces import TURNS
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import load_lesson
from tutor.lesson.scenes import Alone, Ask
from tutor.method.cases import CASES
from tutor.screens.free_play.state import FREE
from tutor.session.commands import Make
from tutor.solver.search import Solver
from tutor.ui.inputs import Modifier

NINE = ["U", "U'", "U2", "R", "R'", "R2", "F", "F'", "F2"]


def turns(pilot: Pilot) -> list[str]:
    return [button.label for button in Reading(pilot.view).buttons if isinstance(button.action, Make)]


@pytest.fixture
def beginner(solver: Solver) -> Pilot:
    """A pilot who can take the lesson on notation."""
    lesson = load_lesson("notation", LessonSetting(answers_of(solver)))
    return Pilot(solver, {lesson.name: lesson})


def test_the_lesson_on_notation_has_them_where_turns_are_asked(beginner: Pilot) -> None:
    beginner.scene(Ask, "notation")
    assert turns(beginner) == NINE
    assert all(
        button.key == "" for button in Reading(beginner.view).buttons if isinstance(button.action, Make)
    )


def test_every_turn_asked_in_that_lesson_can_be_made_by_a_button(beginner: Pilot) -> None:
    for index, scene in enumerate(beginner.lessons["notation"].scenes):
        if isinstance(scene, Ask | Alone):
            beginner.press(f"lesson:{index}:0:notation")
            beginner.settle()
            if len(turns(beginner)) < len(TURNS):
                beginner.press("act:MORE_TURNS")
            assert set(turns(beginner)) == {turn.notation for turn in TURNS}


def test_no_other_lesson_begins_with_them(pupil: Pilot) -> None:
    pupil.scene(Ask)
    assert turns(pupil) == []


def test_a_button_makes_its_turn(pilot: Pilot) -> None:
    pilot.free_play("R U R'")
    pilot.key("b", Modifier.CONTROL)
    pilot.press("make:F'")
    pilot.settle()
    assert FREE.of(pilot.session).history.notation == "R U R' F'"
    assert Reading(pilot.view).verdicts


@pytest.mark.parametrize(("slot", "faces"), [("FR", "URF"), ("FL", "UFL"), ("BL", "ULB"), ("BR", "URB")])
def test_they_are_those_of_the_working_faces(pilot: Pilot, slot: str, faces: str) -> None:
    pilot.free_play("", slot)
    pilot.turn({"FR": "R U R'", "FL": "F U F'", "BL": "L U L'", "BR": "B U B'"}[slot])
    pilot.press(f"slot:{slot}")
    pilot.settle()
    pilot.key("b", Modifier.CONTROL)
    assert {turn[0] for turn in turns(pilot)} == set(faces)
    assert len(turns(pilot)) == 9


def test_more_turns_brings_all_18_and_again_fewer(pilot: Pilot) -> None:
    pilot.free_play("R U R'")
    pilot.key("b", Modifier.CONTROL)
    assert turns(pilot) == NINE
    pilot.press(Reading(pilot.view).button("More turns").action)
    assert sorted(turns(pilot)) == sorted(turn.notation for turn in TURNS)
    pilot.press(Reading(pilot.view).button("Fewer turns").action)
    assert turns(pilot) == NINE


def test_the_key_and_the_setting_switch_them(pilot: Pilot) -> None:
    pilot.free_play("R U R'")
    assert turns(pilot) == []
    pilot.key("b", Modifier.CONTROL)
    assert turns(pilot) == NINE
    pilot.key("b", Modifier.CONTROL)
    assert turns(pilot) == []
    pilot.press("open:SETTINGS")
    assert "Turn buttons" in Reading(pilot.view).texts
    pilot.press("choose:TURN_BUTTONS:1")
    pilot.press("open:FREE_PLAY")
    assert turns(pilot) == NINE


def test_in_the_lesson_on_notation_the_key_takes_them_away(beginner: Pilot) -> None:
    beginner.scene(Ask, "notation")
    beginner.key("b", Modifier.CONTROL)
    assert turns(beginner) == []


@pytest.mark.parametrize("help", ["WITH_HINTS", "ALONE"])
def test_they_are_in_practice_where_the_learner_turns(pilot: Pilot, help: str) -> None:
    pilot.press("open:PRACTICE")
    pilot.key("b", Modifier.CONTROL)
    assert turns(pilot) == []
    pilot.press(f"try:FR:0:{help}:{CASES[0].slug}")
    pilot.settle()
    assert turns(pilot) == NINE


def test_a_tab_leads_to_them_and_enter_makes_the_turn(pilot: Pilot) -> None:
    pilot.free_play("R U R'")
    pilot.key("b", Modifier.CONTROL)
    while pilot.focus != "make:U2":
        pilot.key("tab")
    pilot.key("enter")
    assert FREE.of(pilot.session).history.notation == "R U R' U2"
