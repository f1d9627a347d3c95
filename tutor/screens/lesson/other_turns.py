"""What is said of turns that are not the ones that the scene asks for."""

from __future__ import annotations

from tutor.coach.catalogue import ENGLISH
from tutor.cube.faces import Turn
from tutor.lesson.scenes import Ask, astray, layer_asked
from tutor.method.continuations import Reason, Verdict
from tutor.screens.lesson import words
from tutor.screens.lesson.scene_look import turns_said
from tutor.screens.lesson.state import LessonPlay
from tutor.session.house import Session
from tutor.session.looking_back import last_judged
from tutor.session.state import Attempt


def other_turns(session: Session, played: LessonPlay, scene: Ask) -> str:
    """What is wrong with the one turn that led astray, or that several did."""
    history = played.attempt.history
    move, before = history.last, history.cube_at(history.cursor - 1)
    if not isinstance(move, Turn) or astray(scene, before):
        return words.OTHER_TURNS
    layer = ENGLISH.say(f"layer.{move.face.name}")
    if layer_asked(scene, before, history.cube):
        say = words.too_far if move.quarters == 2 else words.wrong_way
        return say(move.notation, layer)
    if _works(session, played.attempt):
        return words.works_too(move.notation, turns_said(scene, scene.card_text))
    return words.other_turn(move.notation, layer)


def _works(session: Session, attempt: Attempt) -> bool:
    """Whether the last turn begins a good way by hand."""
    last = last_judged(session, attempt)
    if last is None or last.answer is None:
        return False
    judged = last.answer.continuations[last.turn]
    return judged.verdict is not Verdict.DETOUR and judged.reason is not Reason.WITH_FAR_LAYERS
