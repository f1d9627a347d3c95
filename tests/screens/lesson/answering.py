"""Answers scenes of a lesson through the pilot."""

from __future__ import annotations

import re

from tests.session.held import held
from tests.session.pilot import Pilot, Reading
from tutor.lesson.scenes import Alone, Ask, Find, Quiz, Scene
from tutor.screens.lesson.questions import options
from tutor.screens.lesson.state import LESSON
from tutor.screens.lesson.update import settled


def scene_of(pilot: Pilot) -> Scene:
    played = LESSON.of(pilot.session)
    assert played is not None
    return played.lesson.scenes[played.scene]


def go_to(pilot: Pilot, kind: type[Scene], lesson: str = "made-pair") -> Scene:
    """The first scene of a kind."""
    scenes = pilot.lessons[lesson].scenes
    index = next(index for index, scene in enumerate(scenes) if isinstance(scene, kind))
    pilot.press(f"lesson:{index}:0:{lesson}")
    pilot.settle()
    return scene_of(pilot)


def solve(pilot: Pilot, scene: Scene) -> None:
    """Answer whatever the scene asks, with the best there is."""
    if isinstance(scene, Quiz | Find):
        true = next(index for index, (_, right) in enumerate(options(scene)) if right)
        pilot.key(str(true + 1))
    if isinstance(scene, Ask | Alone) and scene.accept:
        pilot.turn(" ".join(turn.notation for turn in scene.accept[0]))
    while isinstance(scene, Ask | Alone) and not settled(pilot.session):
        turn = best_turn(pilot)
        assert turn is not None
        pilot.turn(turn)


def best_turn(pilot: Pilot) -> str | None:
    """How a shortest line begins from here; None when the pair is home."""
    assert LESSON.of(pilot.session) is not None
    bearing = held(LESSON.of(pilot.session)).attempt.bearing()
    assert bearing is not None
    known = pilot.session.answers.get(bearing.position, bearing.task)
    assert known is not None
    return known.lines[0][0].notation if known.lines[0] else None


def told_off(pilot: Pilot) -> list[str]:
    """What is said of turns that the scene does not ask for: all of it says to undo them, at its end."""
    return [text for text in Reading(pilot.view).texts if re.search(r"Undo (it|them)\b[^.]*\.$", text)]
