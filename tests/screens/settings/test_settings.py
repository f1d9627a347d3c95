import pytest
from msgspec.structs import replace

from tests.session.names import action_name
from tests.session.pilot import Pilot, Reading, bearing_of, stage_of
from tutor.cube.faces import FACES, Face
from tutor.session.settings import Settings
from tutor.session.settings_options import OPTIONS, Setting
from tutor.ui.inputs import Modifier
from tutor.ui.view import Button


def test_every_setting_has_a_row_with_the_value_that_holds_marked(pilot: Pilot) -> None:
    pilot.press("open:SETTINGS")
    blocks = Reading(pilot.view).blocks
    for setting in Setting:
        buttons = [
            block
            for block in blocks
            if isinstance(block, Button) and action_name(block.action).startswith(f"choose:{setting.name}:")
        ]
        assert [button.label for button in buttons] == [option.word for option in OPTIONS[setting]]
        assert sum(button.selected for button in buttons) == 1


@pytest.mark.parametrize("setting", Setting)
def test_every_value_can_be_chosen(pilot: Pilot, setting: Setting) -> None:
    kept: list[Settings] = []
    pilot.rewire(save_settings=kept.append)
    for number, option in enumerate(OPTIONS[setting]):
        pilot.press(f"choose:{setting.name}:{number}")
        assert option.holds(pilot.session.settings)
    assert kept
    assert kept[-1] == pilot.session.settings


def test_names_that_mean_no_setting_change_nothing(pilot: Pilot) -> None:
    before = pilot.session.settings
    pilot.press("choose:NOTHING:0")
    pilot.press("choose:THEME:99")
    assert pilot.session.settings == before


@pytest.mark.parametrize("cross", FACES)
def test_with_another_cross_colour_the_cube_is_held_with_it_down(pilot: Pilot, cross: Face) -> None:
    pilot.press(f"choose:CROSS:{FACES.index(cross)}")
    pilot.free_play("R U R'")
    assert stage_of(pilot).colours[9 * Face.D + 4] == cross
    assert bearing_of(pilot).cross_down
    assert "Insert · three turns to go at best" in Reading(pilot.view).texts


def test_with_reduced_motion_nothing_turns(pilot: Pilot) -> None:
    pilot.key("f7")
    pilot.free_play()
    before = stage_of(pilot).colours
    pilot.key("r")
    stage = stage_of(pilot)
    assert stage.turning is None
    assert stage.crossfade == before
    assert stage.crossfade_mix == 0.0
    pilot.wait(1.0)
    assert stage_of(pilot).crossfade is None
    assert not pilot.moving


def clicks(pilot: Pilot) -> list[int]:
    heard: list[int] = []
    pilot.rewire(click=lambda: heard.append(1))
    return heard


def test_turns_are_heard_only_when_that_was_chosen(pilot: Pilot) -> None:
    heard = clicks(pilot)
    pilot.free_play("R U")
    assert heard == []
    pilot.press("choose:SOUND:1")
    assert len(heard) == 1, "a sample when it is switched on"
    pilot.give_keys("r", "U", "2", "backspace")
    assert len(heard) == 5
    pilot.give_keys("h", "0", "n")
    pilot.key("left", Modifier.SHIFT)
    assert len(heard) == 5
    pilot.press("choose:SOUND:0")
    pilot.give_keys("r")
    assert len(heard) == 5


def test_with_other_colours_on_the_faces_the_words_follow(pilot: Pilot) -> None:
    names = ("white", "yellow", "orange", "red", "green", "blue")
    settings = replace(pilot.session.settings, colour_names=names)
    pilot.application.session = replace(pilot.session, settings=settings)
    pilot.press("open:SETTINGS")
    assert Reading(pilot.view).button("yellow").selected
    pilot.free_play("R U R'")
    pilot.key("h")
    said = " ".join(Reading(pilot.view).texts)
    assert "green" in said
    assert "red" in said, said
    assert "orange" not in said


def test_with_reduced_motion_turns_shown_again_fade_too(pilot: Pilot) -> None:
    pilot.key("f7")
    pilot.free_play("R U R'")
    pilot.key("a")
    demonstration = pilot.session.demonstration
    assert demonstration is not None
    cubes = {demonstration.start.after(demonstration.turns[:count]).colours for count in range(4)}
    fades = []
    while pilot.moving:
        stage = stage_of(pilot)
        assert stage.turning is None
        assert stage.colours in cubes
        if stage.crossfade is not None:
            assert stage.crossfade in cubes
            fades.append(stage.crossfade_mix)
        pilot.now += 0.03
    assert max(fades) > 0.9
    assert min(fades) < 0.1
