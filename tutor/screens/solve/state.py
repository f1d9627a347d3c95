"""A whole solve, and the saved ones, as plain values."""

from __future__ import annotations

from msgspec import Struct

from tutor.cube.faces import Face
from tutor.screens.solve.saved import SavedSolve, Shelf
from tutor.session.holder import Holder
from tutor.session.state import Attempt
from tutor.session.target import Aim


class SolvePlay(Struct, frozen=True):
    """A whole cube being solved, as far as its first two layers go."""

    attempt: Attempt
    cross: Face
    """The cross colour, by its colour number."""
    scramble: str = ""
    """The turns that made the start, as typed; empty when it came another way."""
    began: float = 0.0
    times: tuple[float, ...] = ()
    """When each move of the history was made, less the time for which the solve was not on the screen."""
    aims: tuple[Aim | None, ...] = ()
    """The pair that each move of the history was made for; None for the cross."""
    away: float = 0.0
    """Seconds for which it was not on the screen."""
    left: float | None = None
    """When it left the screen; None while it is there."""
    lines_shown: bool = False
    """Whether the learner has asked for the shortest lines of the cross at this position."""
    choices_open: bool = False
    """Whether the choices that are rarely wanted are on the card."""
    shown: Aim | None = None
    """The pair, with what it keeps, for which turns were shown last; None before that."""
    ended: int | None = None
    """After how many moves two layers were solved; None before."""
    name: str = ""
    """The name under which it is saved; empty when it is not."""
    saving: SavedSolve | None = None
    """What was sent to be saved and is not answered for yet; None when nothing is."""

    @property
    def over(self) -> bool:
        """Whether it has ended and the cube is at its end: then there is nothing left to turn."""
        return self.ended is not None and self.attempt.history.cursor >= self.ended


SOLVE: Holder[SolvePlay | None] = Holder("solve", None)
"""The whole solve in hand; None on the page where one begins."""
SHELF: Holder[Shelf] = Holder("shelf", Shelf())
"""The saved whole solves."""
