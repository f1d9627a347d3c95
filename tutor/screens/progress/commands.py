"""What can be asked of the Progress screen."""

from __future__ import annotations

from enum import Enum

from tutor.session.commands import RoomCommand

NAME = "progress"


class ProgressCommand(RoomCommand):
    """What is done in this room alone."""

    __slots__ = ()

    @property
    def room(self) -> str:
        """The name of the room."""
        return NAME


class ProgressAct(ProgressCommand, Enum):
    """Commands of the Progress screen that need nothing more said."""

    SAVE_TABLE = "save a table"
    NEW_DAY = "figures of a day that has begun"
