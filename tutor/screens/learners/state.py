"""What the room of learners has in hand."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct

from tutor.session.holder import Holder
from tutor.session.state import LessonPlace


class LearnersPage(Enum):
    """What the screen shows."""

    ADD = "the learners, and a field for a new one"
    CHANGE = "what can be done to the learner in hand"
    JOIN = "who is the same person"
    JOIN_ASKED = "whether to join them"
    REMOVE_ASKED = "whether to remove the learner in hand"
    REMOVE_ASKED_AGAIN = "whether that is sure"

    @property
    def writes(self) -> bool:
        """Whether there is a field on it."""
        return self in (LearnersPage.ADD, LearnersPage.CHANGE)


class Removed(Struct, frozen=True):
    """Who was removed last, with what brings them back."""

    name: str
    copy: str
    places: tuple[LessonPlace, ...]


class InHand(Struct, frozen=True):
    """The learner in hand, and how far a change has come."""

    page: LearnersPage = LearnersPage.ADD
    name: str = ""
    other: str = ""
    """Who is the same person."""
    removed: Removed | None = None


IN_HAND: Holder[InHand] = Holder("learners", InHand())
