"""What can be asked of whole solves, and what they ask of the world."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct

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


class SolveFrom(SolveCommand, Struct, frozen=True):
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


class ChooseCross(SolveCommand, Struct, frozen=True):
    """In a whole solve: make the cross of this colour (by its number)."""

    colour: Face


class ShowTurns(SolveCommand, Struct, frozen=True):
    """In a whole solve: show these turns (as written) from the cube as it stands."""

    turns: str


class ShowFewest(SolveCommand, Struct, frozen=True):
    """In a review: show the fewest turns from where this leg (counted from 0) was begun."""

    leg: int


class Reopen(SolveCommand, Struct, frozen=True):
    """Open the saved solve of this name again."""

    name: str


class DeleteSolve(SolveCommand, Struct, frozen=True):
    """Delete the saved solve of this name; it is asked about first, and ``sure`` is the answer."""

    name: str
    sure: bool = False


class SolveKept(SolveCommand, Struct, frozen=True):
    """The solve that began at this moment was saved under a name; or why it was not."""

    began: float
    name: str
    problem: str = ""


class SolvesFound(SolveCommand, Struct, frozen=True):
    """The saved solves there are, and why one could not be deleted."""

    shelf: Shelf
    problem: str = ""


class KeepSolve(Effect, Struct, frozen=True):
    """Save a solve, over the file of this name if it has one; it comes back as SolveKept."""

    began: float
    name: str
    solve: SavedSolve


class LookForSolves(Effect, Struct, frozen=True):
    """Read the saved solves; they come back as SolvesFound."""


class DropSolve(Effect, Struct, frozen=True):
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
