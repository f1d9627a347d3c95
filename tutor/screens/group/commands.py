"""What can be asked of the Group screen."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct

from tutor.session.commands import RoomCommand

NAME = "group"


class GroupCommand(RoomCommand):
    """What is done in this room alone."""

    __slots__ = ()

    @property
    def room(self) -> str:
        """The name of the room."""
        return NAME


class ShowAcross(GroupCommand, Struct, frozen=True):
    """Show a case (by its slug) across the group; once more closes it."""

    slug: str


class ShowTask(GroupCommand, Struct, frozen=True):
    """Show who has a lesson (by its name) to do; once more closes it."""

    lesson: str


class Give(GroupCommand, Struct, frozen=True):
    """Give learners the task that is shown, or take it back."""

    learners: tuple[str, ...]
    back: bool = False


class SeeLearner(GroupCommand, Struct, frozen=True):
    """Open the Progress of a learner, who learns from now on."""

    learner: str


class GroupAct(GroupCommand, Enum):
    """Commands of the Group screen that need nothing more said."""

    BY_NEED = "put the cases first that most find hard"
    BY_NUMBER = "put the cases in the book's order"
    LESSONS = "show the lessons to give, or hide them"
    SAVE_TABLE = "save a table"


Own = ShowAcross | ShowTask | Give | SeeLearner | GroupAct
