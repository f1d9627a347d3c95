from pathlib import Path

import pytest

from tutor.app.places_file import FILE, load_places, save_places


def test_places_come_back_as_they_were_kept(tmp_path: Path) -> None:
    places = (("made-pair", 3), ("notation", 0))
    save_places(tmp_path / "new", places)
    assert load_places(tmp_path / "new") == places
    assert [path.name for path in (tmp_path / "new").iterdir()] == [FILE]


@pytest.mark.parametrize("content", [b"", b'[["\xff", 1]]', b"[1]", b'[["a", -1]]', b'{"a": 1}', b"\xff"])
def test_a_file_that_makes_no_sense_counts_as_none(tmp_path: Path, content: bytes) -> None:
    (tmp_path / FILE).write_bytes(content)
    assert load_places(tmp_path) == ()


def test_a_folder_that_cannot_be_written_is_no_misfortune() -> None:
    save_places(Path("/dev/null/nowhere"), (("made-pair", 1),))
    assert load_places(Path("/dev/null/nowhere")) == ()
