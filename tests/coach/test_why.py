from __future__ import annotations

from tests.coach.table import COLOURS, Table
from tutor.coach.why import why
from tutor.cube.faces import Turn


def test_the_same_seed_asks_the_same_question(table: Table) -> None:
    start = table.at("R U R'")
    assert why(start, Turn.R, COLOURS, 5) == why(start, Turn.R, COLOURS, 5)
    orders = {tuple(c.text for c in q.choices) for s in range(8) if (q := why(start, Turn.R, COLOURS, s))}
    assert len(orders) > 1


def test_the_join_is_asked_about_as_a_join(table: Table) -> None:
    question = why(table.at("R U' R'"), Turn.R, COLOURS, 1)
    assert question is not None
    assert "R" in question.text
    assert question.choices[question.right].text == "It makes the corner and the edge match."
    assert sum(choice.true for choice in question.choices) == 1
    assert 3 <= len(question.choices) <= 4


def test_each_answer_has_a_reply(table: Table) -> None:
    question = why(table.at("R U R'"), Turn.R, COLOURS, 2)
    assert question is not None
    for choice in question.choices:
        assert choice.reply
        if not choice.true:
            assert "Look " in choice.reply


def test_nothing_is_asked_about_a_detour_or_a_pair_at_home(table: Table) -> None:
    assert why(table.at("R U R'"), Turn.D, COLOURS, 1) is None
    assert why(table.at(""), Turn.R, COLOURS, 1) is None


def test_there_is_a_question_in_most_lines(table: Table) -> None:
    asked = []
    for setup in ("R U R'", "R U' R'", "F' U F", "R U R' U R U' R'", "R U2 R' U R U R'"):
        start = table.at(setup)
        asked.append(why(start, start.lines[0][0], COLOURS, 1) is not None)
    assert asked.count(True) >= 4
