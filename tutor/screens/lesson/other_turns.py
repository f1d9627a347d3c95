"""What is said of turns that are not the ones that the scene asks for."""

from __future__ import annotations

from tutor.coach.catalogue import ENGLISH
from tutor.cube.faces import Turn
from tutor.lesson.scenes import Ask, astray, layer_asked
from tutor.screens.lesson import words
from tutor.screens.lesson.state import LessonPlay


def other_turns(played: LessonPlay, scene: Ask) -> str:
    """What is wrong with the one turn that led astray, or that several did."""
    history = played.attempt.history
    move, before = history.last, history.cube_at(history.cursor - 1)
    if not isinstance(move, Turn) or astray(scene, before):
        return words.OTHER_TURNS
    layer = ENGLISH.say(f"layer.{move.face.name}")
    if not layer_asked(scene, before, history.cube):
        return words.other_turn(move.notation, layer)
    say = words.too_far if move.quarters == 2 else words.wrong_way
    return say(move.notation, layer)
