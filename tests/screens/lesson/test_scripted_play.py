"""Every lesson played twice: as it asks, and in another allowed way. All that is shown is collected and read.

What the coach says of a turn, and its hints, are read back against the position by the reader of tests/coach,
which trusts nothing of the coach. What lesson texts say of a cube, tests/lesson checks.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from tests.coach.table import COLOURS, Table
from tests.coach.test_truth import faults_of_hints, faults_of_remark
from tests.screens.lesson.player import Play, played_through
from tests.session.pilot import Pilot, all_blocks
from tests.words.shown import card_texts
from tutor.coach.feedback import feedback
from tutor.coach.hints import Rung, hint
from tutor.lesson.library import curriculum_names
from tutor.lesson.scenes import Ask, Lesson
from tutor.solver.search import Solver
from tutor.ui.view import Text, VerdictNote

QUICK = "made-pair"
"""This lesson, with a scene of every kind but Find, is played in every run."""
_LEFTOVER = re.compile(r"[{}]|\bNone\b|<[A-Za-z]|(?<!•)  ")
LESSONS = [
    name if name == QUICK else pytest.param(name, marks=pytest.mark.slow) for name in curriculum_names()
]


@pytest.fixture(scope="module")
def table(solver: Solver) -> Table:
    return Table(solver)


@pytest.mark.parametrize("name", LESSONS)
def test_a_lesson_played_as_it_asks_comes_to_its_end_and_says_nothing_false(
    solver: Solver, lessons: dict[str, Lesson], table: Table, name: str
) -> None:
    play = played_through(Pilot(solver, lessons), name, other=False)
    assert play.visited == list(range(len(lessons[name].scenes)))
    assert play.others == play.undone == 0
    assert list(faults_of(play, table)) == []


@pytest.mark.parametrize("name", LESSONS)
def test_a_lesson_played_in_another_allowed_way_does_so_too(
    solver: Solver, lessons: dict[str, Lesson], table: Table, name: str
) -> None:
    play = played_through(Pilot(solver, lessons), name, other=True)
    assert play.visited == list(range(len(lessons[name].scenes)))
    assert play.undone == 1
    free = [scene for scene in lessons[name].scenes if isinstance(scene, Ask) and not scene.accept]
    assert bool(play.hints) is bool(free)
    assert list(faults_of(play, table)) == []


def faults_of(play: Play, table: Table) -> Iterator[object]:
    """Everything wrong with what was shown in a play, cards first."""
    for scene, view in play.views:
        blocks = all_blocks(view.card)
        if not any(text.strip() for text in card_texts(view.card)):
            yield scene, "an empty card"
        for block in blocks:
            if isinstance(block, Text) and not block.text.strip():
                yield scene, f"nothing is said in {block}"
            # A right answer may be called right without more words.
            if isinstance(block, VerdictNote) and not (block.text or block.title).strip():
                yield scene, f"nothing is said in {block}"
    yield from (text for text in play.texts if _LEFTOVER.search(text))
    for said in dict.fromkeys(play.said):
        if feedback(said.start, said.turn, COLOURS).text != said.note.text:
            yield said.note.text, "the coach says something else"
        yield from faults_of_remark(table, said.start, said.turn)
    for given in dict.fromkeys(play.hints):
        if given.rung == Rung.TURN and hint(given.start, COLOURS, Rung.TURN).text != given.text:
            yield given.text, "the coach hints at something else"
    for start in dict.fromkeys(given.start for given in play.hints):
        yield from faults_of_hints(table, start)
