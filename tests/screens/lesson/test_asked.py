"""What the card asks for above a scene with turns, over the whole course."""

from __future__ import annotations

import re

import pytest

from tests.session.pilot import Pilot, Reading
from tests.workers.direct import answers_of
from tutor.cube.faces import Face
from tutor.cube.stickers import COLOUR_NAMES
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import curriculum_names, load_facing_lesson
from tutor.lesson.scenes import Ask
from tutor.solver.search import Solver
from tutor.ui.view import Text, TextStyle


@pytest.fixture(scope="module")
def learner(solver: Solver) -> Pilot:
    setting = LessonSetting(answers_of(solver))
    return Pilot(solver, {name: load_facing_lesson(name, setting) for name in curriculum_names()})


def test_no_text_answers_the_question_over_it(learner: Pilot) -> None:
    asked: dict[str, str] = {}
    for name, lesson in learner.lessons.items():
        for number, scene in enumerate(lesson.scenes):
            if isinstance(scene, Ask):
                learner.press(f"lesson:{number}:0:{name}")
                (question,) = (
                    each.text
                    for each in learner.view.card
                    if isinstance(each, Text) and each.style is TextStyle.QUESTION
                )
                asked[scene.text] = question
                told = {" ".join(turn.notation for turn in turns) for turns in scene.accept}
                said = set(re.split(r"[^\w']+", scene.card_text))
                assert "?" not in question or not told & said, scene.text
    assert asked["Now the left layer starts a quarter turn off. Bring it back with L'."] == (
        "Your turn: make this turn."
    )
    assert "Which turn comes next?" in asked.values()


def test_a_cube_held_otherwise_than_before_is_told_of(learner: Pilot) -> None:
    told = 0
    for name, lesson in learner.lessons.items():
        # What was seen before a lesson was opened is not the lesson's to speak of.
        front = COLOUR_NAMES[lesson.scenes[0].cube.colour_of(Face.F)]
        for number, scene in enumerate(lesson.scenes):
            learner.press(f"lesson:{number}:0:{name}")
            before, front = front, COLOUR_NAMES[scene.cube.colour_of(Face.F)]
            said = f"The whole cube has turned, and {front} is in front now."
            assert (said in Reading(learner.view).texts) is (front != before), (name, number)
            told += front != before
    assert told > 40
