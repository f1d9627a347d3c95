"""Buttons for turns, for those who cannot type: the working faces in three ways, or all 18."""

from __future__ import annotations

from tutor.cube.faces import FACES, Face, Turn
from tutor.screens.parts import words
from tutor.session import turning
from tutor.session.commands import Act, Make
from tutor.session.house import Session
from tutor.ui.view import Block, Button, ButtonRow

_USUAL = (Face.U, Face.R, Face.F)
"""The working faces of the slot at the front right, which every learner meets first."""


def turn_blocks(session: Session) -> tuple[Block, ...]:
    """The turn buttons, where the screen has them, and one that shows more of them."""
    if not turning.has_buttons(session):
        return ()
    faces = FACES if session.all_turns else _working_faces(session)
    turns = (Turn.of(face, quarters) for face in faces for quarters in (1, 3, 2))
    # Their keys are the letters that they show.
    buttons = tuple(Button(Make(turn), turn.notation, "") for turn in turns)
    label = words.FEWER_TURNS if session.all_turns else words.MORE_TURNS
    return (ButtonRow((*buttons, Button(Act.MORE_TURNS, label))),)


def _working_faces(session: Session) -> tuple[Face, ...]:
    """The faces that the pair in hand is solved with, as the cube is held."""
    attempt = session.attempt
    bearing = None if attempt is None else attempt.bearing()
    if bearing is None:
        return _USUAL
    held = {bearing.turn_as_held(Turn.of(face, 1)).face for face in bearing.task.working_faces}
    return tuple(face for face in FACES if face in held)
