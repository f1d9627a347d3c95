"""What can be asked of whole solves, and what they ask of the world."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from tutor.cube.faces import Face
from tutor.cube.held_cube import HeldCube
from tutor.screens.solve.saved import SavedSolve, Shelf
from tutor.session.commands import RoomCommand
from tutor.session.effect import Effect

NAME = "solve"


class SolveCommand(RoomCommand):
    """What is done in this room alone."""

    __slots__ = ()

    @property
    def room(self) -> str:
        """The name of the room."""
        return NAME


@dataclass(frozen=True, slots=True)
class SolveFrom(SolveCommand):
    """Begin a whole solve of this cube."""

    cube: HeldCube


class SolveAct(SolveCommand, Enum):
    """Commands of whole solves that need nothing more said."""

    KEEP = "keep this solve"
    NEW_SOLVE = "another whole solve"
    COPY_POSITION = "copy the position"
    COPY_SCRAMBLE = "copy the scramble"
    CROSS_LINES = "shortest lines of the cross"
    LEAVE_PAIR = "choose another pair"
    TO_FREE_PLAY = "free play from here"
    COPY_NOTATION = "copy as notation"
    SHOW_SLOWLY = "show the solve slowly"
    LOOK_AHEAD = "look ahead"
    DELETE_SOME = "choose saved solves to delete, or have done with that"


@dataclass(frozen=True, slots=True)
class ChooseCross(SolveCommand):
    """In a whole solve: make the cross of this colour (by its number)."""

    colour: Face


@dataclass(frozen=True, slots=True)
class ShowTurns(SolveCommand):
    """In a whole solve: show these turns (as written) from the cube as it stands."""

    turns: str


@dataclass(frozen=True, slots=True)
class ShowFewest(SolveCommand):
    """In a review: show the fewest turns from where this leg (counted from 0) was begun."""

    leg: int


@dataclass(frozen=True, slots=True)
class Reopen(SolveCommand):
    """Open the saved solve of this name again."""

    name: str


@dataclass(frozen=True, slots=True)
class DeleteSolve(SolveCommand):
    """Delete the saved solve of this name; it is asked about first, and ``sure`` is the answer."""

    name: str
    sure: bool = False


@dataclass(frozen=True, slots=True)
class SolveKept(SolveCommand):
    """The solve that began at this moment was saved under a name; or why it was not."""

    began: float
    name: str
    problem: str = ""


@dataclass(frozen=True, slots=True)
class SolvesFound(SolveCommand):
    """The saved solves there are, and why one could not be deleted."""

    shelf: Shelf
    problem: str = ""


@dataclass(frozen=True, slots=True)
class KeepSolve(Effect):
    """Save a solve, over the file of this name if it has one; it comes back as SolveKept."""

    began: float
    name: str
    solve: SavedSolve


@dataclass(frozen=True, slots=True)
class LookForSolves(Effect):
    """Read the saved solves; they come back as SolvesFound."""


@dataclass(frozen=True, slots=True)
class DropSolve(Effect):
    """Delete the file of the saved solve of this name; what is left comes back as SolvesFound."""

    name: str


Own = (
    SolveFrom
    | SolveAct
    | ChooseCross
    | ShowTurns
    | ShowFewest
    | Reopen
    | DeleteSolve
    | SolveKept
    | SolvesFound
)
ShelfEffect = KeepSolve | LookForSolves | DropSolve
