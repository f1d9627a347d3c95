"""“Why this turn?” at the moment of the turn: when it comes, what is seen, and what each answer brings."""

from __future__ import annotations

from pathlib import Path

import pytest
from msgspec.structs import replace

from tests.screens.practice.sitting import run_of, sits_down, texts
from tests.session.pilot import Pilot, Reading, stage_of
from tutor.coach.guidance import Guidance, Help
from tutor.cube.position import Slot
from tutor.method.answer import Answer
from tutor.method.cases import CASES
from tutor.method.continuations import Verdict
from tutor.screens.practice.commands import TryCase
from tutor.screens.practice.state import RunPhase
from tutor.solver.search import Solver


@pytest.fixture
def beginner(solver: Solver, tmp_path: Path) -> Pilot:
    return sits_down(solver, tmp_path)


def tries(
    pilot: Pilot, number: int, help: Help = Help.WITH_HINTS, slot: Slot = Slot.FR, runs: int = 0
) -> None:
    case = CASES[number]
    known = (*pilot.session.guidance, (case.slug, Guidance(runs=runs)))
    pilot.application.session = replace(pilot.session, guidance=known)
    pilot.application.give(TryCase(case.slug, slot, 0, help))
    pilot.settle()


def answer_of(pilot: Pilot) -> Answer:
    answer = pilot.session.answers.at(run_of(pilot).attempt.bearing())
    assert answer is not None
    return answer


def turn(pilot: Pilot, verdict: Verdict) -> str:
    """A turn with this verdict, made as the cube is held; a best one along the route."""
    bearing = run_of(pilot).attempt.bearing()
    answer = answer_of(pilot)
    assert bearing is not None
    found = answer.way.turns[0]
    if verdict is Verdict.DETOUR:
        found = next(
            each
            for each, told in zip(type(found), answer.continuations, strict=True)
            if told.verdict is verdict
        )
    notation = bearing.turn_as_held(found).notation
    pilot.turn(notation)
    pilot.wait(2.0)
    return notation


def asked_along_the_route(pilot: Pilot) -> list[int]:
    """After how many turns of the route a question is open."""
    found: list[int] = []
    while run_of(pilot).phase is RunPhase.TURNING:
        turn(pilot, Verdict.OPTIMAL)
        if run_of(pilot).question is not None:
            found.append(len(run_of(pilot).made))
    return found


def test_it_comes_at_most_once_a_run_at_a_right_turn_and_only_sometimes(beginner: Pilot) -> None:
    asked = {}
    for runs in range(4):
        for number in (8, 20, 30):
            tries(beginner, number, runs=runs)
            asked[runs, number] = asked_along_the_route(beginner)
    assert all(len(found) <= 1 for found in asked.values())
    for number in (8, 20, 30):
        assert asked[0, number]
        assert asked[0, number] < asked[2, number]
        assert asked[1, number] == asked[3, number] == []


def test_it_comes_at_the_right_turn_after_a_detour_and_not_at_the_detour(beginner: Pilot) -> None:
    tries(beginner, 20, runs=1)
    turn(beginner, Verdict.DETOUR)
    assert run_of(beginner).question is None
    beginner.key("backspace")
    beginner.wait(2.0)
    assert run_of(beginner).question is None
    notation = turn(beginner, Verdict.OPTIMAL)
    question = run_of(beginner).question
    assert question is not None
    assert notation in question.text


def test_a_turn_undone_in_the_making_is_no_detour_before_it(beginner: Pilot) -> None:
    number = next(at for at, case in enumerate(CASES) if case.slug == "corner-right-edge-back-front-up")
    tries(beginner, number, runs=1)
    # R' could still go on to R, by which the shortest way begins.
    beginner.turn("R'")
    beginner.key("backspace")
    beginner.wait(2.0)
    assert turn(beginner, Verdict.OPTIMAL) == "R"
    assert run_of(beginner).question is None


@pytest.mark.parametrize("slot", [Slot.FR, Slot.BL])
def test_the_moment_before_the_turn_is_on_the_stage_with_its_arrow_until_it_is_answered(
    beginner: Pilot, slot: Slot
) -> None:
    tries(beginner, 20, slot=slot)
    before = stage_of(beginner)
    notation = turn(beginner, Verdict.OPTIMAL)
    asked = stage_of(beginner)
    assert asked.colours == before.colours
    assert asked.outlined == before.outlined
    assert asked.arrow is not None
    assert asked.arrow.turn.notation == notation
    assert "The cube shows the moment before this turn." in texts(beginner)
    question = run_of(beginner).question
    assert question is not None
    beginner.key(str(question.right + 1))
    after = stage_of(beginner)
    assert after.colours == run_of(beginner).attempt.cube.colours != before.colours
    assert after.arrow is None


def test_every_answer_is_answered(beginner: Pilot) -> None:
    tries(beginner, 20)
    turn(beginner, Verdict.OPTIMAL)
    question = run_of(beginner).question
    assert question is not None
    assert len(question.choices) >= 3
    wrong = [index for index in range(len(question.choices)) if index != question.right]
    for index in (*wrong, question.right):
        beginner.key(str(index + 1))
        note = Reading(beginner.view).verdicts[-1]
        assert note.title == ("Yes" if index == question.right else "Not here")
        assert note.text == question.choices[index].reply
        assert ("Look " in note.text) is (index != question.right)


def test_nobody_has_to_answer_and_a_turn_drops_the_question(beginner: Pilot) -> None:
    tries(beginner, 20)
    turn(beginner, Verdict.OPTIMAL)
    assert run_of(beginner).question is not None
    turn(beginner, Verdict.OPTIMAL)
    assert run_of(beginner).question is None
    assert "Why " not in texts(beginner)


def test_alone_nothing_is_asked(beginner: Pilot) -> None:
    tries(beginner, 20, Help.ALONE)
    assert asked_along_the_route(beginner) == []


def test_a_hint_takes_the_place_of_the_question(beginner: Pilot) -> None:
    tries(beginner, 20)
    turn(beginner, Verdict.OPTIMAL)
    assert run_of(beginner).question is not None
    asked = texts(beginner)
    beginner.key("h")
    assert [use.rung for use in run_of(beginner).hints] == [1]
    assert run_of(beginner).question is None
    assert "Why " not in texts(beginner)
    assert set(texts(beginner).splitlines()) - set(asked.splitlines())
    assert stage_of(beginner).colours == run_of(beginner).attempt.cube.colours


def test_one_more_turn_of_the_layer_drops_the_question_about_what_it_was(beginner: Pilot) -> None:
    tries(beginner, 9)
    for _ in range(2):
        beginner.turn("U")
        beginner.wait(2.0)
    question = run_of(beginner).question
    assert question is not None
    assert "U2" in question.text
    beginner.turn("U")
    beginner.wait(2.0)
    assert run_of(beginner).question is None
    assert "U2" not in texts(beginner)


def test_a_turn_of_two_layers_is_asked_about_as_the_turn_that_it_comes_down_to(beginner: Pilot) -> None:
    tries(beginner, 20)
    face = answer_of(beginner).way.turns[0].face
    wide = {"F": "Bw", "R": "Lw", "L": "Rw", "B": "Fw", "U": "Dw"}[face.name]
    beginner.turn(wide + "'" * (answer_of(beginner).way.turns[0].quarters == 3))
    beginner.wait(2.0)
    question = run_of(beginner).question
    assert question is not None
    beginner.key("t")
    beginner.settle()
    assert run_of(beginner).question is question
