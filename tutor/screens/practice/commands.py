"""What can be asked of practice."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct

from tutor.coach.guidance import Help
from tutor.cube.faces import Turn
from tutor.cube.position import Slot
from tutor.method.terms import Family
from tutor.progress.attempt import Mode
from tutor.session.commands import RoomCommand

NAME = "practice"


class PracticeCommand(RoomCommand):
    """What is done in this room alone."""

    __slots__ = ()

    @property
    def room(self) -> str:
        """The name of the room."""
        return NAME


class TryCase(PracticeCommand, Struct, frozen=True):
    """Begin a run of a case (by its slug) in a slot; ``help`` None leaves it to the guidance."""

    slug: str
    slot: Slot = Slot.FR
    alignment: int = 0
    help: Help | None = None


class Practise(PracticeCommand, Struct, frozen=True):
    """Practise in a mode, one case after the other; ``family`` goes with Mode.FAMILY."""

    mode: Mode
    family: Family | None = None


class SetGoal(PracticeCommand, Struct, frozen=True):
    """What the sitting is to come to: the name of a ``GoalKind`` and its amount."""

    kind: str
    amount: int


class NameTurn(PracticeCommand, Struct, frozen=True):
    """At a glance: this is the first turn, as the cube is held."""

    turn: Turn


class PracticeAct(PracticeCommand, Enum):
    """Commands of practice that need nothing more said."""

    SAME_CASE = "the same case once more"
    GIVE_UP = "give up"
    UNCOUNT = "do not count this"
    BACK = "back to the screen where the case was picked"
    END = "end the sitting"
    GO_ON = "go on though the goal is reached"
    STOP = "stop for now"
    EASIER = "first the case it builds on"
    QUICKER = "more beats a minute"
    CALMER = "fewer beats a minute"
    OWN_WORDS = "write a line of one's own for the case"


class Tick(PracticeCommand, Struct, frozen=True):
    """The clock of a glance, the metronome or a celebration has come to its next stroke."""


Own = TryCase | Practise | SetGoal | NameTurn | PracticeAct | Tick
