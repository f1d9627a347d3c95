"""What the board shows: a list, how far it is, and how much of the answer is shown."""

from __future__ import annotations

from collections import Counter
from enum import IntEnum

from msgspec import Struct

from tutor.cube.position import Slot
from tutor.lesson.scenes import Lesson, OfferedAnswer
from tutor.method.cases import Case
from tutor.screens.lesson.commands import AS_WRITTEN, Carried
from tutor.session.holder import Holder
from tutor.session.state import Attempt


class Reveal(IntEnum):
    """How much of the answer is shown; each has all before it."""

    HIDDEN = 0
    PIECES = 1
    STEP = 2
    TURN = 3
    ROUTE = 4


class BoardCase(Struct, frozen=True):
    """A case on the list."""

    case: Case
    slot: Slot = Slot.FR


class BoardScene(Struct, frozen=True):
    """A scene of a lesson on the list."""

    lesson: Lesson
    number: int
    carried: Carried = AS_WRITTEN


Item = BoardCase | BoardScene


class AskedGroup(Struct, frozen=True):
    """A question to the group with its answers, and the hands that were counted, in their order."""

    text: str
    answers: tuple[OfferedAnswer, ...]
    reason: str
    """Why the right answer is right."""
    leads_to: Reveal
    """How much is shown once the question is done with."""
    hands: tuple[int, ...] = ()
    told: bool = False
    """Whether the right answer is shown."""
    corrected: bool = False
    """Whether it is also said why the wrong answer with most hands is wrong."""

    @property
    def counts(self) -> Counter[int]:
        """How many hands each answer has."""
        return Counter(self.hands)

    @property
    def misleading(self) -> int | None:
        """The number of the wrong answer with most hands; None where no wrong one has any."""
        ranked = (number for number, _ in self.counts.most_common())
        return next((number for number in ranked if not self.answers[number].true), None)

    @property
    def misled(self) -> str:
        """Why the wrong answer with most hands is wrong; empty where no wrong one has any."""
        return "" if self.misleading is None else self.answers[self.misleading].why


class Presentation(Struct, frozen=True):
    """The board at work."""

    title: str
    items: tuple[Item, ...]
    """There is at least one."""
    attempt: Attempt
    """The cube of the item shown."""
    at: int = 0
    reveal: Reveal = Reveal.HIDDEN
    asked: AskedGroup | None = None
    spotlight: bool = False

    @property
    def item(self) -> Item:
        """What is shown."""
        return self.items[self.at]

    @property
    def last(self) -> bool:
        """Whether nothing comes after it."""
        return self.at == len(self.items) - 1


BOARD: Holder[Presentation | None] = Holder("board", None)
"""What is shown; None while a list is prepared."""
