"""Reading scripts: form, limits, and all faults in one go."""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tutor.lesson.problems import LessonError, Problem
from tutor.lesson.reading import LARGEST_FILE, MOST_PROBLEMS, read_script
from tutor.lesson.script import AskScript, ShowScript

GOOD = """\
title = "A title"
goal = "A goal."

[[scene]]
kind = "show"
text = "See."
setup = "R U R'"
slot = "FR"
parts = [{ turns = "R", text = "Now." }]

[[scene]]
kind = "ask"
text = "Go."
from = "start"
extent = "turn"
"""


def problems(text: str) -> list[tuple[int, str, str, str]]:
    with pytest.raises(LessonError) as caught:
        read_script(text, "file.toml")
    return [(p.line, p.key, p.message, p.advice) for p in caught.value.problems]


def test_a_good_script_is_read_into_its_types() -> None:
    script = read_script(GOOD, "file.toml").script
    show, ask = script.scene
    assert isinstance(show, ShowScript)
    assert show.parts[0].turns == "R"
    assert isinstance(ask, AskScript)
    assert (ask.origin, ask.extent) == ("start", "turn")


def test_all_faults_are_told_in_one_go_with_line_key_and_advice() -> None:
    text = (
        GOOD.replace('goal = "A goal."', "goal = 3")
        .replace('text = "Now."', 'txt = "Now."')
        .replace('"turn"', '"turns"')
        .replace('slot = "FR"', 'slot = "RF"\nspeed = 9')
    )
    found = problems(text)
    assert [(line, key) for line, key, _, _ in found] == [
        (2, "goal"),
        (8, "scene 1: slot"),
        (9, "scene 1: speed"),
        (10, "scene 1: parts 1: txt"),
        (16, "scene 2: extent"),
    ]
    advice = [advice for *_, advice in found]
    assert "in quotes" in advice[0]
    assert "FR, FL, BL, BR" in advice[1]
    assert "0.25 to 4" in advice[2]
    assert "“text”" in advice[3]
    assert "turn, step, case" in advice[4]


def test_missing_keys_are_told_at_their_table() -> None:
    found = problems('title = "t"\n[[scene]]\nkind = "find"\ntext = "x"\n')
    assert [(line, key, message) for line, key, message, _ in found] == [
        (1, "goal", "This key is missing."),
        (2, "scene 1: what", "This key is missing."),
    ]


def test_an_unknown_kind_of_scene_lists_the_kinds() -> None:
    [(line, key, _, advice)] = problems(GOOD.replace('"ask"', '"aks"'))
    assert (line, key) == (12, "scene 2: kind")
    assert "tell, show, ask, find, choose, alone, recap" in advice


@pytest.mark.parametrize(
    ("text", "line"),
    [('title = "t', 1), ("title = 1\ntitle = 2\n", 2), ("[a\n", 1), ("a = 1\n[[a]]\n", 2), ("\n\n= 3", 3)],
)
def test_bad_syntax_is_told_with_its_line(text: str, line: int) -> None:
    [(found, _, message, _)] = problems(text)
    assert found == line
    assert "not TOML" in message


def test_a_text_of_the_wrong_shape_is_refused_without_an_exception() -> None:
    assert problems("scene = 3")
    assert problems('scene = [1, "a", []]\ntitle = []\ngoal = {}')
    assert problems(GOOD.replace('parts = [{ turns = "R", text = "Now." }]', "parts = [1]"))


@pytest.mark.parametrize(
    "text",
    [
        "a = " + "[" * 900 + "]" * 900,
        "a = " + "\n[" * 30_000,
        "a = " + "\n[" * 30_000 + "]" * 1900,
        ".".join("a" * 900) + " = 1",
        "a = " + "9" * 1900,
        "x" * (LARGEST_FILE + 1),
        "a = 1 #" + "x" * 3000,
        "\n".join(f"k{n} = 1" for n in range(5_000)),
        'title = "t"\ngoal = "g"\n' + '[[scene]]\nkind = "tell"\ntext = "x"\n' * 1_500,
    ],
)
def test_hostile_files_end_in_few_messages(text: str) -> None:
    found = problems(text)
    assert 0 < len(found) <= MOST_PROBLEMS
    assert all(len(message) + len(advice) < 600 for *_, message, advice in found)


def faults(text: str) -> tuple[Problem, ...]:
    try:
        read_script(text, "file.toml")
    except LessonError as error:
        return error.problems
    return ()


@given(st.text(max_size=200))
def test_any_text_that_is_no_script_is_refused_with_problems(text: str) -> None:
    assert faults(text)


@given(st.integers(0, len(GOOD)), st.sampled_from(list("[]{}\"'=.,#\n0a")))
def test_a_script_with_one_character_changed_is_read_or_refused_at_a_line(at: int, character: str) -> None:
    text = GOOD[:at] + character + GOOD[at + 1 :]
    assert all(1 <= problem.line <= text.count("\n") + 1 for problem in faults(text))


def test_lines_are_found_in_files_with_windows_line_ends() -> None:
    text = GOOD.replace("\n", "\r\n").replace('"turn"', '"turns"')
    assert tomllib.loads(text)
    [(line, key, _, _)] = problems(text)
    assert (line, key) == (15, "scene 2: extent")
