"""The library: packaged lessons and a teacher's folder."""

from __future__ import annotations

from pathlib import Path

import pytest

from tutor.lesson.assemble import Setting
from tutor.lesson.library import curriculum_names, find_script, lesson_entries, lesson_names, load_lesson
from tutor.lesson.problems import LessonError
from tutor.lesson.questions import Answerer

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
    assert load_lesson("made-pair", Setting(answers), folder).title == "Mine"
    assert load_lesson("made-pair", Setting(answers)).title != "Mine"


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
    lesson = load_lesson(str(folder / "zebra.toml"), Setting(answers))
    assert (lesson.name, lesson.title, len(lesson.scenes)) == ("zebra", "Mine", 1)


@pytest.mark.parametrize("name", ["nothing", "../lessons/made-pair", "curriculum", "", "/etc/passwd"])
def test_an_unknown_name_is_refused_with_the_known_ones(name: str, folder: Path) -> None:
    with pytest.raises(LessonError, match="there is no lesson of this name"):
        find_script(name, folder)
