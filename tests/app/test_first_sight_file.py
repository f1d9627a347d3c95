from __future__ import annotations

from pathlib import Path

import pytest

from tutor.app.first_sight_file import FILE, HomeInSight

SIZE = (4, 2)
PIXELS = bytes(range(24))


def written(folder: Path, shown: Path) -> HomeInSight:
    home = HomeInSight(folder, lambda: (shown,))
    home.keep(SIZE, 1.0, PIXELS)
    home.write()
    return home


def test_a_picture_comes_back_as_it_was_kept(tmp_path: Path) -> None:
    written(tmp_path / "new", tmp_path / "settings.toml")
    again = HomeInSight(tmp_path / "new", lambda: (tmp_path / "settings.toml",))
    assert again.kept(SIZE, 1.0) == PIXELS
    assert [path.name for path in (tmp_path / "new").iterdir()] == [FILE]


@pytest.mark.parametrize("change", ["made", "changed", "gone"])
def test_a_picture_of_what_has_changed_since_is_not_shown(tmp_path: Path, change: str) -> None:
    shown = tmp_path / "settings.toml"
    if change != "made":
        shown.write_text("one", "utf-8")
    home = written(tmp_path, shown)
    assert home.kept(SIZE, 1.0) == PIXELS
    if change == "gone":
        shown.unlink()
    else:
        shown.write_text("another", "utf-8")
    assert home.kept(SIZE, 1.0) is None


def test_a_picture_of_another_size_or_density_is_not_shown(tmp_path: Path) -> None:
    home = written(tmp_path, tmp_path / "settings.toml")
    assert home.kept((2, 4), 1.0) is None
    assert home.kept(SIZE, 2.0) is None


@pytest.mark.parametrize("damage", [b"", b"4 2 1.000\n", b"\n\n\n", b"cut", b"zero"])
def test_a_damaged_picture_counts_as_none(tmp_path: Path, damage: bytes) -> None:
    home = written(tmp_path, tmp_path / "settings.toml")
    path = tmp_path / FILE
    whole = path.read_bytes()
    path.write_bytes({b"cut": whole[:-3], b"zero": whole[:-4] + b"0000"}.get(damage, damage))
    assert home.kept(SIZE, 1.0) is None


def test_nothing_taken_is_nothing_written(tmp_path: Path) -> None:
    HomeInSight(tmp_path, tuple).write()
    assert not list(tmp_path.iterdir())


def test_a_folder_that_cannot_be_written_stops_nobody(
    tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    (tmp_path / "file").write_text("", "utf-8")
    written(tmp_path / "file", tmp_path / "settings.toml")
    assert "cannot be kept" in caplog.text
