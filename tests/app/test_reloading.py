"""A teacher changes a script while the lesson is open."""

from __future__ import annotations

import os
from functools import partial
from pathlib import Path
from random import Random

import pytest

from tests.session.pilot import Reading
from tutor.app.application import Application
from tutor.app.compose import changed_at, new_session
from tutor.app.oracles import DirectOracle
from tutor.lesson.assemble import Setting
from tutor.lesson.library import load_lesson
from tutor.lesson.resolve import Lesson
from tutor.method.answer import answer
from tutor.session.commands import Carried, StartLesson
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


class Club:
    """The application with one script of a teacher's own."""

    def __init__(self, folder: Path, solver: Solver) -> None:
        self.folder, self.now, self.stamp = folder, 0.0, 1_000_000_000
        self.write(SCRIPT.replace("{said}", "First words."))
        answers = partial(answer, solver)

        def read_lesson(name: str, _carried: Carried, _settings: Settings) -> Lesson:
            return load_lesson(name, Setting(answers), folder)

        self.application = Application(
            new_session(Settings(), ()),
            DirectOracle(answers),
            lambda: self.now,
            read_lesson,
            Random(1),
            changed_at=partial(changed_at, folder),
        )

    def write(self, text: str) -> None:
        path = self.folder / "club.toml"
        path.write_text(text, encoding="utf-8")
        self.stamp += 10
        os.utime(path, (self.stamp, self.stamp))

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
    assert club.application.session.lesson is not None
    assert club.application.session.lesson.scene == 1


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
