import pytest

from tests.session.pilot import Pilot
from tutor.cube.faces import Turn
from tutor.cube.notation import Axis, Rotation
from tutor.session.commands import Act, ChooseAnswer, Look, Make
from tutor.session.keys import BINDINGS, When, bound_command, key_sheet, sign_for
from tutor.ui.inputs import KEY_NAMES, KeyPressed, Modifier
from tutor.ui.view import Screen, Table

NOTHING: frozenset[When] = frozenset()


def test_every_bound_key_has_a_name_the_window_reports() -> None:
    for binding in BINDINGS:
        assert (len(binding.key) == 1 and binding.key.isalnum()) or binding.key in KEY_NAMES


def test_no_key_means_two_things_at_once() -> None:
    for screen in Screen:
        held = [
            (binding.key, binding.modifiers, binding.when)
            for binding in BINDINGS
            if screen in binding.screens
        ]
        assert len(held) == len(set(held))


@pytest.mark.parametrize("turn", list(Turn))
def test_every_face_turn_has_keys(turn: Turn) -> None:
    modifiers = Modifier.SHIFT if turn.quarters == 3 else Modifier.NONE
    command = bound_command(KeyPressed(turn.face.name.lower(), modifiers), Screen.FREE_PLAY, NOTHING)
    expected = Turn.of(turn.face, 1) if turn.quarters == 2 else turn
    assert command == Make(expected)


def test_rotations_have_keys() -> None:
    command = bound_command(KeyPressed("y", Modifier.SHIFT), Screen.LESSON, NOTHING)
    assert command == Make(Rotation(Axis.Y, 3))


def test_while_turns_are_shown_the_arrows_step_through_them() -> None:
    assert isinstance(bound_command(KeyPressed("right"), Screen.LESSON, NOTHING), Look)
    showing = frozenset({When.SHOWING})
    assert bound_command(KeyPressed("right"), Screen.LESSON, showing) is Act.STEP_ON


def test_digits_choose_answers_only_where_there_are_answers() -> None:
    assert bound_command(KeyPressed("2"), Screen.LESSON, NOTHING) is Act.HALVE
    choosing = frozenset({When.CHOOSING})
    assert bound_command(KeyPressed("2"), Screen.LESSON, choosing) == ChooseAnswer(1)


def test_the_sheet_shows_every_binding_of_the_screen() -> None:
    for screen in (Screen.LESSON, Screen.FREE_PLAY):
        said = {says for _, rows in key_sheet(screen) for _, says in rows}
        assert said == {binding.says for binding in BINDINGS if screen in binding.screens}


def test_buttons_show_the_key_that_does_the_same() -> None:
    assert sign_for(Act.UNDO, Screen.FREE_PLAY) == "Backspace"
    assert sign_for(Act.NEXT_SLOT, Screen.HOME) == ""


def test_on_the_sheet_a_turn_and_the_one_the_other_way_share_a_row(pilot: Pilot) -> None:
    pilot.free_play()
    pilot.press("act:HELP")
    rows = [row for block in pilot.view.overlay if isinstance(block, Table) for row in block.rows]
    assert ("U  Shift+U", "turn U, U'") in rows
    said = " ".join(says for _, says in rows)
    every = {binding.says for binding in BINDINGS if Screen.FREE_PLAY in binding.screens}
    assert [says for says in every if says not in said and not says.endswith("'")] == []
