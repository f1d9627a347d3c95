"""The library: packaged lessons and a teacher's folder."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import Any

import pytest

from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import (
    MOST_BYTES,
    MOST_LESSONS,
    curriculum_names,
    find_script,
    lesson_entries,
    lesson_list,
    lesson_names,
    load_lesson,
)
from tutor.lesson.problems import LessonError
from tutor.lesson.questions import Answerer
from tutor.lesson.reading import LARGEST_FILE
from tutor.plain_file import read_plain

SCRIPT = 'title = "Mine"\ngoal = "A goal."\n[[scene]]\nkind = "tell"\ntext = "Hello."\n'


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "zebra.toml").write_text(SCRIPT, encoding="utf-8")
    (tmp_path / "apple.toml").write_text('title = "t"\ngoal = 1\nscene = []\n', encoding="utf-8")
    (tmp_path / "made-pair.toml").write_text(SCRIPT, encoding="utf-8")
    (tmp_path / "notes.txt").write_text("no lesson", encoding="utf-8")
    return tmp_path


def test_the_curriculum_comes_first_then_the_folder_by_name(folder: Path) -> None:
    assert lesson_names() == curriculum_names()
    assert lesson_names(folder) == (*curriculum_names(), "apple", "zebra")
    assert lesson_names(folder / "missing") == curriculum_names()


def test_a_script_in_the_folder_takes_the_place_of_a_lesson_of_its_name(
    folder: Path, answers: Answerer
) -> None:
    assert load_lesson("made-pair", LessonSetting(answers), folder).title == "Mine"
    assert load_lesson("made-pair", LessonSetting(answers)).title != "Mine"


def test_a_script_that_cannot_be_read_is_listed_with_why(folder: Path) -> None:
    entries = {entry.name: entry for entry in lesson_entries(folder)}
    assert (entries["zebra"].title, entries["zebra"].goal, entries["zebra"].problem) == (
        "Mine",
        "A goal.",
        "",
    )
    assert entries["apple"].title == "apple"
    assert "apple.toml:2: goal" in entries["apple"].problem


def test_a_lesson_can_be_named_by_its_path(folder: Path, answers: Answerer) -> None:
    lesson = load_lesson(str(folder / "zebra.toml"), LessonSetting(answers))
    assert (lesson.name, lesson.title, len(lesson.scenes)) == ("zebra", "Mine", 1)


@pytest.mark.parametrize("name", ["nothing", "../lessons/made-pair", "curriculum", "", "/etc/passwd"])
def test_an_unknown_name_is_refused_with_the_known_ones(name: str, folder: Path) -> None:
    with pytest.raises(LessonError) as refused:
        find_script(name, folder)
    # No line of a file is named, since there is none, and a path is said to work.
    assert str(refused.value).startswith(f"{name}: There is no lesson of this name. The lessons are notation")
    assert str(refused.value).endswith("write its file, such as my-lessons/evening-club.toml.")


def test_a_folder_is_looked_through_once_for_its_list(folder: Path) -> None:
    looks = []

    def watch(event: str, arguments: tuple[Any, ...]) -> None:
        if event in ("os.scandir", "os.listdir") and Path(str(arguments[0])) == folder:
            looks.append(event)

    # Python's own report of what it asks of the system (PEP 578); a hook stays, and after this hears nothing.
    sys.addaudithook(watch)
    assert len(lesson_entries(folder)) == len(curriculum_names()) + 2
    assert len(looks) == 1


def test_a_script_of_a_lesson_that_is_opened_is_found_without_a_list(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("os.scandir", None)
    monkeypatch.setattr("os.listdir", None)
    assert find_script("zebra", folder).script.title == "Mine"


def test_what_is_not_listed_of_a_large_folder_is_said_and_can_still_be_opened(tmp_path: Path) -> None:
    for number in range(MOST_LESSONS + 3):
        (tmp_path / f"lesson-{number:03}.toml").write_text(SCRIPT, encoding="utf-8")
    listed = lesson_list(tmp_path)
    own = [entry.name for entry in listed.entries if entry.name not in curriculum_names()]
    assert own == [f"lesson-{number:03}" for number in range(MOST_LESSONS)]
    assert listed.left_out == (
        f"There are 203 lessons in {tmp_path}. You see the first 200 by name: 3 are not listed. "
        "Move some to another folder."
    )
    assert find_script("lesson-202", tmp_path).script.title == "Mine"


@pytest.fixture
def opened(monkeypatch: pytest.MonkeyPatch) -> list[Path]:
    """Every file of ones own that is opened."""
    read: list[Path] = []

    def noted(path: Path, most: int) -> bytes:
        read.append(path)
        return read_plain(path, most)

    monkeypatch.setattr("tutor.lesson.library.read_plain", noted)
    return read


def test_of_ten_thousand_scripts_no_more_are_read_than_are_listed(tmp_path: Path, opened: list[Path]) -> None:
    (tmp_path / "lesson-00000.toml").write_text(SCRIPT, encoding="utf-8")
    for number in range(1, 10_000):
        os.link(tmp_path / "lesson-00000.toml", tmp_path / f"lesson-{number:05}.toml")
    listed = lesson_list(tmp_path)
    assert [path.name for path in opened] == [f"lesson-{number:05}.toml" for number in range(MOST_LESSONS)]
    assert len(listed.entries) == len(curriculum_names()) + MOST_LESSONS
    assert listed.left_out == (
        f"There are 10,000 lessons in {tmp_path}. You see the first 200 by name: 9,800 are not listed. "
        "Move some to another folder."
    )


def test_of_large_scripts_no_more_is_read_than_a_person_waits_for(tmp_path: Path, opened: list[Path]) -> None:
    large = SCRIPT + "# a long remark\n" * 3000
    for number in range(50):
        (tmp_path / f"lesson-{number:02}.toml").write_text(large, encoding="utf-8")
    listed = lesson_list(tmp_path)
    assert MOST_BYTES - len(large) < sum(path.stat().st_size for path in opened) <= MOST_BYTES
    assert listed.left_out == (
        f"There are 50 lessons in {tmp_path}. You see the first 21 by name: 29 are not listed. "
        "Move some to another folder."
    )


def test_a_fault_of_form_still_names_its_line(tmp_path: Path) -> None:
    (tmp_path / "mine.toml").write_bytes(SCRIPT.replace("\n", "\r\n").replace("tell", "tel").encode())
    (mine,) = (entry for entry in lesson_entries(tmp_path) if entry.name == "mine")
    assert mine.problem.startswith(f"{tmp_path / 'mine.toml'}:4: ")


def test_a_folder_of_which_all_is_listed_needs_no_word(folder: Path) -> None:
    assert lesson_list(folder).left_out == ""
    assert lesson_list(folder / "missing").left_out == ""


def test_a_folder_that_is_none_is_said(folder: Path) -> None:
    assert "cannot be read: Not a directory" in lesson_list(folder / "notes.txt").left_out


def test_a_script_that_is_too_large_is_listed_with_the_size_that_is_allowed(tmp_path: Path) -> None:
    (tmp_path / "long.toml").write_text(SCRIPT + "#" * LARGEST_FILE, encoding="utf-8")
    (long,) = (entry for entry in lesson_entries(tmp_path) if entry.name == "long")
    assert long.problem.endswith("The file is too large. Keep a script within 65,536 bytes.")


@pytest.mark.parametrize(("file", "name"), [("mine.toml.toml", "mine.toml"), ("mine.TOML", "mine.TOML")])
def test_a_script_with_an_odd_name_is_listed_and_opened_with_what_to_call_it(
    file: str, name: str, tmp_path: Path
) -> None:
    (tmp_path / file).write_text(SCRIPT, encoding="utf-8")
    listed = {entry.name: entry.problem for entry in lesson_entries(tmp_path)}
    assert listed[name].endswith(" Rename the file to mine.toml.")
    with pytest.raises(LessonError, match=r"Rename the file to mine\.toml\."):
        find_script(name, tmp_path)


def test_what_an_editor_leaves_behind_is_no_lesson(tmp_path: Path) -> None:
    for file in (".toml", "._mine.toml", ".mine.toml"):
        (tmp_path / file).write_text(SCRIPT, encoding="utf-8")
    assert lesson_names(tmp_path) == curriculum_names()
