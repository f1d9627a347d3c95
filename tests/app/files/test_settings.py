import shutil
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from tutor.app.files.settings import FILE, Loaded, WindowSettings, load_settings, save_settings
from tutor.cube.faces import FACES
from tutor.cube.stickers import COLOUR_NAMES
from tutor.screens.table import SCREENS
from tutor.session.commands import Act, Command
from tutor.session.keymap import command_names, format_key, remapped
from tutor.session.settings import Settings, StepByStep, TurnButtons
from tutor.session.settings_options import PALETTES, THEMES
from tutor.ui.focus import Walk
from tutor.ui.inputs import KeyPressed
from tutor.ui.view import Look


def with_its_words(chosen: Settings) -> Settings:
    """The colours' words go with their arrangement."""
    return replace(chosen, colour_names=tuple(COLOUR_NAMES[number] for number in chosen.look.arrangement))


looks = st.builds(
    Look,
    theme=st.sampled_from(THEMES),
    palette=st.sampled_from(PALETTES),
    text_scale=st.floats(1.0, 2.0),
    mirrors=st.booleans(),
    letters=st.booleans(),
    arrangement=st.permutations(range(6)).map(tuple),
)
settings = st.builds(
    Settings,
    look=looks,
    cross=st.sampled_from(FACES),
    speed=st.floats(0.1, 3.0),
    step_by_step=st.sampled_from(StepByStep),
    reduced_motion=st.booleans(),
    sound=st.booleans(),
    read_aloud=st.booleans(),
    single_keys=st.booleans(),
    turn_buttons=st.sampled_from(TurnButtons),
    rest_minutes=st.just(0) | st.integers(5, 240),
).map(with_its_words)


@given(settings)
def test_settings_come_back_as_they_were_written(
    tmp_path_factory: pytest.TempPathFactory, chosen: Settings
) -> None:
    folder = tmp_path_factory.mktemp("settings") / "new"
    save_settings(folder, chosen)
    assert load_settings(folder) == Loaded(chosen)
    assert [path.name for path in folder.iterdir()] == [FILE]


def test_settings_of_before_are_taken_in_whole(tmp_path: Path) -> None:
    # Written by commit 0b23538, the last one with the older names of practice and progress.
    before = Path(__file__).with_name("before_new_names") / FILE
    shutil.copy(before, tmp_path / FILE)
    loaded = load_settings(tmp_path)
    assert loaded.notice == ""
    assert loaded.settings == Settings(
        look=Look(theme="dark", text_scale=1.25),
        speed=0.75,
        rest_minutes=15,
        learner="Ilva",
        keys=(
            ("save the cases as a table", "F9"),
            ("save a picture of this page", "Ctrl+F9"),
            ("choose answer 1", "F10"),
        ),
    )
    assert {name for name, _ in loaded.settings.keys} <= set(command_names(SCREENS))
    save_settings(tmp_path, loaded.settings)
    assert (tmp_path / FILE).read_bytes() == before.read_bytes()


def test_without_a_file_the_usual_settings_hold(tmp_path: Path) -> None:
    assert load_settings(tmp_path) == Loaded(Settings())


@pytest.mark.parametrize(
    ("content", "named"),
    [
        (b"speed = 1.0.0", ""),
        (b"speed = 99.0", "speed"),
        (b"cross = 'pink'", "cross"),
        (b"rest_minutes = 3", "rest_minutes: write 0 for never, or 5 to 240; it is 3"),
        (b"colour = 'white'", "colour"),
        (b"[look]\narrangement = ['white', 'white', 'red', 'orange', 'green', 'blue']", "arrangement"),
        (b"[look]\narrangement = ['white']", "arrangement"),
        (b"\xff\xfe", ""),
        (b"[look]\ntext_scale = 'big'", "text_scale"),
        (b"a = 1\n" * 20_000, ""),
    ],
)
def test_a_damaged_file_is_kept_aside_and_named(tmp_path: Path, content: bytes, named: str) -> None:
    (tmp_path / FILE).write_bytes(content)
    loaded = load_settings(tmp_path)
    assert loaded.settings == Settings()
    assert named in loaded.notice
    (aside,) = tmp_path.iterdir()
    assert aside.name in loaded.notice
    assert aside.read_bytes() == content


def test_a_byte_order_mark_is_no_damage(tmp_path: Path) -> None:
    # As some editors write it (The Unicode Standard, section 23.8).
    (tmp_path / FILE).write_bytes(b"\xef\xbb\xbfspeed = 0.5\n# mine\n")
    loaded = load_settings(tmp_path)
    assert loaded == Loaded(Settings(speed=0.5))
    save_settings(tmp_path, replace(loaded.settings, speed=2.0))
    assert (tmp_path / FILE).read_bytes() == b"speed = 2.0\n# mine\n"


def test_a_second_damaged_file_does_not_overwrite_the_first(tmp_path: Path) -> None:
    for content in (b"one", b"two"):
        (tmp_path / FILE).write_bytes(content)
        load_settings(tmp_path)
    assert sorted(path.read_bytes() for path in tmp_path.iterdir()) == [b"one", b"two"]


def test_own_keys_come_back_as_written(tmp_path: Path) -> None:
    (tmp_path / FILE).write_text('speed = 2.0\n[keys]\n"next slot" = "m"\n"undo" = ""\n', "utf-8")
    loaded = load_settings(tmp_path)
    assert loaded == Loaded(Settings(speed=2.0, keys=(("next slot", "m"), ("undo", ""))))
    save_settings(tmp_path, loaded.settings)
    assert load_settings(tmp_path) == loaded


# Written by the version before, in which these commands had other names.
BEFORE = """\
speed = 2.0

[keys]
"take back" = "backspace, f9"
"make again" = "f10"
"one turn on" = "page down"
"a hint, deeper each time" = ""
"show again, slowly" = "w"
"show from where your turns part" = "v"
"go on" = "g"
"press the chosen button, or go on" = "enter, f12"
"this sheet" = "k"
"close what is open, then go home" = "escape, f11"
"""


def test_keys_under_the_names_of_the_version_before_work_and_stay_as_written(tmp_path: Path) -> None:
    (tmp_path / FILE).write_text(BEFORE, "utf-8")
    loaded = load_settings(tmp_path)
    assert loaded.notice == ""
    keys: dict[Command | Walk, set[str]] = {}
    for binding in remapped(SCREENS, loaded.settings.keys):
        keys.setdefault(binding.command, set()).add(format_key(KeyPressed(binding.key, binding.modifiers)))
    assert keys[Act.UNDO] == {"backspace", "f9"}
    assert keys[Act.REDO] == {"f10"}
    assert keys[Act.STEP_ON] == {"page down"}
    assert Act.HINT not in keys
    assert (keys[Act.SHOW_AGAIN], keys[Act.SHOW_SPLIT], keys[Act.NEXT]) == ({"w"}, {"v"}, {"g"})
    assert keys[Walk.PRESS] == {"enter", "f12"}
    assert (keys[Act.HELP], keys[Act.CLOSE]) == ({"k"}, {"escape", "f11"})
    save_settings(tmp_path, replace(loaded.settings, speed=1.5))
    assert (tmp_path / FILE).read_text("utf-8") == BEFORE.replace("2.0", "1.5")


@pytest.mark.parametrize(
    ("line", "named"),
    [
        ('"turn Q" = "m"', "nothing is called “turn Q”"),
        ('"next slot" = "hyper+m"', "“hyper+m” is not a key"),
        ('"next slot" = "n"', "“n” would do two things"),
        ('"next slot" = 3', "keys"),
    ],
)
def test_keys_that_cannot_be_used_are_named_and_the_file_is_kept(
    tmp_path: Path, line: str, named: str
) -> None:
    (tmp_path / FILE).write_text(f"[keys]\n{line}\n", "utf-8")
    loaded = load_settings(tmp_path)
    assert loaded.settings == Settings()
    assert named in loaded.notice
    (aside,) = tmp_path.iterdir()
    assert aside.name in loaded.notice


def test_what_the_readme_shows_can_be_used_as_it_stands(tmp_path: Path) -> None:
    readme = (Path(__file__).parents[3] / "README.md").read_text("utf-8")
    shown = readme.partition("```toml\n")[2].partition("```")[0]
    (tmp_path / FILE).write_text(shown, "utf-8")
    loaded = load_settings(tmp_path)
    assert loaded.notice == ""
    assert dict(loaded.settings.keys)["next slot"] == "m"
    assert loaded.settings.colour_names[0] == "white"


BY_HAND = """\
# My own cube has white on top.
speed = 2.0  # as at the club

[keys]
# for the left hand
"next slot" = "m"

[look]
# for the evenings
theme = "dark"
arrangement = [
    "white", "yellow",  # up and down
    "orange", "red", "green", "blue",
]
"""


def changed(folder: Path, text: str) -> str:
    """The text of the file after the sound was switched on and the theme set to light in the window."""
    (folder / FILE).write_text(text, "utf-8")
    chosen = load_settings(folder).settings
    wanted = replace(chosen, sound=True, look=replace(chosen.look, theme="light"))
    save_settings(folder, wanted)
    assert load_settings(folder) == Loaded(wanted)
    return (folder / FILE).read_text("utf-8")


def test_what_a_person_wrote_stays_in_its_place_with_its_comments(tmp_path: Path) -> None:
    assert changed(tmp_path, BY_HAND).splitlines() == [
        "# My own cube has white on top.",
        "speed = 2.0  # as at the club",
        "sound = true",
        *BY_HAND.replace('"dark"', '"light"').splitlines()[2:],
    ]


def test_the_link_of_a_person_who_keeps_settings_elsewhere_stays(tmp_path: Path) -> None:
    elsewhere, folder = tmp_path / "dotfiles" / "pairwright.toml", tmp_path / "config"
    for made in (elsewhere.parent, folder):
        made.mkdir()
    elsewhere.write_text("", "utf-8")
    elsewhere.chmod(0o600)
    (folder / FILE).symlink_to(elsewhere)
    save_settings(folder, Settings(speed=2.0))
    assert (folder / FILE).readlink() == elsewhere
    assert elsewhere.read_text("utf-8") == "speed = 2.0\n"
    assert elsewhere.stat().st_mode & 0o777 == 0o600
    assert [path.name for path in elsewhere.parent.iterdir()] == [elsewhere.name]


def test_of_a_damaged_file_behind_a_link_the_file_is_set_aside_and_the_link_stays(tmp_path: Path) -> None:
    elsewhere, folder = tmp_path / "dotfiles" / "pairwright.toml", tmp_path / "config"
    for made in (elsewhere.parent, folder):
        made.mkdir()
    elsewhere.write_text("speed = fast", "utf-8")
    (folder / FILE).symlink_to(elsewhere)
    loaded = load_settings(folder)
    assert (elsewhere.parent / "pairwright.damaged-1.toml").read_text("utf-8") == "speed = fast"
    assert "pairwright.damaged-1.toml" in loaded.notice
    save_settings(folder, Settings(speed=2.0))
    assert (folder / FILE).readlink() == elsewhere
    assert load_settings(folder) == Loaded(Settings(speed=2.0))


@pytest.mark.parametrize(
    "text",
    [
        'look.theme = "dark"\nspeed = 2\n',
        'look = {theme = "dark"} # in one line\n',
        '[look]\r\ntheme = "dark"\r\n',
        "[keys]\n[look]\n\"theme\" = 'dark'\n# the end",
        'keys."next slot" = "m"\nspeed = 2.0\nkeys."undo" = ""\n',
        "",
    ],
)
def test_a_file_is_changed_whichever_way_its_tables_are_written(tmp_path: Path, text: str) -> None:
    # The ways to write a table are those of toml.io/en/v1.0.0.
    changed(tmp_path, text)
    assert [path.name for path in tmp_path.iterdir()] == [FILE]


@pytest.mark.parametrize(
    "text",
    # A fault made while the window is open; a way of writing in which the library takes nothing out.
    ["speed = fast", 'keys."next slot" = "m"\nspeed = 2.0\nkeys."undo" = ""\n'],
)
def test_a_file_that_cannot_be_changed_is_kept_aside(tmp_path: Path, text: str) -> None:
    (tmp_path / FILE).write_text(text, "utf-8")
    save_settings(tmp_path, Settings(sound=True))
    assert load_settings(tmp_path) == Loaded(Settings(sound=True))
    assert (tmp_path / "settings.damaged-1.toml").read_text("utf-8") == text


def test_two_windows_keep_what_each_has_chosen(tmp_path: Path) -> None:
    (tmp_path / FILE).write_text("speed = 2.0 # as at the club\n", "utf-8")
    chosen = load_settings(tmp_path).settings
    first, second = WindowSettings(tmp_path, chosen), WindowSettings(tmp_path, chosen)
    dark = replace(chosen, rest_minutes=60, look=replace(chosen.look, theme="dark"))
    second.save(dark)
    first.save(replace(chosen, sound=True, look=replace(chosen.look, letters=True)))
    both = replace(dark, sound=True, look=replace(dark.look, letters=True))
    assert load_settings(tmp_path) == Loaded(both)
    # What is chosen anew, also as it was before, counts as the last change.
    second.save(chosen)
    assert load_settings(tmp_path) == Loaded(
        replace(chosen, sound=True, look=replace(chosen.look, letters=True))
    )
    assert (tmp_path / FILE).read_text("utf-8").startswith("speed = 2.0 # as at the club\n")


def test_what_could_not_be_saved_is_saved_with_the_next_choice(tmp_path: Path) -> None:
    folder = tmp_path / "folder"
    folder.write_text("in the way")
    window = WindowSettings(folder, Settings())
    with pytest.raises(OSError, match="folder"):
        window.save(Settings(sound=True))
    folder.unlink()
    save_settings(folder, Settings(rest_minutes=60))
    window.save(Settings(sound=True, speed=2.0))
    assert load_settings(folder) == Loaded(Settings(sound=True, speed=2.0, rest_minutes=60))


def test_a_file_that_cannot_be_read_is_named(tmp_path: Path) -> None:
    # A file in the place of the folder refuses the superuser, too.
    folder = tmp_path / "folder"
    folder.write_text("in the way")
    found = load_settings(folder)
    assert found.settings == Settings()
    assert found.notice.startswith(f"The program cannot read {folder / FILE} (")
