"""The open page of the case book."""

from __future__ import annotations

from msgspec import Struct

from tutor.cube.position import Slot
from tutor.method.cases import Case
from tutor.screens.parts.explained import AskedSequence
from tutor.session.holder import Holder
from tutor.session.state import Attempt


class BookPage(Struct, frozen=True):
    """A case of the case book in a slot, with the top turned to an alignment."""

    case: Case
    slot: Slot
    alignment: int
    attempt: Attempt
    other_way: AskedSequence | None = None
    """The way that the learner wrote down, explained in place of the route."""
    own_words: bool = False
    """Whether the field that is open is for the learner's own words, and not for another way."""


PAGE: Holder[BookPage | None] = Holder("page", None)
"""The open page; None shows all cases."""
TURNS_HIDDEN: Holder[bool] = Holder("turns hidden", empty=False)
"""Whether the pages leave out the turns, until the learner asks for them: also after a try elsewhere."""
