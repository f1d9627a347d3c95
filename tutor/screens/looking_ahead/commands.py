"""The commands that the room of looking ahead understands."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct

from tutor.cube.faces import Face
from tutor.cube.held_cube import HeldCube
from tutor.session.commands import RoomCommand

NAME = "looking ahead"


class AheadCommand(RoomCommand):
    """A command of this room alone."""

    __slots__ = ()

    @property
    def room(self) -> str:
        """The name of the room."""
        return NAME


class LookAheadFrom(AheadCommand, Struct, frozen=True):
    """Look ahead from this cube, whose cross of this colour is solved."""

    cube: HeldCube
    cross: Face


class AheadAct(AheadCommand, Enum):
    """Commands of looking ahead that carry no values."""

    ANEW = "look ahead from a random position"
    SEE_AGAIN = "see these turns again"
    QUICKER = "more turns a minute"
    CALMER = "fewer turns a minute"


Own = LookAheadFrom | AheadAct
