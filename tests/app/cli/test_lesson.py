"""``lesson check`` and ``lesson new`` as a teacher meets them."""

from __future__ import annotations

from pathlib import Path

import pytest

from tutor.app.cli.command_line import main


def test_a_new_lesson_is_written_and_nothing_is_wrong_with_it(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    case = "corner-up-edge-left-front-up"
    assert (
        main(["lesson", "new", "my-lesson", "--case", case, "--slot", "BL", "--folder", str(tmp_path)]) == 0
    )
    path = tmp_path / "my-lesson.toml"
    assert capsys.readouterr().out.startswith(f"{path} is written. Play it with: ")
    assert main(["lesson", "check", str(path)]) == 0
    assert capsys.readouterr().out == f"{path}: nothing wrong\n"


def test_what_is_wrong_with_any_file_is_told_and_the_status_is_1(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    bad, good = tmp_path / "bad.toml", tmp_path / "good.toml"
    good.write_text('title = "t"\ngoal = "g"\n[[scene]]\nkind = "tell"\ntext = "x"\n', encoding="utf-8")
    bad.write_text('title = "t"\n[[scene]]\nkind = "tell"\ntxet = "x"\n', encoding="utf-8")
    assert main(["lesson", "check", str(bad), str(good), str(tmp_path / "none.toml")]) == 1
    lines = capsys.readouterr().out.splitlines()
    assert [line.split(": ")[0] for line in lines] == [
        f"{bad}:1",
        f"{bad}:2",
        f"{bad}:4",
        str(good),
        str(tmp_path / "none.toml"),
    ]
    assert "There is no key “txet” here. Did you mean “text”?" in lines[2]


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["my-lesson", "--case", "corner-upp"], "“pairwright cases” lists all"),
        (["My Lesson", "--case", "corner-up-edge-in-straight"], "cannot name a lesson"),
        (["a", "--case", "corner-up-edge-in-straight", "--slot", "RF"], "write one of FR, FL, BL, BR"),
        (["a", "--case", "corner-up-edge-in-straight", "--folder", "/dev/null/lessons"], "cannot be written"),
    ],
)
def test_wrong_arguments_are_answered_in_one_sentence_with_status_2(
    arguments: list[str], words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["lesson", "new", *arguments]) == 2
    error = capsys.readouterr().err
    assert words in error
    assert error.count("\n") == 1


def test_a_file_that_is_there_is_never_written_over(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "mine.toml"
    path.write_text("precious", encoding="utf-8")
    command = ["lesson", "new", "mine", "--case", "corner-up-edge-in-straight", "--folder", str(tmp_path)]
    assert main(command) == 2
    assert "is there already" in capsys.readouterr().err
    assert path.read_text(encoding="utf-8") == "precious"


def test_what_could_be_better_is_told_and_the_status_is_0(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "fair.toml"
    answers = 'answers = [{ text = "a", true = true }, { text = "b" }]'
    head = 'title = "t"\ngoal = "g"\n[[scene]]\nkind = "choose"\ntext = "x"\n'
    path.write_text(f"{head}{answers}\n", encoding="utf-8")
    assert main(["lesson", "check", str(path)]) == 0
    assert capsys.readouterr().out.startswith(f"{path}:6: scene 1: answers 2: Please look at this: ")
