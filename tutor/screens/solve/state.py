"""A whole solve, and those that are saved, as plain values."""

from __future__ import annotations

from dataclasses import dataclass

from tutor.cube.faces import Face
from tutor.screens.solve.saved import Shelf
from tutor.session.holder import Holder
from tutor.session.state import Attempt


@dataclass(frozen=True, slots=True)
class SolvePlay:
    """A whole cube being solved, as far as its first two layers go."""

    attempt: Attempt
    cross: Face
    """The cross colour, by its colour number."""
    scramble: str = ""
    """The turns that made the start, as typed; empty when it came another way."""
    began: float = 0.0
    times: tuple[float, ...] = ()
    """When each move of the history was made, earlier by the time the solve was out of sight before."""
    away: float = 0.0
    """Seconds for which it has been out of sight."""
    left: float | None = None
    """When it went out of sight; None while it is on the screen."""
    lines_shown: bool = False
    """Whether the shortest lines of the cross were asked for, at the position now on the cube."""
    ended: int | None = None
    """After how many moves two layers were home; None before."""
    name: str = ""
    """The name under which it is saved; empty when it is not."""

    @property
    def over(self) -> bool:
        """Whether it has ended and the cube stands at its end: then there is nothing left to turn."""
        return self.ended is not None and self.attempt.history.cursor >= self.ended


SOLVE: Holder[SolvePlay | None] = Holder("solve", None)
"""The whole solve in hand; None shows how one can begin."""
SHELF: Holder[Shelf] = Holder("shelf", Shelf())
"""The whole solves that are saved."""
