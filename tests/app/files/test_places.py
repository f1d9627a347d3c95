import logging
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as some

from tutor.app.files.places import FILE, PlacesFile, load_places, merged

names = some.sampled_from("abcdef")
kept_places = some.dictionaries(names, some.integers(0, 3)).map(lambda found: tuple(found.items()))


def test_places_come_back_as_they_were_kept(tmp_path: Path) -> None:
    places = (("made-pair", 3), ("notation", 0))
    PlacesFile(tmp_path / "new").save(places)
    assert PlacesFile(tmp_path / "new").load() == places
    assert [path.name for path in (tmp_path / "new").iterdir()] == [FILE]


@pytest.mark.parametrize("content", [b"", b'[["\xff", 1]]', b"[1]", b'[["a", -1]]', b'{"a": 1}', b"\xff"])
def test_a_file_that_makes_no_sense_counts_as_none(tmp_path: Path, content: bytes) -> None:
    (tmp_path / FILE).write_bytes(content)
    assert load_places(tmp_path) == ()


def test_a_folder_that_cannot_be_written_is_no_misfortune(caplog: pytest.LogCaptureFixture) -> None:
    with caplog.at_level(logging.WARNING):
        PlacesFile(Path("/dev/null/nowhere")).save((("made-pair", 1),))
    assert "the program cannot save where you left the lessons: " in caplog.text
    assert load_places(Path("/dev/null/nowhere")) == ()


def test_two_windows_keep_what_each_has_opened(tmp_path: Path) -> None:
    PlacesFile(tmp_path).save((("notation", 0), ("made-pair", 3)))
    first, second = PlacesFile(tmp_path), PlacesFile(tmp_path)
    assert first.load() == second.load()
    first.save((("notation", 0), ("made-pair", 5)))
    second.save((("notation", 0), ("made-pair", 3), ("raising", 2)))
    assert load_places(tmp_path) == (("notation", 0), ("made-pair", 5), ("raising", 2))
    first.save((("made-pair", 5), ("notation", 1)))
    assert load_places(tmp_path) == (("made-pair", 5), ("raising", 2), ("notation", 1))


def test_a_file_damaged_while_a_window_is_open_is_written_anew_from_what_it_knows(tmp_path: Path) -> None:
    PlacesFile(tmp_path).save((("notation", 4),))
    window = PlacesFile(tmp_path)
    window.load()
    (tmp_path / FILE).write_bytes(b"[[[")
    window.save((("notation", 4), ("raising", 2)))
    assert load_places(tmp_path) == (("notation", 4), ("raising", 2))


@given(known=kept_places, others=kept_places, opened=some.lists(some.tuples(names, some.integers(0, 3))))
def test_one_windows_lessons_come_last_and_no_other_is_lost(
    known: tuple[tuple[str, int], ...],
    others: tuple[tuple[str, int], ...],
    opened: list[tuple[str, int]],
) -> None:
    places = dict(known)
    for name, scene in opened:
        places.pop(name, None)
        places[name] = scene
    found = merged(known, tuple(places.items()), others)
    new = dict(opened)
    assert dict(found) == {**dict(others), **{name: dict(found)[name] for name in new if name in dict(found)}}
    assert len(dict(found)) == len(found)
    if opened and opened[-1] not in known:
        assert found[-1] == opened[-1]
    for name, scene in new.items():
        # What was opened anew just as it was known may be left to the other window.
        assert dict(found).get(name) == scene or (name, scene) in known
