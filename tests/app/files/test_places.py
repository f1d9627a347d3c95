import os
import sqlite3
import subprocess
import sys
from pathlib import Path
from typing import NoReturn

import pytest
from hypothesis import given
from hypothesis import strategies as some

from tutor.app.files.places import FILE, LOCK, PlacesFile, load_places, merged
from tutor.progress.attempt import LONGEST_NAME
from tutor.session.state import LessonPlace

names = some.sampled_from("abcdef")
kept_places = some.dictionaries(names, some.integers(0, 3)).map(
    lambda found: tuple(LessonPlace(*item) for item in found.items())
)


def test_places_come_back_as_they_were_kept(tmp_path: Path) -> None:
    places = (LessonPlace("made-pair", 3, (1, 2)), LessonPlace("notation", 1000, (1, 3), finished=True))
    PlacesFile(tmp_path / "new").save(places)
    assert PlacesFile(tmp_path / "new").load() == places
    assert sorted(path.name for path in (tmp_path / "new").iterdir()) == [FILE, LOCK]


def test_a_file_from_before_tasks_were_counted_is_read_and_what_was_finished_has_its_tick(
    tmp_path: Path,
) -> None:
    (tmp_path / FILE).write_bytes(b'[["made-pair",3],["notation",1000]]')
    assert load_places(tmp_path) == (LessonPlace("made-pair", 3), LessonPlace("notation", 1000))
    assert [place.ticked for place in load_places(tmp_path)] == [False, True]


@pytest.mark.parametrize("content", [b"", b'[["\xff", 1]]', b"[1]", b'[["a", -1]]', b'{"a": 1}', b"\xff"])
def test_a_file_that_makes_no_sense_counts_as_none(tmp_path: Path, content: bytes) -> None:
    (tmp_path / FILE).write_bytes(content)
    assert load_places(tmp_path) == ()


def test_a_long_name_is_read_as_it_was_written(tmp_path: Path) -> None:
    # A name of 255 characters, the longest that file systems usually take (common practice), less its ending.
    places = (LessonPlace("made-pair", 3), LessonPlace(f"{'A' * LONGEST_NAME}/{'k' * 250}", 1))
    PlacesFile(tmp_path).save(places)
    assert load_places(tmp_path) == places


def test_a_lesson_whose_file_is_named_in_no_utf_8_costs_no_other(tmp_path: Path) -> None:
    # As Python reads the name a\xff of a file (PEP 383).
    PlacesFile(tmp_path).save((LessonPlace("a\udcff", 2), LessonPlace("made-pair", 3)))
    assert load_places(tmp_path) == (LessonPlace("made-pair", 3),)


def test_one_place_that_makes_no_sense_costs_no_other(tmp_path: Path) -> None:
    (tmp_path / FILE).write_bytes(b'[["made-pair",3],["notation",-1],7,["raising",2]]')
    window = PlacesFile(tmp_path)
    places = window.load()
    assert places == (LessonPlace("made-pair", 3), LessonPlace("raising", 2))
    window.save((*places, LessonPlace("parts", 1)))
    assert load_places(tmp_path) == (*places, LessonPlace("parts", 1))


def test_a_folder_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    for folder in (tmp_path / "file", tmp_path / "file" / "folder"):
        with pytest.raises(OSError, match="file"):
            PlacesFile(folder).save((LessonPlace("made-pair", 1),))
        assert load_places(folder) == ()


def test_a_file_that_another_program_locks_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def locked(folder: Path, lock: str) -> NoReturn:
        raise sqlite3.OperationalError("database is locked")

    monkeypatch.setattr("tutor.app.files.places.alone", locked)
    with pytest.raises(OSError, match=f"database is locked: '{tmp_path / FILE}'"):
        PlacesFile(tmp_path).save((LessonPlace("made-pair", 1),))


def test_two_windows_keep_what_each_has_opened(tmp_path: Path) -> None:
    PlacesFile(tmp_path).save((LessonPlace("notation", 0), LessonPlace("made-pair", 3)))
    first, second = PlacesFile(tmp_path), PlacesFile(tmp_path)
    assert first.load() == second.load()
    first.save((LessonPlace("notation", 0), LessonPlace("made-pair", 5)))
    second.save((LessonPlace("notation", 0), LessonPlace("made-pair", 3), LessonPlace("raising", 2)))
    assert load_places(tmp_path) == (
        LessonPlace("notation", 0),
        LessonPlace("made-pair", 5),
        LessonPlace("raising", 2),
    )
    first.save((LessonPlace("made-pair", 5), LessonPlace("notation", 1)))
    assert load_places(tmp_path) == (
        LessonPlace("made-pair", 5),
        LessonPlace("raising", 2),
        LessonPlace("notation", 1),
    )


def test_a_file_damaged_while_a_window_is_open_is_written_anew_from_what_it_knows(tmp_path: Path) -> None:
    PlacesFile(tmp_path).save((LessonPlace("notation", 4),))
    window = PlacesFile(tmp_path)
    window.load()
    (tmp_path / FILE).write_bytes(b"[[[")
    window.save((LessonPlace("notation", 4), LessonPlace("raising", 2)))
    assert load_places(tmp_path) == (LessonPlace("notation", 4), LessonPlace("raising", 2))


def scenes(places: tuple[LessonPlace, ...]) -> dict[str, int]:
    return {place.lesson: place.scene for place in places}


@given(known=kept_places, others=kept_places, opened=some.lists(some.tuples(names, some.integers(0, 3))))
def test_one_windows_lessons_come_last_and_no_other_is_lost(
    known: tuple[LessonPlace, ...],
    others: tuple[LessonPlace, ...],
    opened: list[tuple[str, int]],
) -> None:
    places = scenes(known)
    for name, scene in opened:
        places.pop(name, None)
        places[name] = scene
    merge = merged(known, tuple(LessonPlace(*item) for item in places.items()), others)
    found = tuple((place.lesson, place.scene) for place in merge)
    new = dict(opened)
    assert dict(found) == {
        **scenes(others),
        **{name: dict(found)[name] for name in new if name in dict(found)},
    }
    assert len(dict(found)) == len(found)
    if opened and opened[-1] not in scenes(known).items():
        assert found[-1] == opened[-1]
    for name, scene in new.items():
        # What was opened anew just as it was known may be left to the other window.
        assert dict(found).get(name) == scene or (name, scene) in scenes(known).items()


WRITES = """
import sys
from pathlib import Path
from tutor.app.files.places import PlacesFile
from tutor.session.state import LessonPlace
window, places = PlacesFile(Path(sys.argv[1])), ()
print("ready", flush=True)
sys.stdin.read()
for number in range(25):
    places = (*places, LessonPlace(f"{sys.argv[2]}-{number}", number))
    window.save(places)
"""


def test_two_windows_that_write_in_the_same_moment_lose_nothing(tmp_path: Path) -> None:
    names = ("one", "two")
    begin, go = os.pipe()
    windows = [
        subprocess.Popen(
            [sys.executable, "-c", WRITES, str(tmp_path), name], stdin=begin, stdout=subprocess.PIPE
        )
        for name in names
    ]
    for window in windows:
        assert window.stdout is not None
        assert window.stdout.readline() == b"ready\n"
    os.close(go)
    os.close(begin)
    for window in windows:
        window.communicate()
        assert window.returncode == 0
    kept = {place.lesson for place in load_places(tmp_path)}
    assert kept == {f"{name}-{number}" for name in names for number in range(25)}


def test_every_learner_of_a_large_group_keeps_the_places_in_all_lessons(tmp_path: Path) -> None:
    places = tuple(LessonPlace(f"Learner {one}/lesson-{two}", 1000) for one in range(60) for two in range(60))
    PlacesFile(tmp_path).save(places)
    assert load_places(tmp_path) == places
