"""What is said of turns by what the scene asks for, whatever they do for the pair."""

from __future__ import annotations

from tutor.coach.catalogue import ENGLISH
from tutor.cube.faces import Turn
from tutor.lesson.scenes import Alone, Ask, astray, dictated, layer_asked
from tutor.method.continuations import Reason, Verdict
from tutor.screens.lesson import words
from tutor.screens.lesson.scene_look import turns_said
from tutor.screens.lesson.state import LessonPlay
from tutor.screens.parts.card import making_note
from tutor.screens.parts.words import verdict
from tutor.session.house import Session
from tutor.session.looking_back import last_judged
from tutor.session.making import SoFar
from tutor.session.state import Attempt
from tutor.ui.view import Mark, VerdictNote


def turn_read(played: LessonPlay, scene: Ask | Alone) -> tuple[VerdictNote, ...]:
    """Where turning itself is taught: what the turn just made is, if it is asked for."""
    history = played.attempt.history
    move = history.last
    if not isinstance(move, Turn) or astray(scene, history.cube):
        return ()
    if not dictated(scene, history.cube):
        return (making_note(move, SoFar.FURTHER),)
    said = words.turn_read(move.notation, _layer(move), words.WAYS[move.quarters - 1])
    return (VerdictNote(Mark.OPTIMAL, verdict(move.notation, words.YES), said),)


def _layer(turn: Turn) -> str:
    return ENGLISH.say(f"layer.{turn.face.name}")


def other_turns(session: Session, played: LessonPlay, scene: Ask | Alone) -> str:
    """What is wrong with the one turn that led astray, or that several did."""
    history = played.attempt.history
    move, before = history.last, history.cube_at(history.cursor - 1)
    if not isinstance(move, Turn) or astray(scene, before):
        return words.OTHER_TURNS
    layer = _layer(move)
    if layer_asked(scene, before, history.cube):
        say = words.too_far if move.quarters == 2 else words.wrong_way
        return say(move.notation, layer)
    if not scene.teaches_turning and _works(session, played.attempt):
        return words.works_too(move.notation, turns_said(scene, scene.card_text))
    return words.other_turn(move.notation, layer)


def _works(session: Session, attempt: Attempt) -> bool:
    """Whether the last turn begins a good way by hand."""
    last = last_judged(session, attempt)
    if last is None or last.answer is None:
        return False
    judged = last.answer.continuations[last.turn]
    return judged.verdict is not Verdict.DETOUR and judged.reason is not Reason.WITH_FAR_LAYERS
