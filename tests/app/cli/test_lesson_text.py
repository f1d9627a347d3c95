"""``lesson text``: the words of the course as a teacher reads them."""

from __future__ import annotations

from functools import partial
from pathlib import Path

import pytest

from tutor.app.cli.command_line import main
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import curriculum_names, load_lesson
from tutor.lesson.scenes import Quiz, Recap, Show
from tutor.method.answer import answer
from tutor.solver.search import Solver

SCRIPT = """\
title = "Mine"
goal = "You can print it."

[[scene]]
kind = "show"
case = "corner-right-edge-back-front-up"
slot = "FR"
text = "Watch both."
parts = [
  { turns = "R'", slip = true, text = "{turn:R'} is wrong." },
  { turns = "R2 U R'", text = "This mends it." },
]

[[scene]]
kind = "choose"
from = "start"
text = "Which step is under way?"
about = "step"
because = "The step is {step}."

[[scene]]
kind = "ask"
text = "Solve the pair in {turns.left}."
afterwards = "It is solved."

[[scene]]
kind = "recap"
text = "Take this with you."
points = ["Look first."]
"""

PRINTED = """\
Mine
====
Goal: You can print it.

1. Watch
   Watch both.
      [A slip, on purpose: R'] R' is wrong.
      [Join: R2, Insert: U R'] This mends it.

2. Question
   Which step is under way?
      - Raise
      - Part
      - Join (correct)
      - Insert
      Then: The step is Join.

3. Your turn, until the pair is solved
   Solve the pair in three turns.
      Then: It is solved.

4. Recap
   Take this with you.
      - Look first.
"""


@pytest.fixture
def script(tmp_path: Path) -> Path:
    path = tmp_path / "mine.toml"
    path.write_text(SCRIPT, encoding="utf-8")
    return path


def printed(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    assert main(list(arguments)) == 0
    return capsys.readouterr().out


def test_a_lesson_is_printed_with_everything_that_is_read_in_it(
    script: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert printed(capsys, "lesson", "text", str(script)) == PRINTED


def test_the_whole_course_is_printed_in_its_order_and_no_word_is_missing(
    capsys: pytest.CaptureFixture[str],
) -> None:
    told = " ".join(printed(capsys, "lesson", "text").split())
    setting, names = LessonSetting(partial(answer, Solver.open())), curriculum_names()
    ends = 0
    for number, name in enumerate(names, start=1):
        lesson = load_lesson(name, setting)
        begins = told.index(f"Lesson {number}: {lesson.title}", ends)
        for scene in lesson.scenes:
            said = [scene.card_text, getattr(scene, "afterwards", "")]
            said += [segment.text for segment in scene.segments] if isinstance(scene, Show) else []
            if isinstance(scene, Quiz):
                said += [scene.because, *(choice.text for choice in scene.answers)]
            said += scene.points if isinstance(scene, Recap) else []
            assert all(text in told[begins:] for text in said)
        ends = begins
    assert "{" not in told


def test_lessons_are_named_and_keep_their_number_in_the_course(
    capsys: pytest.CaptureFixture[str],
) -> None:
    told = printed(capsys, "lesson", "text", "made-pair", "notation")
    headings = [line.split(":")[0] for line in told.splitlines() if line.startswith("Lesson")]
    assert headings == ["Lesson 4", "Lesson 1"]


def test_lessons_of_a_folder_come_after_the_course(script: Path, capsys: pytest.CaptureFixture[str]) -> None:
    told = printed(capsys, "--lessons", str(script.parent), "lesson", "text", "mine")
    assert told.startswith(f"Lesson {len(curriculum_names()) + 1}: Mine\n")


def test_what_keeps_a_lesson_from_being_printed_is_one_sentence(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["lesson", "text", "nothing-such"]) == 2
    assert "There is no lesson of this name" in capsys.readouterr().err
    bad = tmp_path / "bad.toml"
    bad.write_text('title = "t"\n[[scene]]\nkind = "tell"\ntxet = "x"\n', encoding="utf-8")
    assert main(["lesson", "text", str(bad)]) == 2
    error = capsys.readouterr().err
    assert error.endswith(" There is more; “pairwright lesson check FILE” lists it all\n")
    assert error.count("\n") == 1
    # A film says no more than that either: the check finds what neither of them looks for.
    assert main(["film", "--lesson", str(bad), "--out", str(tmp_path / "bad.gif")]) == 2
    assert capsys.readouterr().err.partition(": ")[2] == error.partition(": ")[2]
