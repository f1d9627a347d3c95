import re
from itertools import combinations

import pytest

from tests.session.pilot import Pilot
from tutor.cube.faces import Turn
from tutor.cube.notation import Axis, Rotation
from tutor.screens.table import SCREENS
from tutor.session.binding import Shows, When
from tutor.session.commands import Act, ChooseAnswer, LookRound, Make
from tutor.session.keymap import remapped
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


def test_the_arrows_step_through_what_is_shown_and_with_shift_they_look_round() -> None:
    showing, look = frozenset({When.SHOWING}), KeyPressed("right", Modifier.SHIFT)
    assert bound_command(KeyPressed("right"), SCREENS["lesson"], NOTHING, BINDINGS) is None
    assert bound_command(KeyPressed("right"), SCREENS["lesson"], showing, BINDINGS) is Act.STEP_ON
    for when in (NOTHING, showing):
        assert isinstance(bound_command(look, SCREENS["lesson"], when, BINDINGS), LookRound)


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
    assert ("U and Shift+U", "turn U and U'") in rows
    said = " ".join(says for _, says in rows)
    every = {binding.says for binding in BINDINGS if holds(binding, SCREENS["free play"])}
    assert [says for says in every if says not in said and not says.endswith("'")] == []


ARROWS = ("left", "right", "up", "down")


def test_each_arrow_key_means_one_thing_on_a_screen() -> None:
    """Whatever is shown or asked there, and the sheet of keys says it once."""
    for room in SCREENS:
        for arrow in ARROWS:
            for held in (Modifier.NONE, Modifier.SHIFT):
                meant = {
                    each.command
                    for each in BINDINGS
                    if (each.key, each.modifiers) == (arrow, held) and holds(each, room)
                }
                assert len(meant) <= 1, (room.name, arrow, held, meant)
        rows = [keys for _, rows in key_sheet(room, BINDINGS) for keys, _ in rows]
        signs = [sign for keys in rows for sign in re.split(", | or ", keys)]
        for sign in ("←", "→", "↑", "↓"):
            assert signs.count(sign) <= 1, (room.name, sign)
            assert signs.count(f"Shift+{sign}") == (1 if room.shows >= Shows.CUBE else 0), (room.name, sign)


def test_no_key_means_another_thing_while_both_could_apply() -> None:
    """What a key does at a time goes before what it always does; only these keys have two such meanings."""
    shared = set()
    for room in SCREENS:
        for one, two in combinations([each for each in BINDINGS if holds(each, room)], 2):
            if (one.key, one.modifiers) == (two.key, two.modifiers) and one.command != two.command:
                shared.add((one.key, one.when, two.when))
    digits = {("2", When.ANY, When.CHOOSING)}
    assert shared == {("space", When.SHOWING, When.ANY), *digits}


WITH_FN = {*(f"f{number}" for number in range(1, 13)), "home", "end", "page up", "page down", "delete"}
"""Keys that a Mac's own keyboard has only together with Fn (its keyboard, from memory)."""


def test_whatever_needs_fn_on_some_keyboards_has_a_key_that_needs_none() -> None:
    for room in SCREENS:
        held = [each for each in BINDINGS if holds(each, room)]
        easy = {(each.command, each.when) for each in held if each.key not in WITH_FN}
        hard = {(each.command, each.when) for each in held if each.key in WITH_FN}
        assert hard
        assert hard <= easy, room.name


def test_a_second_key_gives_way_to_the_settings_and_belongs_to_the_name_of_the_first() -> None:
    control = KeyPressed("1", Modifier.CONTROL)
    assert bound_command(control, SCREENS["free play"], NOTHING, BINDINGS) is Act.HELP
    chosen = remapped(SCREENS, (("undo", "ctrl+1"), ("light or dark", "f12")))
    assert bound_command(control, SCREENS["free play"], NOTHING, chosen) is Act.UNDO
    assert bound_command(KeyPressed("2", Modifier.CONTROL), SCREENS["lesson"], NOTHING, chosen) is None


def test_the_sheet_of_a_mac_prints_the_keys_that_are_on_it(monkeypatch: pytest.MonkeyPatch) -> None:
    def signs() -> dict[str, str]:
        groups = key_sheet(SCREENS["free play"], BINDINGS)
        return {says: keys for _, rows in groups for keys, says in rows}

    usual = signs()
    assert usual["save a picture of the cube"] == "Ctrl+S"
    # Keys that do the same are told apart from keys that are pressed together.
    assert usual["light or dark"] == "F2 or Ctrl+2"
    assert usual["larger text"] == "F3, Ctrl+3 or Ctrl++"
    monkeypatch.setattr("sys.platform", "darwin")
    assert signs()["save a picture of the cube"] == "Cmd+S"
    assert {says: keys.replace("Cmd", "Ctrl") for says, keys in signs().items()} == usual
