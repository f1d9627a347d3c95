"""The commands of the case book."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct

from tutor.cube.position import Slot
from tutor.session.commands import RoomCommand

NAME = "case book"


class BookCommand(RoomCommand):
    """A command of this room alone."""

    __slots__ = ()

    @property
    def room(self) -> str:
        """The name of the room."""
        return NAME


class OpenCase(BookCommand, Struct, frozen=True):
    """Open the case book at a case (by its slug) in a slot."""

    slug: str
    slot: Slot = Slot.FR
    alignment: int = 0


class BookAct(BookCommand, Enum):
    """Commands of the case book that need nothing more said."""

    TRY = "try the case"
    SHOW_LINE = "show a shortest line"
    OTHER_WAY = "I know another way"
    OWN_WORDS = "my own words for this case"
    HIDE_TURNS = "hide or show the turns of the cases"
    ALL_CASES = "all cases"


Own = OpenCase | BookAct
