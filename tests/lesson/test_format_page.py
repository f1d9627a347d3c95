"""The page that describes the format: in step with the types, its examples without fault."""

from __future__ import annotations

import re
from importlib import resources

import pytest

import lessons
from tutor.cube.held_cube import HeldCube
from tutor.lesson.assembly import LessonSetting, assemble
from tutor.lesson.checker import check_script
from tutor.lesson.format_page import PAGE, SCHEMA, filled_page, schema_text, tables
from tutor.lesson.questions import Answerer
from tutor.lesson.reading import read_script
from tutor.lesson.script import SCENE_TYPES

TEXT = resources.files(lessons).joinpath(PAGE).read_text(encoding="utf-8")
EXAMPLES = re.findall(r"```toml\n(.*?)```", TEXT, flags=re.DOTALL)


def test_the_tables_are_those_of_the_types() -> None:
    assert filled_page(TEXT) == TEXT


def test_the_schema_file_is_that_of_the_types() -> None:
    assert resources.files(lessons).joinpath(SCHEMA).read_text(encoding="utf-8") == schema_text()


def test_every_key_is_described() -> None:
    rows = re.findall(r"^\| (.*) \| (.*) \| (.*) \|$", tables(), flags=re.MULTILINE)
    assert len(rows) > 40
    assert all(all(cell.strip() for cell in row) for row in rows)
    for kind in SCENE_TYPES:
        assert f"**{kind}**" in TEXT


def test_a_page_without_marks_is_refused() -> None:
    with pytest.raises(ValueError, match="needs the marks"):
        filled_page("no marks")


@pytest.mark.parametrize("example", EXAMPLES)
def test_nothing_is_wrong_with_an_example(example: str, answers: Answerer) -> None:
    assert check_script(read_script(example, "example.toml"), answers) == ()


def test_there_are_examples_and_the_three_ways_to_start_agree(answers: Answerer) -> None:
    assert len(EXAMPLES) == 5
    lesson = assemble(read_script(EXAMPLES[1], "example.toml"), "example", LessonSetting(answers))
    by_moves, by_stickers = lesson.scenes[1].cube, lesson.scenes[2].cube
    assert isinstance(by_moves, HeldCube)
    assert by_moves == by_stickers
