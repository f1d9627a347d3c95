"""The checker: everything wrong in one go, each with line, key and what would be right."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tutor.cube.position import Position
from tutor.lesson.checker import check_file, check_script
from tutor.lesson.problems import Problem
from tutor.lesson.questions import Answerer
from tutor.lesson.reading import read_script
from tutor.method.answer import Answer
from tutor.solver.task import Task

Check = Callable[[str], list[Problem]]
HEAD = 'title = "A title"\ngoal = "A goal."\n'

TEN_FAULTS = """\
title = "Ten different faults"
goal = "Every one of them is told, each at its line."

[[scene]]
kind = "tell"
text = "A case that does not exist."
case = "corner-up-edge-left"
slot = "FR"

[[scene]]
kind = "show"
text = "A move that is none."
setup = "R U R'"
slot = "FR"
turns = "R2'"

[[scene]]
kind = "show"
text = "A Detour that is not marked."
setup = "R U R'"
slot = "FR"
turns = "R F2"

[[scene]]
kind = "show"
text = "A slip that is none."
setup = "R U R'"
slot = "FR"
turns = "R"
slip = true

[[scene]]
kind = "ask"
text = "Nothing to do here."
setup = ""
slot = "FR"

[[scene]]
kind = "tell"
text = "No colour is up: {edge.up}"
setup = "R U R' U' R U R'"
slot = "FL"

[[scene]]
kind = "choose"
text = "Which turn?"
setup = "R U R'"
slot = "FR"
about = "turn"
answers = [{ value = "R" }, { value = "D", true = true }]

[[scene]]
kind = "tell"
text = "Four pieces are impossible."
stickers = \"\"\"
U: yyy yyy yyy
D: www www www
L: rrr rrr rrr
R: ooo ooo ooo
F: ggg ggg gwg
B: bbb bbb bbb
\"\"\"

[[scene]]
kind = "recap"
text = "LONG"
setup = "R U R'"
slot = "FR"

[[scene]]
kind = "tell"
text = "The corner on the left wants {turn:R}, so turn R."
setup = "R U R'"
slot = "FR"
""".replace("LONG", " ".join(["{corner.colours}"] * 13))


def test_a_file_with_ten_different_faults_has_them_all_told(tmp_path: Path, answers: Answerer) -> None:
    path = tmp_path / "faulty.toml"
    path.write_text(TEN_FAULTS, encoding="utf-8")
    problems = check_file(path, answers)
    found = [(problem.line, problem.key) for problem in problems]
    assert found == [
        (7, "scene 1: case"),
        (15, "scene 2: turns"),
        (22, "scene 3: turns"),
        (29, "scene 4: turns"),
        (32, "scene 5"),
        (40, "scene 6: text"),
        (50, "scene 7: answers 1: value"),
        (50, "scene 7: answers 2: true"),
        (55, "scene 8: stickers"),
        (55, "scene 8: stickers"),
        (66, "scene 9: text"),
        (72, "scene 10: text"),
        (72, "scene 10: text"),
    ]
    advice = "\n".join(str(problem) for problem in problems)
    for words in (
        "corner-up-edge-left-front-up",
        "A half turn ends the same both ways; write R2.",
        "F2 is a Detour",
        "slip = true",
        "None of these turns is a slip.",
        "The pair is solved here already.",
        "{edge.up} has no value here",
        "The answer marked as true is wrong: D. True is R or U.",
        "white is on 10 stickers",
        "Keep it within 240 characters.",
        "“left” is not true in every slot",
        "Write {turn:R}, or write fixed = true",
    ):
        assert words in advice
    assert all(str(path) == problem.file and problem.advice for problem in problems)


def scene(lines: str, kind: str = "tell") -> str:
    return f'[[scene]]\nkind = "{kind}"\ntext = "Text."\nsetup = "R U R\'"\nslot = "FR"\n{lines}\n'


def choose(answers: str, about: str = "") -> str:
    subject = f'about = "{about}"\n' if about else ""
    return scene(f"{subject}answers = [{answers}]", "choose")


def bare(lines: str, text: str = "Text.") -> str:
    return f'[[scene]]\ntext = "{text}"\n{lines}\n'


@pytest.mark.parametrize(
    ("scenes", "key", "message"),
    [
        (
            scene('case = "corner-up-edge-in-straight"'),
            "scene 1: setup",
            "gives its start twice, with case and setup",
        ),
        (scene('top = "U"'), "scene 1: top", "this scene has no case"),
        (scene('keep = ["FR"]'), "scene 1: keep", "a scene cannot keep it"),
        (scene('highlight = ["corner", "UD"]'), "scene 1: highlight 2", "nothing on this cube"),
        (scene('idea = "none"'), "scene 1: idea", "no such idea"),
        (scene("", "show"), "scene 1: turns", "A show scene needs its turns once."),
        (
            scene('turns = "R"\nparts = [{ turns = "R" }]', "show"),
            "scene 1: turns",
            "A show scene needs its turns once.",
        ),
        (scene('turns = "(R) 3"', "show"), "scene 1: turns", "is not a move here"),
        (scene('turns = "y R"', "show"), "scene 1: turns", "is not a move here"),
        (scene('turns = ""', "show"), "scene 1: turns", "There are no turns here."),
        (scene('turns = "(R)41"', "show"), "scene 1: turns", "more turns than anybody can follow"),
        (
            scene('turns = "R"\nsteps = { join = "x" }', "show"),
            "scene 1: steps",
            "turns that the program works out",
        ),
        (
            scene('turns = "route"\nsteps = { raise = "x" }', "show"),
            "scene 1: steps: raise",
            "The route has no Raise here, so nobody will read this.",
        ),
        (scene("", "choose"), "scene 1: answers", "A question needs answers."),
        (
            choose('{ text = "a" }, { text = "b" }'),
            "scene 1: answers",
            "No answer is marked as the true one.",
        ),
        (
            choose('{ text = "a", true = true }, { text = "b", true = true }'),
            "scene 1: answers",
            "2 answers are marked",
        ),
        (
            choose('{ text = "a", true = true, why = "x" }, { text = "b", why = "y" }'),
            "scene 1: answers 1: why",
            "The key why is for wrong answers, and this one is true.",
        ),
        (choose('{ text = "a", true = true }'), "scene 1: answers", "A question needs more than one answer."),
        (
            choose('{ value = "joint", true = true }, { value = "join" }', "step"),
            "scene 1: answers 1: value",
            "not possible here",
        ),
        (
            choose('{ text = "a", true = true }, { value = "FL" }', "slot"),
            "scene 1: answers 1: value",
            "cannot know whether this answer is true",
        ),
        (bare('kind = "ask"'), "scene 1: slot", "This scene asks for turns, but it is about no pair."),
        (bare('kind = "show"\nturns = "line"'), "scene 1: turns", "Without a pair there is no line."),
        (bare('kind = "tell"', "{slot}"), "scene 1: text", "{slot} has no value here"),
        (bare('kind = "tell"', "{corner.name}"), "scene 1: text", "is unknown"),
        (bare('kind = "tell"', "{turn:Q}"), "scene 1: text", "is not notation"),
        (bare('kind = "tell"', "one } brace"), "scene 1: text", "has no partner"),
        (bare('kind = "tell"\ncase = "corner-up-edge-in-straight"'), "scene 1: case", "A case needs a slot."),
        (
            bare('kind = "ask"\nsetup = "R U F D L B R2 U F D\'"\nslot = "FR"\nkeep = ["FL"]'),
            "scene 1: slot",
            "more than four turns from being solved",
        ),
    ],
)
def test_a_fault_is_told_at_its_key(scenes: str, key: str, message: str, check: Check) -> None:
    problems = check(scenes)
    assert [problem.key for problem in problems] == [key]
    assert message in problems[0].message
    assert problems[0].advice


def test_a_scene_that_goes_on_from_a_faulty_one_is_not_blamed(check: Check) -> None:
    problems = check(scene("", "show") + '[[scene]]\nkind = "ask"\ntext = "Go."\n' + scene('top = "U"'))
    assert [problem.key for problem in problems] == ["scene 1: turns", "scene 3: top"]


def test_a_wrong_answer_without_a_reason_is_a_minor_fault(check: Check) -> None:
    [problem] = check(choose('{ text = "a", true = true }, { text = "b" }'))
    assert problem.minor
    assert str(problem) == (
        "file.toml:8: scene 1: answers 2: Please look at this: "
        "A learner who picks this wrong answer reads nothing about it. "
        "Say with the key why what is wrong here, and where to look."
    )
    assert check(choose('{ text = "a", true = true }, { text = "b", why = "Look." }')) == []
    # What an answer about a subject claims is known, so the program finds the reason itself.
    assert check(choose('{ value = "raise" }, { value = "insert", true = true }', "step")) == []


def test_a_word_about_the_screen_in_a_text_that_sheets_print_is_a_minor_fault(check: Check) -> None:
    answers = '{ text = "a", true = true }, { text = "b", why = "Click the other one." }'
    asked = choose(answers)
    assert check(asked) == []
    [problem] = check(asked.replace('text = "', 'text = "Press the mouse. ', 1))
    assert problem.minor
    assert problem.message == "“Press” makes sense only at the screen, and sheets print this text."
    assert problem.advice == "Put the sentence into the key on_screen, which sheets and films leave out."
    assert check(asked.replace('text = "', 'on_screen = "Press the key."\ntext = "', 1)) == []


def test_reasons_are_held_to_the_same_rules_as_other_texts(check: Check) -> None:
    found = check(choose('{ text = "a", true = true }, { text = "b", why = "Look left." }'))
    assert [problem.key for problem in found] == ["scene 1: answers 2: why"]
    found = check(choose('{ text = "a", true = true }, { text = "b", why = "{corner.name}" }'))
    assert [problem.key for problem in found] == ["scene 1: answers 2: why"]
    long = "{corner.colours} " * 16
    found = check(choose(f'{{ text = "a", true = true }}, {{ text = "b", why = "{long}" }}'))
    assert [problem.key for problem in found] == ["scene 1: answers 2: why"]
    assert "Keep it within 240 characters." in found[0].advice


def test_a_slip_on_purpose_and_its_mending_are_fine(check: Check) -> None:
    parts = """parts = [{ turns = "R'", slip = true, text = "Oh." }, { turns = "R2", text = "Ah." }]"""
    assert check(scene(parts, "show")) == []


def test_turns_after_too_long_a_slip_are_not_judged(check: Check) -> None:
    parts = """parts = [{ turns = "B D F L B D F L B D F L R", slip = true }]"""
    [problem] = check(scene(parts, "show"))
    assert "too much is out of place" in problem.message


def test_an_idea_without_a_scene_is_told(check: Check) -> None:
    ideas = 'ideas = ["one", "two"]\n'
    [problem] = check(ideas + scene('idea = "one"'))
    assert (problem.line, problem.key) == (3, "ideas 2")


def test_a_fixed_lesson_may_name_sides_and_letters(check: Check) -> None:
    words = '[[scene]]\nkind = "tell"\ntext = "Turn R, on the right."\n'
    assert len(check(words)) == 2
    assert check("fixed = true\n" + words) == []


@pytest.mark.parametrize(
    ("said", "write"),
    [
        (
            "The edge is at the left.",
            "Write {side:L}, {corner.place} or {edge.place} for where a piece is, or",
        ),
        ("The edge is at the right.", "Write {side:R},"),
        ("Front comes first.", "Write {side:F},"),
        ("It is at the back.", "Write {side:B},"),
        ("Turn it clockwise.", "Write the turn, for example {turn:R}, or"),
    ],
)
def test_the_advice_means_the_side_that_is_written(check: Check, said: str, write: str) -> None:
    [problem] = check(bare('kind = "tell"', said))
    assert problem.advice.startswith(write)


def test_words_that_only_contain_a_side_are_left_alone(check: Check) -> None:
    assert (
        check('[[scene]]\nkind = "tell"\ntext = "A bright idea: A made pair, I say. Turn it back."\n') == []
    )


def test_a_file_that_cannot_be_opened_is_a_problem_not_an_exception(
    tmp_path: Path, answers: Answerer
) -> None:
    [missing] = check_file(tmp_path / "missing.toml", answers)
    assert str(missing).startswith(f"{tmp_path / 'missing.toml'}: The file cannot be read: ")
    [folder] = check_file(tmp_path, answers)
    assert str(folder) == f"{tmp_path}: This is a folder. Name a file in it."
    binary = tmp_path / "binary.toml"
    binary.write_bytes(b"title = 1\n\xff\xfe")
    [problem] = check_file(binary, answers)
    assert (problem.line, problem.message) == (2, "This is not UTF-8 text.")
    large = tmp_path / "large.toml"
    large.write_bytes(b"#" * 10_000_000)
    [problem] = check_file(large, answers)
    assert "too large" in problem.message


def hostile(scene_lines: str) -> str:
    return "".join(f'[[scene]]\ntext = "x"\n{scene_lines}\n' for _ in range(60))


@pytest.mark.parametrize(
    "scenes",
    [
        hostile('kind = "tell"\nsetup = "(R U F)3333"'),
        hostile('kind = "show"\nslot = "FR"\nparts = [' + ",".join(['{ turns = "(R U)5000" }'] * 20) + "]"),
        hostile('kind = "tell"\ncaption = "' + "{turn:(R)9999}" * 12 + '"'),
        hostile('kind = "show"\nslot = "FR"\nturns = "(R D F B L U)6"\nslip = true'),
        hostile('kind = "ask"\nslot = "FR"\nkeep = ["FL", "BL", "BR"]\nsetup = "(R U F L D B2)20"'),
    ],
)
def test_a_hostile_script_is_refused_without_asking_the_solver_much(scenes: str, answers: Answerer) -> None:
    asked: list[object] = []

    def counted(position: Position, task: Task) -> Answer:
        asked.append((position, task))
        return answers(position, task)

    problems = check_script(read_script(HEAD + scenes, "file.toml"), counted)
    assert 0 < len(problems) <= 100
    assert len(asked) < 100
