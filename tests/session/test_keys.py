import pytest

from tests.session.pilot import Pilot
from tutor.cube.faces import Turn
from tutor.cube.notation import Axis, Rotation
from tutor.screens.table import SCREENS
from tutor.session.binding import When
from tutor.session.commands import Act, ChooseAnswer, LookRound, Make
from tutor.session.keys import bound_command, holds, key_sheet, sign_for, table
from tutor.ui.inputs import KEY_NAMES, KeyPressed, Modifier
from tutor.ui.view import Table

NOTHING: frozenset[When] = frozenset()
BINDINGS = table(SCREENS)


def test_every_bound_key_has_a_name_the_window_reports() -> None:
    for binding in BINDINGS:
        assert (len(binding.key) == 1 and binding.key.isalnum()) or binding.key in KEY_NAMES


def test_no_key_means_two_things_at_once() -> None:
    for room in SCREENS:
        held = [(each.key, each.modifiers, each.when) for each in BINDINGS if holds(each, room)]
        assert len(held) == len(set(held))


@pytest.mark.parametrize("turn", list(Turn))
def test_every_face_turn_has_keys(turn: Turn) -> None:
    modifiers = Modifier.SHIFT if turn.quarters == 3 else Modifier.NONE
    command = bound_command(
        KeyPressed(turn.face.name.lower(), modifiers), SCREENS["free play"], NOTHING, BINDINGS
    )
    expected = Turn.of(turn.face, 1) if turn.quarters == 2 else turn
    assert command == Make(expected)


def test_rotations_have_keys() -> None:
    command = bound_command(KeyPressed("y", Modifier.SHIFT), SCREENS["lesson"], NOTHING, BINDINGS)
    assert command == Make(Rotation(Axis.Y, 3))


def test_while_turns_are_shown_the_arrows_step_through_them() -> None:
    assert isinstance(bound_command(KeyPressed("right"), SCREENS["lesson"], NOTHING, BINDINGS), LookRound)
    showing = frozenset({When.SHOWING})
    assert bound_command(KeyPressed("right"), SCREENS["lesson"], showing, BINDINGS) is Act.STEP_ON


def test_digits_choose_answers_only_where_there_are_answers() -> None:
    assert bound_command(KeyPressed("2"), SCREENS["lesson"], NOTHING, BINDINGS) is Act.HALVE
    choosing = frozenset({When.CHOOSING})
    assert bound_command(KeyPressed("2"), SCREENS["lesson"], choosing, BINDINGS) == ChooseAnswer(1)


def test_the_sheet_shows_every_binding_of_the_screen() -> None:
    for screen in ("lesson", "free play"):
        said = {says for _, rows in key_sheet(SCREENS[screen], BINDINGS) for _, says in rows}
        assert said == {binding.says for binding in BINDINGS if holds(binding, SCREENS[screen])}


def test_buttons_show_the_key_that_does_the_same() -> None:
    assert sign_for(Act.UNDO, SCREENS["free play"], BINDINGS) == "Backspace"
    assert sign_for(Act.NEXT_SLOT, SCREENS["home"], BINDINGS) == ""


def test_on_the_sheet_a_turn_and_the_one_the_other_way_share_a_row(pilot: Pilot) -> None:
    pilot.free_play()
    pilot.press("act:HELP")
    rows = [row for block in pilot.view.overlay if isinstance(block, Table) for row in block.rows]
    assert ("U  Shift+U", "turn U, U'") in rows
    said = " ".join(says for _, says in rows)
    every = {binding.says for binding in BINDINGS if holds(binding, SCREENS["free play"])}
    assert [says for says in every if says not in said and not says.endswith("'")] == []
