"""Commands and effects of whole solves; ``commands`` joins them to all others."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING, TypeAlias

from tutor.cube.faces import Face
from tutor.session.solve.saved import SavedSolve, Shelf
from tutor.ui.action import Action

if TYPE_CHECKING:
    from tutor.coach.solve_review import SolveQuestion
    from tutor.method.advice import PositionQuestion

Question: TypeAlias = "PositionQuestion | SolveQuestion"
"""What can be asked about a whole solve."""


class SolveAct(Action, Enum):
    """Commands of whole solves that need nothing more said."""

    KEEP = "keep this solve"
    COPY_NOTATION = "copy as notation"
    SHOW_SLOWLY = "show the solve slowly"
    SCRAMBLE_ALL = "scramble, cross and all"
    FROM_FREE_PLAY = "which pair first"
    LOOK_AHEAD = "look ahead"
    LOOK_AHEAD_ANEW = "look ahead from a random position"
    SEE_AGAIN = "see these turns again"
    QUICKER = "more turns a minute"
    CALMER = "fewer turns a minute"
    ASK_AGAIN = "try again to work it out"
    DELETE_SOME = "choose saved solves to delete, or have done with that"


@dataclass(frozen=True, slots=True)
class ChooseCross(Action):
    """In a whole solve: make the cross of this colour (by its number)."""

    colour: Face


@dataclass(frozen=True, slots=True)
class ShowTurns(Action):
    """In a whole solve: show these turns (as written) from the cube as it stands."""

    turns: str


@dataclass(frozen=True, slots=True)
class ShowFewest(Action):
    """In a review: show the fewest turns from where this leg (counted from 0) was begun."""

    leg: int


@dataclass(frozen=True, slots=True)
class Reopen(Action):
    """Open the saved solve of this name again."""

    name: str


@dataclass(frozen=True, slots=True)
class DeleteSolve(Action):
    """Delete the saved solve of this name; it is asked about first, and ``sure`` is the answer."""

    name: str
    sure: bool = False


@dataclass(frozen=True, slots=True)
class Advised(Action):
    """What was worked out for a whole solve; None when its time ran out or it failed."""

    request: int
    answer: object


@dataclass(frozen=True, slots=True)
class SolveKept(Action):
    """The solve that began at this moment was saved under a name; or why it was not."""

    began: float
    name: str
    problem: str = ""


@dataclass(frozen=True, slots=True)
class SolvesFound(Action):
    """The saved solves there are, and why one could not be deleted."""

    shelf: Shelf
    problem: str = ""


@dataclass(frozen=True, slots=True)
class Advise:
    """Work out what is asked about a whole solve; it comes back as Advised."""

    request: int
    question: Question


@dataclass(frozen=True, slots=True)
class Unadvise:
    """These requests for advice need not be answered any more."""

    requests: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Copy:
    """Put a text on the clipboard."""

    text: str


@dataclass(frozen=True, slots=True)
class KeepSolve:
    """Save a solve, over the file of this name if it has one; it comes back as SolveKept."""

    began: float
    name: str
    solve: SavedSolve


@dataclass(frozen=True, slots=True)
class LookForSolves:
    """Read the saved solves; they come back as SolvesFound."""


@dataclass(frozen=True, slots=True)
class DropSolve:
    """Delete the file of the saved solve of this name; what is left comes back as SolvesFound."""

    name: str


SolveCommand = (
    SolveAct | ChooseCross | ShowTurns | ShowFewest | Reopen | DeleteSolve | Advised | SolveKept | SolvesFound
)
ShelfEffect = KeepSolve | LookForSolves | DropSolve
SolveEffect = Advise | Unadvise | Copy | ShelfEffect
