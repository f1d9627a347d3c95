"""What keys do while something lies over the screen, and while moves are written."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from tests.session.held import held
from tests.session.pilot import Pilot
from tutor.lesson.scenes import Ask, Tell
from tutor.screens.free_play.state import FREE
from tutor.screens.lesson.state import LESSON, LessonPlay
from tutor.screens.lesson.update import settled
from tutor.screens.painting.state import PAINTING
from tutor.session.commands import Failed
from tutor.session.state import Sheet
from tutor.ui.inputs import KeyPressed, Modifier, TextEntered

CONTROL = Modifier.CONTROL


def lesson_of(pilot: Pilot) -> LessonPlay:
    assert LESSON.of(pilot.session) is not None
    return held(LESSON.of(pilot.session))


@pytest.mark.parametrize("key", ["f1", "f8"])
def test_enter_closes_a_sheet_and_nothing_happens_beneath_it(pupil: Pilot, key: str) -> None:
    pupil.scene(Tell)
    before = lesson_of(pupil).scene
    pupil.key(key)
    pupil.key("enter")
    assert pupil.session.sheet is Sheet.NONE
    assert lesson_of(pupil).scene == before


def test_enter_closes_a_failure_whatever_was_chosen_before_it(pilot: Pilot) -> None:
    pilot.free_play()
    while pilot.focus != "act:SCRAMBLE":
        pilot.key("tab")
    pilot.application.give(Failed("no luck"))
    pilot.key("enter")
    assert not pilot.session.failure
    assert FREE.of(pilot.session).history.earlier is None


def test_a_sheet_over_the_field_keeps_keys_and_text_from_it(pilot: Pilot) -> None:
    pilot.free_play()
    pilot.key("slash")
    pilot.write("R U")
    pilot.key("f1")
    pilot.give(TextEntered("F"))
    pilot.key("enter")
    assert pilot.session.sheet is Sheet.NONE
    assert pilot.session.writing.text == "R U"
    assert FREE.of(pilot.session).history.entries == ()


def test_while_moves_are_written_tab_and_enter_press_a_button_and_the_text_stays(pilot: Pilot) -> None:
    pilot.free_play("R U R'")
    pilot.key("slash")
    pilot.write("F")
    while pilot.focus != "act:HINT":
        pilot.key("tab")
    pilot.key("enter")
    assert FREE.of(pilot.session).rung == 1
    assert pilot.session.writing.text == "F"


def test_the_field_opened_by_its_key_takes_enter_whatever_was_chosen_before(pilot: Pilot) -> None:
    pilot.free_play()
    pilot.key("f")
    while pilot.focus != "act:SCRAMBLE":
        pilot.key("tab")
    pilot.key("slash")
    pilot.write("R")
    pilot.key("enter")
    assert FREE.of(pilot.session).history.notation == "F R"


def test_enter_goes_on_when_the_chosen_button_has_gone_from_the_screen(pupil: Pilot) -> None:
    pupil.scene(Ask)
    while pupil.focus != "act:HINT":
        pupil.key("tab")
    while not settled(pupil.session):
        bearing = lesson_of(pupil).attempt.bearing()
        assert bearing is not None
        known = pupil.session.answers.get(bearing.position, bearing.task)
        assert known is not None
        pupil.turn(known.lines[0][0].notation)
    before = lesson_of(pupil).scene
    pupil.key("enter")
    assert lesson_of(pupil).scene == before + 1


@pytest.mark.parametrize(
    ("key", "held"),
    [("z", CONTROL), ("z", CONTROL | Modifier.SHIFT), ("y", CONTROL), ("f9", Modifier.NONE)],
)
def test_nothing_is_undone_on_the_cube_while_moves_are_written(
    pilot: Pilot, key: str, held: Modifier
) -> None:
    chosen = (("undo", "backspace, ctrl+z, f9"),)
    pilot.application.session = replace(pilot.session, settings=replace(pilot.session.settings, keys=chosen))
    pilot.free_play("R U F")
    pilot.key("backspace")
    pilot.key("slash")
    pilot.write("L")
    before = FREE.of(pilot.session).history
    pilot.key(key, held)
    assert FREE.of(pilot.session).history is before
    assert pilot.session.writing.text == "L"
    pilot.give_keys("escape", "escape")
    pilot.key(key, held)
    assert FREE.of(pilot.session).history is not before


def test_nothing_painted_is_undone_while_a_cube_is_written(pilot: Pilot) -> None:
    pilot.press("open:PAINTING")
    pilot.key("2")
    pilot.key("v", CONTROL)
    assert pilot.session.writing.open
    before = PAINTING.of(pilot.session)
    assert before is not None
    pilot.key("z", CONTROL)
    assert PAINTING.of(pilot.session) is before
    pilot.key("escape")
    pilot.key("z", CONTROL)
    assert PAINTING.of(pilot.session) is not before


def test_a_stroke_is_typed_like_any_other_sign(pilot: Pilot) -> None:
    pilot.press("open:LEARNERS")
    pilot.press("act:WRITE")
    for character in "Ada/Bo":
        pilot.give(*([KeyPressed("slash")] if character == "/" else []), TextEntered(character))
    assert pilot.session.writing.text == "Ada/Bo"
