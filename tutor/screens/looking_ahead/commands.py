"""What can be asked of looking ahead."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct

from tutor.cube.faces import Face
from tutor.cube.held_cube import HeldCube
from tutor.session.commands import RoomCommand

NAME = "looking ahead"


class AheadCommand(RoomCommand):
    """What is done in this room alone."""

    __slots__ = ()

    @property
    def room(self) -> str:
        """The name of the room."""
        return NAME


class LookAheadFrom(AheadCommand, Struct, frozen=True):
    """Look ahead from this cube, with the cross of this colour made."""

    cube: HeldCube
    cross: Face


class AheadAct(AheadCommand, Enum):
    """Commands of looking ahead that need nothing more said."""

    ANEW = "look ahead from a random position"
    SEE_AGAIN = "see these turns again"
    QUICKER = "more turns a minute"
    CALMER = "fewer turns a minute"


Own = LookAheadFrom | AheadAct
