"""A teacher changes a script while the lesson is open."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path

import pytest
from msgspec.structs import replace

from tests.session.held import held
from tests.session.pilot import Reading
from tests.workers.direct import AtOnce, direct_services
from tutor.app.application import Application
from tutor.app.compose import changed_at
from tutor.cube.faces import Turn
from tutor.lesson.assembly import LessonSetting
from tutor.lesson.library import load_lesson
from tutor.lesson.scenes import Lesson
from tutor.method.answer import answer
from tutor.screens.lesson.commands import AS_WRITTEN, Carried, LessonLoaded, StartLesson
from tutor.screens.lesson.state import LESSON
from tutor.screens.table import SCREENS
from tutor.session.beginning import new_session
from tutor.session.commands import Act, Command, Make, Open
from tutor.session.settings import Settings
from tutor.solver.search import Solver

SCRIPT = """
title = "Evening club"
goal = "You can bring a made pair home."

[[scene]]
kind = "tell"
setup = "R U R'"
slot = "FR"
text = "Hello, club."

[[scene]]
kind = "tell"
text = "{said}"
"""


class Held(AtOnce):
    """Does at once what it is given, or, while it is ``held``, when it is told to."""

    def __init__(self) -> None:
        super().__init__()
        self.held = False
        self.jobs: list[Callable[[], None]] = []

    def begin(self, work: Callable[[], Sequence[Command]], replacing: str = "") -> None:
        if self.held:
            self.jobs.append(partial(super().begin, work))
        else:
            super().begin(work)


class Club:
    """The application with one script of a teacher's own."""

    def __init__(self, folder: Path, solver: Solver) -> None:
        self.folder, self.now, self.stamp, self.solver = folder, 0.0, 1_000_000_000, solver
        self.write(SCRIPT.replace("{said}", "First words."))
        self.reading = Held()
        answers = partial(answer, solver)

        def read_lesson(name: str, _carried: Carried, _settings: Settings) -> Lesson:
            return load_lesson(name, LessonSetting(answers), folder)

        self.application = Application(
            new_session(SCREENS, Settings(), ()),
            direct_services(
                solver,
                clock=lambda: self.now,
                read_lesson=read_lesson,
                changed_at=partial(changed_at, folder),
                thread=lambda name: self.reading if name == "lessons" else AtOnce(),
            ),
        )

    def write(self, text: str) -> None:
        path = self.folder / "club.toml"
        path.write_text(text, encoding="utf-8")
        self.stamp += 10
        os.utime(path, (self.stamp, self.stamp))

    def screen(self) -> str:
        return self.application.session.screen

    def look(self) -> list[str]:
        self.now += 2.0
        self.application.poll()
        return Reading(self.application.view(self.now)[0]).texts


@pytest.fixture
def club(tmp_path: Path, solver: Solver) -> Club:
    made = Club(tmp_path, solver)
    made.application.give(StartLesson("club", 1))
    assert "First words." in made.look()
    return made


def test_a_changed_script_is_read_again_at_the_same_scene(club: Club) -> None:
    club.write(SCRIPT.replace("{said}", "Better words."))
    assert "Better words." in club.look()
    assert LESSON.of(club.application.session) is not None
    assert held(LESSON.of(club.application.session)).scene == 1


def test_a_mistake_in_it_is_told_on_the_card_and_the_lesson_goes_on(club: Club) -> None:
    club.write(SCRIPT.replace("R U R'", "R U M").replace("{said}", "Lost words."))
    texts = club.look()
    assert "First words." in texts
    assert any("club.toml" in text and "M" in text for text in texts)
    club.write(SCRIPT.replace("{said}", "Mended words."))
    texts = club.look()
    assert "Mended words." in texts
    assert not any("club.toml" in text for text in texts)


def test_a_script_taken_away_changes_nothing_but_says_so(club: Club) -> None:
    (club.folder / "club.toml").unlink()
    texts = club.look()
    assert "First words." in texts


def test_a_script_changed_while_another_screen_is_shown_does_not_take_one_away_from_it(club: Club) -> None:
    application = club.application
    application.give(Open("free play"))
    application.give(Make(Turn.R))
    club.write(SCRIPT.replace("{said}", "Better words."))
    club.look()
    assert club.screen() == "free play"
    application.give(Open("lesson"))
    assert "Better words." in club.look()


def test_a_script_that_was_read_while_one_went_on_does_not_lead_back(club: Club) -> None:
    application = club.application
    application.give(StartLesson("club", 0))
    changed = load_lesson("club", LessonSetting(partial(answer, club.solver)), club.folder)
    application.give(Act.NEXT)
    application.give(LessonLoaded(changed, 0, AS_WRITTEN, again=True))
    assert LESSON.of(application.session) is not None
    assert held(LESSON.of(application.session)).scene == 1


def test_a_lesson_read_too_late_does_not_take_one_away_from_where_one_went(club: Club) -> None:
    application, reading = club.application, club.reading
    reading.held = True
    application.give(Open("home"))
    application.give(StartLesson("club", 0))
    application.give(Open("free play"))
    reading.jobs.pop()()
    club.look()
    assert club.screen() == "free play"
    application.give(StartLesson("club", 0))
    reading.jobs.pop()()
    club.look()
    assert club.screen() == "lesson"


def test_while_a_lesson_is_being_read_home_says_that_it_is_coming(club: Club) -> None:
    application, reading = club.application, club.reading
    reading.held = True
    application.give(Open("home"))
    application.give(StartLesson("club", 0))
    assert "Opening the lesson" in application.view(club.now)[0].notice
    reading.jobs.pop()()
    club.look()
    assert club.screen() == "lesson"
    assert application.view(club.now)[0].notice == ""


def test_a_lesson_that_cannot_be_started_is_told_where_one_is(club: Club) -> None:
    application = club.application
    application.give(Open("home"))
    club.write("title = 3")
    application.give(StartLesson("club", 0))
    view = application.view(club.now)[0]
    assert view.screen == "home"
    assert any("club" in text for text in Reading(replace(view, page=())).texts)
