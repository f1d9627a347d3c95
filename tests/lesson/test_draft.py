"""Drafts made from a case's own route."""

from __future__ import annotations

import pytest

from tutor.cube.position import SLOTS, Slot
from tutor.lesson.assembly import Setting, assemble
from tutor.lesson.checker import check_script
from tutor.lesson.draft import draft, parse_name
from tutor.lesson.questions import Answerer
from tutor.lesson.reading import read_script
from tutor.lesson.scenes import Alone, Ask, Choose, Show
from tutor.method.cases import CASES, Case


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.slug)
def test_the_draft_of_every_case_is_a_lesson_with_nothing_wrong(case: Case, answers: Answerer) -> None:
    slot = SLOTS[CASES.index(case) % 4]
    read = read_script(draft("my-lesson", case, slot, answers), "my-lesson.toml")
    assert check_script(read, answers) == ()
    lesson = assemble(read, "my-lesson", Setting(answers))
    kinds = [type(scene) for scene in lesson.scenes]
    assert {Show, Ask, Choose} < set(kinds)
    assert kinds.count(Alone) == 2
    show = next(scene for scene in lesson.scenes if isinstance(scene, Show))
    assert show.task is not None
    assert show.task.slot is slot
    assert show.task.done(show.end.position)
    assert {scene.task.slot for scene in lesson.scenes if scene.task} == set(SLOTS)


def test_a_draft_tells_the_case_and_its_turns_in_comments(answers: Answerer) -> None:
    text = draft("my-lesson", CASES[0], Slot.FR, answers)
    comments = [line for line in text.splitlines() if line.startswith("#")]
    assert CASES[0].name in comments[0]
    assert any(line.startswith("# Route") for line in comments)
    assert 'title = "My lesson"' in text


@pytest.mark.parametrize("name", ["my-lesson", "a", "corner-2"])
def test_a_good_name_stays(name: str) -> None:
    assert parse_name(name) == name


@pytest.mark.parametrize("name", ["", "My", "a b", "../a", "a.toml", "-a", "a--b", "x" * 41, "é"])
def test_a_name_that_is_no_file_stem_is_refused_with_an_example(name: str) -> None:
    with pytest.raises(ValueError, match="for example"):
        parse_name(name)
