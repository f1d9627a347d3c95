"""The commands that the room of learners understands."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct

from tutor.session.commands import RoomCommand

NAME = "learners"


class LearnerCommand(RoomCommand):
    """A command of this room alone."""

    __slots__ = ()

    @property
    def room(self) -> str:
        """The name of the room."""
        return NAME


class TakeInHand(LearnerCommand, Struct, frozen=True):
    """Show what can be done to this learner."""

    name: str


class JoinInto(LearnerCommand, Struct, frozen=True):
    """The learner in hand is the same person as this one; the program asks before it joins them."""

    name: str


class LearnersAct(LearnerCommand, Enum):
    """Commands that carry no values."""

    JOIN = "choose who is the same person"
    REMOVE = "remove the learner in hand, once the program has asked twice"
    SURE = "yes"
    BACK = "nothing more to change here"
    PUT_BACK = "bring back who was removed"


Own = TakeInHand | JoinInto | LearnersAct
