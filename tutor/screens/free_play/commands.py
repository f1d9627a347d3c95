"""The commands of free play."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct

from tutor.cube.held_cube import HeldCube
from tutor.session.commands import RoomCommand

NAME = "free play"


class FreeCommand(RoomCommand):
    """A command of this room alone."""

    __slots__ = ()

    @property
    def room(self) -> str:
        """The name of the room."""
        return NAME


class PlayFrom(FreeCommand, Struct, frozen=True):
    """Free play from this cube."""

    cube: HeldCube


class FreeAct(FreeCommand, Enum):
    """Commands of free play that need nothing more said."""

    RESET = "take a solved cube"
    SCRAMBLE_ALL = "scramble, cross and all"
    AS_SOLVE = "which pair first"
    EXPLAIN = "explain my turns"


Own = PlayFrom | FreeAct
