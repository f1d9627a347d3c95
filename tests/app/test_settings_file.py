from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tutor.app.settings_file import FILE, Loaded, load_settings, save_settings
from tutor.cube.faces import FACES
from tutor.cube.stickers import COLOUR_NAMES
from tutor.session.looks import PALETTES, THEMES
from tutor.session.settings import Settings
from tutor.session.view import Look


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
    reduced_motion=st.booleans(),
    sound=st.booleans(),
    single_keys=st.booleans(),
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


def test_without_a_file_the_usual_settings_hold(tmp_path: Path) -> None:
    assert load_settings(tmp_path) == Loaded(Settings())


@pytest.mark.parametrize(
    ("content", "named"),
    [
        (b"speed = 1.0.0", ""),
        (b"speed = 99.0", "speed"),
        (b"cross = 'pink'", "cross"),
        (b"rest_minutes = 3", "rest_minutes: 0 for never"),
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


def test_a_second_damaged_file_does_not_overwrite_the_first(tmp_path: Path) -> None:
    for content in (b"one", b"two"):
        (tmp_path / FILE).write_bytes(content)
        load_settings(tmp_path)
    assert sorted(path.read_bytes() for path in tmp_path.iterdir()) == [b"one", b"two"]


def test_own_keys_come_back_as_written(tmp_path: Path) -> None:
    (tmp_path / FILE).write_text('speed = 2.0\n[keys]\n"turn R" = "i"\n"take back" = ""\n', "utf-8")
    loaded = load_settings(tmp_path)
    assert loaded == Loaded(Settings(speed=2.0, keys=(("turn R", "i"), ("take back", ""))))
    save_settings(tmp_path, loaded.settings)
    assert load_settings(tmp_path) == loaded


@pytest.mark.parametrize(
    ("line", "named"),
    [
        ('"turn Q" = "i"', "nothing is called “turn Q”"),
        ('"turn R" = "hyper+i"', "“hyper+i” is no key"),
        ('"turn R" = "h"', "“h” would do two things"),
        ('"turn R" = 3', "keys"),
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
    readme = (Path(__file__).parents[2] / "README.md").read_text("utf-8")
    shown = readme.partition("```toml\n")[2].partition("```")[0]
    (tmp_path / FILE).write_text(shown, "utf-8")
    loaded = load_settings(tmp_path)
    assert loaded.notice == ""
    assert dict(loaded.settings.keys)["turn R"] == "i"
    assert loaded.settings.colour_names[0] == "white"


def test_a_file_that_cannot_be_read_is_named(tmp_path: Path) -> None:
    # A file in the place of the folder refuses the superuser, too.
    folder = tmp_path / "folder"
    folder.write_text("in the way")
    found = load_settings(folder)
    assert found.settings == Settings()
    assert found.notice.startswith(f"{folder / FILE} cannot be read (")
