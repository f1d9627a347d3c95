"""The names of cases on screens."""

from __future__ import annotations

from tutor.cube.position import Slot
from tutor.method import words
from tutor.method.cases import Case
from tutor.session.house import Session


def cross_name(session: Session) -> str:
    """The cross colour as the learner calls it."""
    return session.settings.colour_names[session.settings.cross]


def case_title(session: Session, case: Case, slot: Slot = Slot.FR, alignment: int = 0) -> str:
    """A case by its number and its short name as it looks in ``slot`` at this alignment."""
    return words.case_title(case.number, case.short_name(slot, cross_name(session), alignment))
