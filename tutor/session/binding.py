"""What a key does, and where it works."""

from __future__ import annotations

from enum import Enum, IntEnum

from msgspec import Struct

from tutor.session.commands import Command
from tutor.ui.focus import Walk
from tutor.ui.inputs import Modifier


class Shows(IntEnum):
    """How much of a cube a room shows; a key that works with less works with more."""

    NO_CUBE = 0
    CUBE = 1
    """One that turns by itself."""
    CUBE_IN_HAND = 2


class When(Enum):
    """What must be on the screen for a key to work."""

    ANY = "any time"
    SHOWING = "turns are being shown"
    CHOOSING = "there are answers to choose from"


class Binding(Struct, frozen=True):
    """A key with what it does, where.

    One with a ``room`` is that room's own, any other works in all rooms that show as much as ``where``. A
    binding with a ``when`` works only then, and goes before the others; ``group`` heads the part of the key
    sheet that lists it.
    """

    key: str
    command: Command | Walk
    says: str
    group: str
    where: Shows = Shows.NO_CUBE
    modifiers: Modifier = Modifier.NONE
    when: When = When.ANY
    called: str = ""
    """Its name in the settings where several keys share what ``says`` says."""
    room: str = ""
    former: str = ""
    """The name it had before, which settings files may still use."""
    yields: bool = False
    """Whether it gives way where the settings give its key to something else, as keys do that came later."""

    @property
    def name(self) -> str:
        """The name by which the settings give it another key."""
        return self.called or self.says
