from __future__ import annotations

from collections.abc import Sequence

import pytest

from tests.coach.reasons_read import LONGEST_SENTENCE
from tests.coach.table import Table, every_start
from tutor.coach.catalogue import sentences
from tutor.coach.review import Review, ordinal, review
from tutor.counting import counted
from tutor.cube.faces import Turn
from tutor.cube.notation import parse_turns
from tutor.cube.position import Slot
from tutor.method.answer import Answer
from tutor.method.continuations import Verdict


def run(table: Table, setup: str, turns: str) -> tuple[list[Answer], Sequence[Turn]]:
    answers = [table.at(setup)]
    made = parse_turns(turns)
    for turn in made[:-1]:
        answers.append(table.answer(answers[-1].position.turned(turn), answers[-1].task))
    return answers, made


def reviewed(table: Table, setup: str, turns: str) -> Review:
    answers, made = run(table, setup, turns)
    found = review(answers, made)
    scene = table.scene(answers[0], None)
    for phrase in found.phrases:
        assert table.false_claims(phrase.claims, scene) == []
        assert all(0 < len(sentence) <= LONGEST_SENTENCE for sentence in sentences(phrase.text))
    return found


def test_a_shortest_run_parts_nowhere(table: Table) -> None:
    found = reviewed(table, "R U R'", "R U' R'")
    assert found.split is None
    assert found.extra == 0
    # One fact is told once: neither that going step by step takes as many, nor the same figure again.
    assert found.text == "You solved the pair in three turns, and no way by hand is shorter."


def test_a_run_with_a_detour_tells_where_it_left_and_what_it_cost(table: Table) -> None:
    found = reviewed(table, "R U R'", "R F F' U' R'")
    assert found.split == 1
    assert found.extra == 2
    assert "You solved the pair in five turns, all by hand." in found.text
    assert "The shortest way by hand takes three turns." in found.text
    assert "At your second turn you left the shortest way, with F instead of U'." in found.text
    assert "cost two extra turns" in found.text


def test_the_route_that_is_taught_is_told_as_such_though_a_shorter_line_exists(table: Table) -> None:
    known = (table.answer(position, task) for position, task in every_start())
    starts = (answer for answer in known if answer.routes)
    start = next(each for each in starts if len(each.routes[0].turns) > each.to_go)
    answers, made = [start], start.routes[0].turns
    for turn in made[:-1]:
        answers.append(table.answer(answers[-1].position.turned(turn), start.task))
    found = review(answers, made)
    scene = table.scene(start, None)
    assert all(table.false_claims(phrase.claims, scene) == [] for phrase in found.phrases)
    assert found.split is None
    assert found.extra == len(made) - start.to_go
    assert "You took the route, step by step." in found.text
    assert "another way" not in found.text
    assert f"The shortest line takes {counted(start.to_go, 'turn')}." in found.text


def test_a_turn_that_works_is_told_as_another_way(table: Table) -> None:
    start = table.at("R U R' U2 R U R'")
    turn = start.turns(Verdict.ACCEPTABLE)[0]
    then = table.answer(start.position.turned(turn), start.task)
    turns = " ".join(each.notation for each in (turn, *then.lines[0]))
    found = reviewed(table, "R U R' U2 R U R'", turns)
    assert found.split == 0
    assert "At your first turn you took another way" in found.text
    assert "It works too and takes one turn more." in found.text


def test_a_way_of_ones_own_with_far_layers_is_told_as_such(table: Table) -> None:
    start = next(
        each
        for position, task in every_start()
        if len((each := table.answer(position, task)).at_all_line) and task.slot is Slot.FR
    )
    assert start.by_hand is not None
    answers, made = [start], start.at_all_line
    for turn in made[:-1]:
        answers.append(table.answer(answers[-1].position.turned(turn), start.task))
    found = review(answers, made)
    assert all(not table.false_claims(each.claims, table.scene(start, None)) for each in found.phrases)
    fewest, own = counted(start.by_hand, "turn"), counted(start.distance, "turn")
    assert found.text.startswith(
        f"You solved the pair in {own}, with the help of far layers. The shortest way by hand takes {fewest}."
    )
    # Nobody is told to have left the shortest way who took fewer turns than it has.
    assert found.split is None
    assert found.extra == start.distance - start.by_hand < 0


def test_a_run_given_up_tells_what_was_left(table: Table) -> None:
    found = reviewed(table, "R U R'", "R U'")
    assert found.left == 1
    assert found.text.startswith("You made two turns, all by hand. The pair still needed one more turn.")


def test_what_the_line_saves_is_told_in_words(table: Table) -> None:
    told = set()
    for case_setup in (
        "R U R' U2 R U' R'",
        "R U2 R' U R U R'",
        "F' U2 F R U2 R'",
        "R U' R' U F' U2 F R U2 R'",
    ):
        start = table.at(case_setup)
        if not start.distance:
            continue
        line = " ".join(turn.notation for turn in start.lines[0])
        # Whoever takes it at once hears only what it saves; a turn too many, and both lengths are news.
        for made in (line, f"U U' {line}"):
            found = reviewed(table, case_setup, made)
            assert found.shortcut is not None
            saved = found.shortcut.saved
            told.add(saved > 0)
            assert ("as many as the shortest line" in found.text) is (saved == 0 and made != line)
            assert ("The shortest line takes" in found.text) is (saved > 0)
    assert told == {True, False}


def test_the_line_shown_goes_along_with_the_learner_as_long_as_it_can(table: Table) -> None:
    start = table.at("R U R' U R U' R'")
    for line in start.lines:
        found = reviewed(table, "R U R' U R U' R'", " ".join(turn.notation for turn in line))
        assert found.line == line


def test_there_must_be_an_answer_for_each_turn(table: Table) -> None:
    answers, made = run(table, "R U R'", "R U' R'")
    with pytest.raises(ValueError, match="one answer for each turn; got 2 for 3"):
        review(answers[:2], made)
    with pytest.raises(ValueError, match="0 for 0"):
        review([], [])


def test_places_in_a_row_are_words_up_to_ten() -> None:
    assert [ordinal(number) for number in (1, 2, 3, 10, 11, 12, 21, 22, 23, 24, 112)] == [
        "first", "second", "third", "tenth", "11th", "12th", "21st", "22nd", "23rd", "24th", "112th",
    ]  # fmt: skip


def test_the_most_costly_turn_is_told_also_when_an_earlier_one_left_the_shortest_way(table: Table) -> None:
    found = [
        (start, each, then)
        for position, task in every_start()
        if task.slot is Slot.FR
        for start in [table.answer(position, task)]
        for each in start.turns(Verdict.ACCEPTABLE)
        for then in [table.answer(position.turned(each), task)]
        if start.continuations[each].lost == 1
    ]
    told = 0
    for start, each, then in found[:4]:
        detour = next(
            turn
            for turn in then.turns(Verdict.DETOUR)
            if turn.face in start.task.working_faces and then.continuations[turn].lost == 2
        )
        last = table.answer(then.position.turned(detour), start.task)
        answers = [start, then, last]
        made = [each, detour, last.lines[0][0]]
        looked_back = review(answers, made)
        assert looked_back.split == 1
        best = then.lines[0][0].notation
        wanted = f"Your second turn cost the most, with {detour.notation} instead of {best}."
        assert looked_back.split_told.text == f"{wanted} That turn alone cost two extra turns."
        assert table.false_claims(looked_back.split_told.claims, table.scene(start, None)) == []
        told += 1
    assert told == 4
