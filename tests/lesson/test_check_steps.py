"""The checker against the method: steps named in the words, far layers, and what a scene accepts."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tutor.lesson.problems import Problem

Check = Callable[[str], list[Problem]]
FIRST = '[[scene]]\nkind = "tell"\ntext = "Text."\nsetup = "R U R\'"\nslot = "FR"\n'
TOUCHING = 'case = "corner-right-edge-right-right-up"\nslot = "FR"\n'
"""Part: R U' R' | Join: U2 F' | Insert: U' F (worked out by hand)."""


def about_steps(kind: str, lines: str, text: str = "Text.") -> str:
    return f'[[scene]]\nkind = "{kind}"\ntext = "{text}"\n{TOUCHING}{lines}\n'


PARTS = """parts = [
  {{ turns = "R U' R'", text = "{}" }},
  {{ turns = "U2 F'", text = "{}" }},
  {{ turns = "U' F", text = "{}" }},
]"""


def in_parts(*texts: str) -> str:
    return about_steps("show", PARTS.format(*texts))


@pytest.mark.parametrize(
    ("scenes", "key", "message", "advice"),
    [
        (
            in_parts("Raise them.", "J.", "I."),
            "parts 1: text",
            "not Raise",
            "belong to Part",
        ),
        (
            in_parts("P.", "Part is done.", "I."),
            "parts 2: text",
            "not Part",
            "belong to Join",
        ),
        (
            in_parts("P.", "J.", "Join, then."),
            "parts 3: text",
            "not Join",
            "belong to Insert",
        ),
        (
            about_steps("show", PARTS.format("P.", "J.", "I."), "A Raise."),
            "text",
            "not Raise",
            "belong to Part, Join and Insert",
        ),
        (
            about_steps("show", 'turns = "route"\nsteps = { join = "The Part." }'),
            "steps: join",
            "not Part",
            "belong to Join",
        ),
        (about_steps("ask", 'extent = "step"', "Do just the Join."), "text", "not Join", "belong to Part"),
        (about_steps("ask", 'extent = "turn"', "Begin the Raise."), "text", "not Raise", "belong to Part"),
        (
            about_steps("ask", "", "Raise them."),
            "text",
            "not Raise",
            "belong to Part, Join and Insert",
        ),
        (
            about_steps("ask", 'afterwards = "A good Raise."'),
            "afterwards",
            "not Raise",
            "belong to Part, Join and Insert",
        ),
        (about_steps("alone", "", "First Raise."), "text", "not Raise", "belong to Part, Join and Insert"),
        (
            '[[scene]]\nkind = "show"\ntext = "Text."\nparts = [{ turns = "R", text = "Raise it." }]',
            "parts 1: text",
            "not Raise",
            "belong to no step",
        ),
    ],
)
def test_a_step_named_must_be_the_one_that_the_cut_says(
    scenes: str, key: str, message: str, advice: str, check: Check
) -> None:
    [problem] = check(scenes)
    assert problem.key == f"scene 1: {key}"
    assert message in problem.message
    assert advice in problem.advice


def test_steps_named_as_they_are_cut_are_fine(check: Check) -> None:
    right = PARTS.format("Part: take one down.", "Join the two.", "Insert the pair.")
    assert check(about_steps("show", right, "Part, then Join, then Insert.")) == []
    assert check(about_steps("ask", 'extent = "step"', "Do just the Part, and apart they are.")) == []
    assert (
        check(about_steps("show", 'parts = [{ turns = "R U\' R\' U2 F\'", text = "Part and Join." }]')) == []
    )


def test_where_no_pair_is_in_question_there_is_no_step(check: Check) -> None:
    later = '[[scene]]\nkind = "show"\nslot = "none"\ntext = "Text."\nturns = "D"\n'
    assert check(FIRST + later) == []
    [problem] = check(FIRST + later + "slip = true\n")
    assert "Without a pair no turn is a slip." in problem.message
    [problem] = check(FIRST + '[[scene]]\nkind = "ask"\nslot = "none"\ntext = "Text."\n')
    assert problem.key == "scene 2: slot"


def test_a_far_layer_is_refused_however_short_its_way(check: Check) -> None:
    # R B U2 B' R' brings this pair home in five turns, by hand it takes seven (independent search).
    start = 'case = "corner-up-edge-left-front-up"\nslot = "FR"\n'
    [problem] = check(f'[[scene]]\nkind = "show"\ntext = "T."\n{start}turns = "R B U2 B\' R\'"\n')
    assert problem.key == "scene 1: turns"
    assert "B" in problem.message
    assert "far layer" in problem.message
    # Where another slot is not solved, its layers belong to the hands.
    setup = 'setup = "R U R\' L\' U\' L"\nslot = "FR"\n'
    assert check(f'[[scene]]\nkind = "show"\ntext = "T."\n{setup}turns = "L\' U\' L"\n') == []


@pytest.mark.parametrize(
    ("lines", "key", "message"),
    [
        ('extent = "turn"\naccept = ["D"]', "accept 1", "D is a Detour"),
        ('extent = "turn"\naccept = ["R", "R U\'"]', "accept 2", "This scene asks for one turn."),
        ('extent = "step"\naccept = ["R U\'"]', "accept 1", "These turns do not finish the step."),
        ("accept = [\"R U' R'\"]", "accept 1", "These turns do not solve the pair."),
        ('accept = ["R2\'"]', "accept 1", "is not a move here"),
        ('accept = [""]', "accept 1", "no turns"),
        ('until = "part"', "until", "The key until belongs to a step"),
        ('extent = "step"\nuntil = "raise"', "until", "done here already"),
    ],
)
def test_what_a_scene_accepts_must_do_what_it_asks(lines: str, key: str, message: str, check: Check) -> None:
    problems = check(about_steps("ask", lines))
    assert [problem.key for problem in problems][:1] == [f"scene 1: {key}"]
    assert message in problems[0].message
    assert problems[0].advice


def test_good_turns_are_accepted(check: Check) -> None:
    assert check(about_steps("ask", 'extent = "turn"\naccept = ["R", "F\'"]')) == []
    assert check(about_steps("ask", 'extent = "step"\naccept = ["R U\' R\'"]')) == []
    assert check(about_steps("ask", 'extent = "step"\nuntil = "join"')) == []
    assert check(about_steps("alone", "accept = [\"R U' R' U2 F' U' F\"]")) == []


def test_the_right_way_round_is_no_side(check: Check) -> None:
    assert check('[[scene]]\nkind = "tell"\ntext = "They meet the right way round."\n') == []
    assert len(check('[[scene]]\nkind = "tell"\ntext = "The right one."\n')) == 1
