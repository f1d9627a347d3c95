"""What is said of a turn that is shown: why it comes, and what it changed."""

from __future__ import annotations

from msgspec import Struct

from tutor.coach.feedback import Shown, feedback, shown
from tutor.cube.faces import Turn
from tutor.cube.held_cube import HeldCube, face_turns, reduced
from tutor.cube.notation import Move, Rotation
from tutor.method.answer import Answer
from tutor.method.terms import Step, Verdict
from tutor.session.house import Session
from tutor.session.judging import Judged
from tutor.session.target import Aim, Bearing, colours_as_held

NOTHING = Shown("", "")
"""Where no pair is in question."""


class ShownTurns(Struct, frozen=True):
    """Moves shown from a start, each with its step, while a pair is aimed at."""

    start: HeldCube
    moves: tuple[Move, ...]
    steps: tuple[Step | None, ...]
    aim: Aim

    def bearing(self, index: int) -> Bearing:
        """The aim before a move."""
        return self.aim.bearing(self.start.after(self.moves[:index]))

    def told(self, index: int, before: Answer | None, names: tuple[str, ...]) -> Shown | None:
        """What the coach says of a move; None without the solver's answer to the position ``before`` it.

        ``names`` are the words for the colours.
        """
        if None in self.steps:
            return NOTHING
        if before is None:
            return None
        if not before.distance or not self._nameable(index):
            return NOTHING
        turn, *following = face_turns(self.moves[index:])[0]
        return shown(before, turn, tuple(following), self._colours(index, names), self.steps[index])

    def is_slip(self, index: int, before: Answer) -> bool:
        """Whether a move is a Detour from the position ``before`` it."""
        move = self.moves[index]
        if isinstance(move, Rotation) or not before.distance:
            return False
        turn = self.bearing(index).turn_as_judged(reduced(move))
        return before.continuation(turn).verdict is Verdict.DETOUR

    def cost(self, index: int, before: Answer, names: tuple[str, ...]) -> str:
        """What a slip costs, where the coach can name it."""
        move = self.moves[index]
        if not isinstance(move, Turn) or not self._nameable(index):
            return ""
        return feedback(before, move, self._colours(index, names)).text

    def _nameable(self, index: int) -> bool:
        """Whether the coach's name for a move is the one over it and on its tile.

        The coach names turns of one layer, on a cube with the cross down.
        """
        return isinstance(self.moves[index], Turn) and self.bearing(index).cross_down

    def _colours(self, index: int, names: tuple[str, ...]) -> tuple[str, ...]:
        cube = self.start.after(self.moves[:index])
        return colours_as_held(cube, names)


def to_read(session: Session, index: int) -> Shown | None:
    """What is said of a turn shown, by the room or the coach; None while it is being worked out."""
    own = session.room.said(session, index)
    return coach_says(session, index) if own is None else own


def coach_says(session: Session, index: int) -> Shown | None:
    """What the coach says of a turn shown; None while the solver has not answered."""
    turns = _turns_shown(session)
    if turns is None:
        return NOTHING
    return turns.told(index, session.answers.at(turns.bearing(index)), session.settings.colour_names)


def turn_shown(session: Session, index: int) -> Judged | None:
    """A turn of what is shown, with what the solver says of the position before it, if that is known."""
    turns = _turns_shown(session)
    if turns is None:
        return None
    bearing = turns.bearing(index)
    turn = bearing.turn_as_judged(reduced(turns.moves[index]))
    return Judged(index, bearing, turn, session.answers.at(bearing))


def _turns_shown(session: Session) -> ShownTurns | None:
    demonstration, attempt = session.demonstration, session.attempt
    if demonstration is None or attempt is None or attempt.aim is None:
        return None
    return ShownTurns(demonstration.start, demonstration.turns, demonstration.steps, attempt.aim)
