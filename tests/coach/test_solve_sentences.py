"""What is said for the cross: each verdict has its reason, and the edges named are read off the stickers."""

from __future__ import annotations

import re
from random import Random

import pytest

from tests.coach.reader import Cube, number
from tests.coach.table import COLOURS
from tests.coach.test_truth import faults_of_text
from tutor.coach.solve_sentences import cross_hint, cross_remark
from tutor.cube.faces import TURNS, Face
from tutor.cube.position import Position, Slot
from tutor.cube.random_position import random_position
from tutor.method.advice import CrossReading, read_cross
from tutor.method.continuations import Verdict
from tutor.solver.cross import CrossSolver
from tutor.solver.search import Solver
from tutor.solver.task import Task

_EDGE = re.compile(r"white-(red|orange|green|blue)")
REASON = {
    Verdict.OPTIMAL: r"the cross needs \w+ more turns?\.",
    Verdict.ACCEPTABLE: r"it works too and takes (?P<cost>\w+) turns? more than the shortest way\.",
    Verdict.DETOUR: r"(?:already in place|does not help here: .*)\. that costs (?P<cost>\w+) extra turns?\."
    r"|in place now\. but there was a way (?P<shorter>\w+) turns? shorter\.",
}


@pytest.fixture(scope="module")
def crosses(solver: Solver) -> CrossSolver:
    return CrossSolver(solver.tables)


@pytest.fixture(params=range(12))
def start(request: pytest.FixtureRequest) -> Position:
    """A random position, or one that a few turns lead to from solved."""
    random = Random(request.param)
    if request.param % 2:
        return random_position(random)
    return Position().after([random.choice(TURNS) for _ in range(3)])


def sides_in_place(position: Position) -> set[Face]:
    return Cube(position, Task(Slot.FR, frozenset())).in_place()[1]


def sides_named(sentences: str) -> set[Face]:
    return {Face(COLOURS.index(word)) for word in _EDGE.findall(sentences)}


def test_a_verdict_on_the_cross_says_why_and_names_every_edge(start: Position, crosses: CrossSolver) -> None:
    reading = read_cross(crosses, start)
    for turn in TURNS if reading.distance else ():
        remark = cross_remark(start, reading, turn, COLOURS)
        assert remark is not None
        assert faults_of_text(remark.text) == []
        if reading.after[turn] == 0:
            assert remark.text == "The cross is solved."
            continue
        text = remark.text.lower()
        was, now = sides_in_place(start), sides_in_place(start.turned(turn))
        came, went = (re.search(pattern, text) for pattern in (r"^the [^.]*in place now", r"takes out [^.]*"))
        assert sides_named(came[0] if came else "") == now - was
        assert sides_named(went[0] if went else "") == was - now
        reason = re.search(REASON[remark.verdict], text)
        assert reason is not None, text
        check_figures(text, reading, reading.after[turn])


def check_figures(text: str, reading: CrossReading, after: int) -> None:
    for figure in re.findall(r"(\w+) (?:extra )?turns?(?: more than| shorter|\.)", text):
        if figure not in ("more", "extra"):
            assert number(figure) == after + 1 - reading.distance
    for figure in re.findall(r"(\w+) more turns?", text):
        assert number(figure) == after


def test_the_hint_for_a_cross_names_each_edge_that_is_not_in_place(
    start: Position, crosses: CrossSolver
) -> None:
    reading = read_cross(crosses, start)
    if not reading.distance:
        assert cross_hint(start, reading, COLOURS, 1).text == "The cross is solved."
        return
    said = cross_hint(start, reading, COLOURS, 1).text
    assert faults_of_text(said) == []
    assert sides_named(said) == {Face.F, Face.L, Face.B, Face.R} - sides_in_place(start)
