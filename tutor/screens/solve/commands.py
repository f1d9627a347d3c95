"""The commands that the room of whole solves understands, and the effects that it asks for."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct

from tutor.cube.faces import Face
from tutor.cube.held_cube import HeldCube
from tutor.progress.attempt import GUEST
from tutor.screens.solve.saved import SavedSolve, Shelf
from tutor.session.commands import RoomCommand
from tutor.session.effect import Effect

NAME = "solve"


class SolveCommand(RoomCommand):
    """A command of this room alone."""

    __slots__ = ()

    @property
    def room(self) -> str:
        """The name of the room."""
        return NAME


class SolveFrom(SolveCommand, Struct, frozen=True):
    """Begin a whole solve of this cube."""

    cube: HeldCube


class SolveAct(SolveCommand, Enum):
    """Commands of whole solves that carry no values."""

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
    MORE_CHOICES = "the choices that are rarely wanted, or fewer again"
    DELETE_SOME = "choose saved solves to delete, or stop that"


class ChooseCross(SolveCommand, Struct, frozen=True):
    """In a whole solve: work on the cross of this colour (by its number)."""

    colour: Face


class ShowTurns(SolveCommand, Struct, frozen=True):
    """In a whole solve: show these turns (as written) from the cube as it is now."""

    turns: str


class ShowFewest(SolveCommand, Struct, frozen=True):
    """In a review: show the fewest turns from where this leg (counted from 0) began."""

    leg: int


class Reopen(SolveCommand, Struct, frozen=True):
    """Open the saved solve of this name again."""

    name: str


class DeleteSolve(SolveCommand, Struct, frozen=True):
    """Delete the saved solve of this name; the first time the program asks, and ``sure`` is the answer."""

    name: str
    sure: bool = False


class SolveKept(SolveCommand, Struct, frozen=True):
    """The name under which the solve that began at this moment was saved; or why it was not."""

    began: float
    name: str
    problem: str = ""


class SolvesFound(SolveCommand, Struct, frozen=True):
    """All saved solves, and why one could not be deleted."""

    shelf: Shelf
    problem: str = ""
    learner: str = GUEST
    """Whose they are."""


class KeepSolve(Effect, Struct, frozen=True):
    """Save a solve, over the file of this name if there is one; SolveKept is the reply."""

    began: float
    name: str
    solve: SavedSolve
    learner: str = GUEST


class LookForSolves(Effect, Struct, frozen=True):
    """Read a learner's saved solves; SolvesFound is the reply."""

    learner: str = GUEST


class DropSolve(Effect, Struct, frozen=True):
    """Delete the file of a learner's saved solve of this name; SolvesFound is the reply."""

    name: str
    learner: str = GUEST


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
