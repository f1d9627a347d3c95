"""Own keys, as WCAG 2.2, 2.1.4 asks: keys that type a character can be remapped or switched off."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

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

NAMES_OF_VERSION_0_1 = (
    "turn U",
    "turn U'",
    "turn D",
    "turn D'",
    "turn L",
    "turn L'",
    "turn R",
    "turn R'",
    "turn F",
    "turn F'",
    "turn B",
    "turn B'",
    "turn the whole cube: x",
    "turn the whole cube: x'",
    "turn the whole cube: y",
    "turn the whole cube: y'",
    "turn the whole cube: z",
    "turn the whole cube: z'",
    "make the last turn a half turn",
    "write moves",
    "take back",
    "make again",
    "play or pause",
    "one turn on",
    "one turn back",
    "faster",
    "slower",
    "a hint, deeper each time",
    "show again, slowly",
    "show the last slip",
    "show from where your turns part",
    "go on",
    "go on without answering",
    "go back",
    "choose answer 1",
    "choose answer 2",
    "choose answer 3",
    "choose answer 4",
    "choose answer 5",
    "choose answer 6",
    "choose answer 7",
    "choose answer 8",
    "next slot",
    "previous slot",
    "a new scramble",
    "a solved cube",
    "copy the position",
    "painting: paint yellow and go on",
    "painting: paint white and go on",
    "painting: paint red and go on",
    "painting: paint orange and go on",
    "painting: paint green and go on",
    "painting: paint blue and go on",
    "painting: paint with colour 1 and go on",
    "painting: paint with colour 2 and go on",
    "painting: paint with colour 3 and go on",
    "painting: paint with colour 4 and go on",
    "painting: paint with colour 5 and go on",
    "painting: paint with colour 6 and go on",
    "painting: paint with the colour in hand and go on",
    "painting: erase",
    "painting: go back and erase",
    "painting: go up",
    "painting: go down",
    "painting: go left",
    "painting: go right",
    "painting: take back",
    "painting: make again",
    "painting: copy as text",
    "painting: write or paste",
    "more turns a minute",
    "fewer turns a minute",
    "save a picture of this page",
    "save the cases as a table",
    "try the case",
    "look left",
    "look right",
    "look from above",
    "look from below",
    "look from the front",
    "nearer",
    "farther",
    "light or dark",
    "larger text",
    "smaller text",
    "other sticker colours",
    "letters on the stickers",
    "mirrors on or off",
    "fade instead of turning",
    "save a picture of the cube",
    "save a clip of the turns",
    "stop saving",
    "next button",
    "previous button",
    "press the chosen button, or go on",
    "this sheet",
    "words and their meanings",
    "close what is open, then go home",
    "quit",
)
"""All that a settings file could name under [keys] then."""


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


def test_every_name_of_a_key_of_version_0_1_is_still_read() -> None:
    for name in NAMES_OF_VERSION_0_1:
        remapped(SCREENS, ((name, ""),))


def test_of_two_names_for_one_command_the_later_one_counts() -> None:
    bindings = remapped(SCREENS, (("take back", ""), ("undo", "f9")))
    assert bound_command(KeyPressed("f9"), SCREENS["free play"], NOTHING, bindings) is Act.UNDO


def test_a_chosen_key_takes_the_place_of_all_the_usual_ones() -> None:
    bindings = remapped(SCREENS, (("undo", "ctrl+shift+k"), ("turn R", "f9")))
    pressed = KeyPressed("k", Modifier.CONTROL | Modifier.SHIFT)
    assert bound_command(pressed, SCREENS["free play"], NOTHING, bindings) is Act.UNDO
    assert bound_command(KeyPressed("f9"), SCREENS["free play"], NOTHING, bindings) == Make(Turn.R)
    for old in (KeyPressed("backspace"), KeyPressed("z", Modifier.CONTROL), KeyPressed("r")):
        assert bound_command(old, SCREENS["free play"], NOTHING, bindings) is None
    rows = dict(row[::-1] for _, rows in key_sheet(SCREENS["free play"], bindings) for row in rows)
    assert rows["undo"] == "Ctrl+Shift+K"
    assert rows["turn R"] == "F9"


def test_several_keys_stand_with_commas() -> None:
    bindings = remapped(SCREENS, (("a hint, more each time", "f9, ctrl+h"),))
    for pressed in (KeyPressed("f9"), KeyPressed("h", Modifier.CONTROL)):
        assert bound_command(pressed, SCREENS["lesson"], NOTHING, bindings) is Act.HINT


def test_keys_can_change_places() -> None:
    bindings = remapped(SCREENS, (("light or dark", "f4"), ("other sticker colours", "f2")))
    assert bound_command(KeyPressed("f4"), SCREENS["lesson"], NOTHING, bindings) is Act.THEME
    assert bound_command(KeyPressed("f2"), SCREENS["lesson"], NOTHING, bindings) is Act.PALETTE


@pytest.mark.parametrize(
    ("chosen", "says"),
    [
        ((("turn Q", "f9"),), r"nothing is called “turn Q”; the nearest name is “turn .”"),
        ((("next slot", "hyper+m"),), "“next slot”: “hyper\\+m” is not a key"),
        ((("next slot", "n"),), "“n” would do two things, “next slot” and “a new scramble”"),
        ((("turn R", "f9"), ("turn L", "f9")), "“f9” would do two things, “turn L” and “turn R”"),
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
