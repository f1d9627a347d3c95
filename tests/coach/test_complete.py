"""A list of what a turn takes out or puts back is all of it: neither claims nor sentences pass with a part.

Which pieces a turn moves is from WCA 12a1 (a face turn moves the face's layer): of the four slots and the
cross, D moves all, L both slots at the left and one cross edge.
"""

from __future__ import annotations

import pytest

from tests.coach.reader import Cube, already_so, untrue
from tests.coach.reasons_read import crowded, unreasoned
from tests.coach.table import COLOURS, Table
from tutor.coach.claims import AllKept, PutBack, TakenOut
from tutor.coach.feedback import feedback
from tutor.coach.scene import ClaimContext, Moment
from tutor.cube.faces import Face, Turn
from tutor.cube.notation import parse_turns
from tutor.cube.position import SLOTS, SOLVED, Position, Slot
from tutor.method.continuations import Verdict
from tutor.solver.task import Task

TASK = Task(Slot.FR, frozenset(SLOTS) - {Slot.FR})
SIDES = frozenset({Face.F, Face.L, Face.B, Face.R})


def said_falsely(sentence: str, setup: str, turn: str) -> list[str]:
    """What the reader finds wrong with a sentence about a turn after a setup."""
    before = SOLVED.after(parse_turns(setup))
    cubes = Cube(before, TASK), Cube(before.after(parse_turns(turn)), TASK)
    return list(untrue(sentence, *cubes, cubes[1]))


@pytest.mark.parametrize(
    ("turn", "sentence"),
    [
        (
            "L",
            "L takes out the front-left and back-left pairs and one cross edge, which were already solved.",
        ),
        (
            "B",
            "B takes out the back-left and back-right pairs and one cross edge, which were already solved.",
        ),
        ("D", "D takes out three pairs and the cross, which were already solved."),
        ("R'", "R' takes out the back-right pair and one cross edge, which were already solved."),
    ],
)
def test_a_whole_list_passes(turn: str, sentence: str) -> None:
    assert said_falsely(sentence, "R U R'", turn) == []


@pytest.mark.parametrize(
    ("turn", "sentence"),
    [
        ("L", "L takes out the front-left pair and one cross edge."),
        ("L", "L takes out the back-left pair and one cross edge."),
        ("L", "L takes out the front-left and back-left pairs."),
        ("L", "L takes out two pairs."),
        ("L", "L takes out one cross edge."),
        ("L", "L takes out the front-left and back-right pairs and one cross edge."),
        ("L", "L takes out three pairs and one cross edge."),
        ("L", "L takes out the front-left and back-left pairs and two cross edges."),
        ("D", "D takes out the front-left pair and the cross."),
        ("D", "D takes out three pairs."),
        ("D", "D takes out the cross."),
        ("D", "D takes out three pairs and the cross, which was already solved."),
        ("D", "D takes out three pairs and three cross edges."),
        ("U", "U takes out one cross edge."),
    ],
)
def test_a_part_of_a_list_or_more_than_all_fails(turn: str, sentence: str) -> None:
    assert said_falsely(sentence, "R U R'", turn)


@pytest.mark.parametrize(
    ("sentence", "passes"),
    [
        ("L' puts the front-left and back-left pairs and one cross edge back in place.", True),
        ("L' puts the front-left pair and one cross edge back in place.", False),
        ("L' puts two pairs back in place.", False),
        ("L' turns the left layer back: the cross and the other pairs are solved again.", True),
        ("L' turns the left layer back: the cross and the front-left and back-left pairs are solved.", False),
        ("L' turns the left layer back: the cross is solved again.", False),
    ],
)
def test_what_comes_back_is_told_whole_too(sentence: str, passes: bool) -> None:
    assert (said_falsely(sentence, "R U R' L", "L'") == []) is passes


def test_words_that_are_no_list_are_refused() -> None:
    with pytest.raises(ValueError, match="no list"):
        said_falsely("L takes out some things.", "R U R'", "L")


def no_distance(position: Position) -> int:
    raise AssertionError(f"no distance is asked for at {position}")


def scene(setup: str, turn: Turn) -> ClaimContext:
    before = SOLVED.after(parse_turns(setup))
    return ClaimContext(before, before.turned(turn), TASK, no_distance, no_distance, turn)


def test_a_claim_about_a_part_of_what_goes_or_comes_does_not_hold() -> None:
    gone, left = scene("R U R'", Turn.L), frozenset({Slot.FL, Slot.BL})
    assert TakenOut(left, frozenset({Face.L})).holds(gone)
    assert not TakenOut(frozenset({Slot.FL}), frozenset({Face.L})).holds(gone)
    assert not TakenOut(left, frozenset()).holds(gone)
    assert not TakenOut(left | {Slot.BR}, frozenset({Face.L})).holds(gone)
    assert TakenOut(TASK.keep, SIDES).holds(scene("R U R'", Turn.D))
    back = scene("R U R' L", Turn.L_PRIME)
    assert PutBack(left, frozenset({Face.L})).holds(back)
    assert not PutBack(left, frozenset()).holds(back)
    assert not PutBack(frozenset({Slot.BL}), frozenset({Face.L})).holds(back)
    assert AllKept(Moment.AFTER, TASK.keep).holds(back)
    assert not AllKept(Moment.AFTER, left).holds(back)
    assert not AllKept(Moment.BEFORE, TASK.keep).holds(back)


def test_a_place_is_called_a_slot_only_where_the_slot_is() -> None:
    # After R' the place between front, right and bottom is empty of its pair and part of a turned layer.
    assert said_falsely("The corner is in the back-right slot.", "", "R'")
    assert said_falsely("The corner is at the bottom back right.", "", "R'") == []
    assert said_falsely("The corner is in the front-right slot.", "L", "L'") == []


def test_what_is_up_already_is_not_called_up() -> None:
    # After R U R' both pieces are on top (the corner at the back left, the edge at the left).
    now = Cube(SOLVED.after(parse_turns("R U R'")), TASK)
    assert list(already_so("You need two more turns, and the next can bring the edge up to the top.", now))
    low = Cube(SOLVED.after(parse_turns("R")).turned(Turn.R2).turned(Turn.R), TASK)
    assert list(already_so("Raise: the edge is low. Bring the edge up to the top.", low)) == []


@pytest.mark.parametrize(
    ("text", "verdict"),
    [
        ("U moves only the corner. That costs two extra turns.", Verdict.DETOUR),
        ("L takes out the front-left and back-left pairs and one cross edge.", Verdict.DETOUR),
        ("R brings the edge up. That costs one extra turn.", Verdict.DETOUR),
        (
            "R takes the corner down from the top. "
            "It works too. This other way takes one turn more than the shortest.",
            Verdict.ACCEPTABLE,
        ),
        ("R moves both. That takes one turn more than the shortest.", Verdict.ACCEPTABLE),
        ("L takes out the front-left pair. You need four more turns.", Verdict.OPTIMAL),
    ],
)
def test_a_verdict_without_its_reason_is_found(text: str, verdict: Verdict) -> None:
    assert list(unreasoned(text, verdict))


def test_two_numbers_in_one_sentence_are_found() -> None:
    assert list(crowded("That costs one extra turn, and you need three more turns."))
    assert not list(crowded("That costs one extra turn. You need three more turns."))


def test_the_coach_tells_all_that_leaves(table: Table) -> None:
    start = table.at("R U R'")
    solved = "which were already solved."
    for turn, out in (
        (Turn.D, "three pairs and the cross"),
        (Turn.L2, "the front-left and back-left pairs and one cross edge"),
        (Turn.B, "the back-left and back-right pairs and one cross edge"),
    ):
        told = feedback(start, turn, COLOURS).text
        assert told.startswith(f"{turn.notation} takes out {out}, {solved}")
