"""Own keys, as WCAG 2.2, 2.1.4 asks: keys that type a character can be remapped or switched off."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.session.pilot import Pilot, Reading
from tutor.cube.faces import Turn
from tutor.screens.free_play.state import FREE
from tutor.screens.table import SCREENS
from tutor.session.beginning import new_session
from tutor.session.binding import When
from tutor.session.commands import Act, Make
from tutor.session.keymap import (
    KeysError,
    bindings_of,
    command_names,
    format_key,
    is_single,
    parse_key,
    remapped,
)
from tutor.session.keys import bound_command, key_sheet, table
from tutor.session.settings import Settings
from tutor.ui.inputs import KEY_NAMES, WRITTEN_KEYS, KeyPressed, Modifier
from tutor.ui.view import Button

NOTHING: frozenset[When] = frozenset()
KEYS = st.sampled_from((*"abcz059", *KEY_NAMES))
MODIFIERS = st.sampled_from([Modifier(value) for value in range(8)])


def can_be(pressed: KeyPressed) -> bool:
    """What a key writes takes Shift on one keyboard and none on another, so there it says nothing."""
    return not (pressed.key in WRITTEN_KEYS.values() and pressed.modifiers & Modifier.SHIFT)


@given(st.builds(KeyPressed, KEYS, MODIFIERS).filter(can_be))
def test_a_key_comes_back_from_its_text(pressed: KeyPressed) -> None:
    assert parse_key(format_key(pressed)) == pressed


@pytest.mark.parametrize("held", ["shift", "ctrl+shift"])
@pytest.mark.parametrize("key", sorted(set(WRITTEN_KEYS.values())))
def test_shift_is_no_part_of_a_key_that_is_known_by_what_it_writes(key: str, held: str) -> None:
    with pytest.raises(KeysError, match=f"“{key}” is the key that types it.*leave shift out"):
        parse_key(f"{held}+{key}")


@pytest.mark.parametrize("text", ["", "hyper+z", "ctrl+", "ü", "rr", "f13", "ctrl z", "²"])
def test_anything_else_is_no_key(text: str) -> None:
    with pytest.raises(KeysError, match="is not a key"):
        parse_key(text)


def test_without_choices_the_table_holds_as_it_is() -> None:
    assert bindings_of(new_session(SCREENS, Settings(), ())) == table(SCREENS)


def test_names_belong_to_one_command_each() -> None:
    for name in command_names(SCREENS):
        assert len({binding.command for binding in table(SCREENS) if binding.name == name}) == 1, name


def test_a_former_name_belongs_to_one_command_and_is_no_name_of_today() -> None:
    former: dict[str, str] = {}
    for binding in table(SCREENS):
        if binding.former:
            assert former.setdefault(binding.former, binding.name) == binding.name
    assert {"take back", "make again"} <= former.keys()
    assert not former.keys() & set(command_names(SCREENS))


def test_of_two_names_for_one_command_the_later_one_counts() -> None:
    bindings = remapped(SCREENS, (("take back", ""), ("undo", "f9")))
    assert bound_command(KeyPressed("f9"), SCREENS["free play"], NOTHING, bindings) is Act.UNDO


def test_a_chosen_key_takes_the_place_of_all_the_usual_ones() -> None:
    bindings = remapped(SCREENS, (("undo", "ctrl+shift+k"), ("turn R", "i")))
    pressed = KeyPressed("k", Modifier.CONTROL | Modifier.SHIFT)
    assert bound_command(pressed, SCREENS["free play"], NOTHING, bindings) is Act.UNDO
    assert bound_command(KeyPressed("i"), SCREENS["free play"], NOTHING, bindings) == Make(Turn.R)
    for old in (KeyPressed("backspace"), KeyPressed("z", Modifier.CONTROL), KeyPressed("r")):
        assert bound_command(old, SCREENS["free play"], NOTHING, bindings) is None
    rows = dict(row[::-1] for _, rows in key_sheet(SCREENS["free play"], bindings) for row in rows)
    assert rows["undo"] == "Ctrl+Shift+K"
    assert rows["turn R"] == "I"


def test_several_keys_stand_with_commas() -> None:
    bindings = remapped(SCREENS, (("a hint, more each time", "f9, ctrl+h"),))
    for pressed in (KeyPressed("f9"), KeyPressed("h", Modifier.CONTROL)):
        assert bound_command(pressed, SCREENS["lesson"], NOTHING, bindings) is Act.HINT


def test_keys_can_change_places() -> None:
    bindings = remapped(SCREENS, (("turn R", "l"), ("turn L", "r")))
    assert bound_command(KeyPressed("l"), SCREENS["lesson"], NOTHING, bindings) == Make(Turn.R)
    assert bound_command(KeyPressed("r"), SCREENS["lesson"], NOTHING, bindings) == Make(Turn.L)


@pytest.mark.parametrize(
    ("chosen", "says"),
    [
        ((("turn Q", "i"),), r"nothing is called “turn Q”; the nearest name is “turn .”"),
        ((("turn R", "hyper+i"),), "“turn R”: “hyper\\+i” is not a key"),
        ((("turn R", "h"),), "“h” would do two things, “turn R” and “a hint"),
        ((("turn R", "i"), ("turn L", "i")), "“i” would do two things, “turn L” and “turn R”"),
        ((("play or pause", "1"),), "“1” would do two things"),
    ],
)
def test_choices_that_cannot_hold_say_why(chosen: tuple[tuple[str, str], ...], says: str) -> None:
    with pytest.raises(KeysError, match=says):
        remapped(SCREENS, chosen)


def test_a_key_can_be_switched_off() -> None:
    bindings = remapped(SCREENS, (("turn R", ""),))
    assert bound_command(KeyPressed("r"), SCREENS["free play"], NOTHING, bindings) is None
    assert bound_command(KeyPressed("u"), SCREENS["free play"], NOTHING, bindings) == Make(Turn.U)


def test_all_keys_that_type_a_character_can_be_switched_off_at_once() -> None:
    bindings = bindings_of(new_session(SCREENS, Settings(single_keys=False), ()))
    assert not any(is_single(binding) for binding in bindings)
    # Whatever is left types nothing: named keys, function keys, or something held with Ctrl or Alt.
    for binding in bindings:
        held = binding.modifiers & (Modifier.CONTROL | Modifier.ALT)
        assert held or len(binding.key) > 1
    assert {Act.UNDO, Act.NEXT, Act.HELP} <= {binding.command for binding in bindings}


def test_buttons_and_the_sheet_show_the_keys_that_hold(pilot: Pilot) -> None:
    own = (("undo", "f9"), ("a hint, more each time", ""), ("show the keys", "f12"))
    session = pilot.session
    pilot.application.session = replace(session, settings=replace(session.settings, keys=own))
    pilot.free_play("R U R'")
    shown = {button.label: button.key for button in Reading(pilot.view).blocks if isinstance(button, Button)}
    assert shown["Undo"] == "F9"
    assert shown["Hint"] == ""
    assert next(button.key for button in pilot.view.bar if button.label == "Keys") == "F12"
    before = FREE.of(pilot.session).history.cursor
    pilot.key("f9")
    assert FREE.of(pilot.session).history.cursor == before - 1
    pilot.key("f12")
    assert Reading(pilot.view).button("Close").key == "F12"


def test_with_single_keys_off_letters_turn_nothing(pilot: Pilot) -> None:
    pilot.free_play()
    pilot.press("choose:KEYS:1")
    pilot.give_keys("r", "u", "2")
    assert FREE.of(pilot.session).history.cursor == 0
    assert all(len(button.key or "") != 1 for button in pilot.view.bar)
