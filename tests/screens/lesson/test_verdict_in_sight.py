"""In the smallest window with the largest text, a verdict leaves what was asked in sight as far as it can."""

from __future__ import annotations

import pytest

from render.layout.boxes import Box, Panel, WindowPart
from render.window.interface import Interface
from render.window.scrolling import words_of
from tests.session.held import held
from tests.session.pilot import Pilot
from tests.workers.direct import answers_of
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import load_lesson
from tutor.lesson.scenes import Ask, Find, Quiz, Show
from tutor.method.cases import CASES
from tutor.screens.lesson.questions import options
from tutor.screens.practice.commands import TryCase
from tutor.session.commands import ChooseAnswer
from tutor.solver.search import Solver
from tutor.ui.view import Text, TextStyle

SIZE, SCALE = (960, 640), 2.0
MARGIN = 24.0
LESSONS = ("slot-and-pair", "made-pair", "three-turn-join")


@pytest.fixture
def learner(solver: Solver) -> Pilot:
    setting = LessonSetting(answers_of(solver))
    pilot = Pilot(solver, {name: load_lesson(name, setting) for name in LESSONS})
    while pilot.view.look.text_scale < SCALE:
        pilot.key("f3")
    return pilot


def scrolled_down(learner: Pilot) -> Interface:
    """The card, scrolled to its end by somebody who has looked at all choices."""
    interface = Interface()
    interface.show(learner.view, *SIZE, 1.0)
    interface.wheel(SIZE[0] - 60.0, 300.0, -1000.0)
    return interface


def question_fits(learner: Pilot, interface: Interface) -> bool:
    """Check what is in sight after a verdict; whether it has room beside all of what was asked."""
    panel = held(held(interface.show(learner.view, *SIZE, 1.0)).panel(WindowPart.CARD))
    (note,) = (box for box in panel.boxes if box.fresh)
    styles = {each.text: each.style for each in learner.view.card if isinstance(each, Text)}
    asked = [text.replace(" ", "") for text, style in styles.items() if style is TextStyle.QUESTION]
    question = next(box for box in panel.boxes if words_of(box) == asked[0])
    assert question.rect.bottom <= note.rect.y
    assert note.rect.height + 2 * MARGIN > panel.rect.height or in_sight(interface, panel, note), asked
    # No more is out of sight than must be for the whole verdict, or for its beginning.
    least = min(note.rect.bottom + MARGIN - panel.rect.bottom, note.rect.y - MARGIN - panel.rect.y)
    assert interface.scrolls.get(WindowPart.CARD, 0.0) == pytest.approx(max(least, 0.0)), asked
    return in_sight(interface, panel, question)


def in_sight(interface: Interface, panel: Panel, box: Box) -> bool:
    top = box.rect.y - interface.scrolls.get(panel.place, 0.0)
    return panel.rect.y <= top and top + box.rect.height <= panel.rect.bottom


def test_after_a_wrong_answer(learner: Pilot) -> None:
    fits = []
    for name, lesson in learner.lessons.items():
        for number, scene in enumerate(lesson.scenes):
            if isinstance(scene, Quiz | Find):
                learner.press(f"lesson:{number}:0:{name}")
                interface = scrolled_down(learner)
                wrong = next(index for index, (_, true) in enumerate(options(scene)) if not true)
                learner.press(ChooseAnswer(wrong))
                fits.append(question_fits(learner, interface))
    assert len(fits) > 10
    assert True in fits


def test_after_a_turn_in_a_lesson_and_in_practice(learner: Pilot) -> None:
    learner.scene(Ask)
    interface = scrolled_down(learner)
    learner.turn("R")
    learner.wait(2.0)
    question_fits(learner, interface)
    learner.press(TryCase(CASES[12].slug))
    learner.wait(2.0)
    interface = scrolled_down(learner)
    learner.turn("U")
    learner.wait(2.0)
    assert question_fits(learner, interface)


def newest_in_sight(learner: Pilot, interface: Interface) -> bool:
    panel = held(held(interface.show(learner.view, *SIZE, 1.0)).panel(WindowPart.CARD))
    (said,) = (box for box in panel.boxes if box.fresh)
    return in_sight(interface, panel, said)


def test_a_hint_is_in_sight(learner: Pilot) -> None:
    learner.scene(Ask, "three-turn-join")
    interface = Interface()
    interface.show(learner.view, *SIZE, 1.0)
    for _ in range(2):
        learner.key("h")
        learner.settle()
        assert newest_in_sight(learner, interface)


def test_what_is_shown_is_read_from_the_cards_top_and_then_turn_by_turn(learner: Pilot) -> None:
    learner.scene(Show, "three-turn-join")
    interface = Interface()
    scene = interface.show(learner.view, *SIZE, 1.0)
    assert held(scene.panel(WindowPart.CARD)).scroll_limit > 0.0
    assert interface.scrolls.get(WindowPart.CARD, 0.0) == 0.0
    learner.key("right")
    learner.wait(5.0)
    assert newest_in_sight(learner, interface)
