"""What the Group screen keeps: the figures, and how they are looked at."""

from __future__ import annotations

from msgspec import Struct

from tutor.progress.assignment import Assignment
from tutor.progress.group import GroupReport
from tutor.session.holder import Holder


class GroupLook(Struct, frozen=True):
    """``task`` is what is shown across the group, as an assignment names it; empty for none."""

    task: str = ""
    lessons: bool = False
    """Whether the lessons to give are shown."""
    by_number: bool = False


ASSIGNED: Holder[tuple[Assignment, ...]] = Holder("group tasks", ())
"""What everybody has to do."""
REPORT: Holder[GroupReport | None] = Holder("group report", None)
"""The latest figures; None until they are ready."""
LOOK: Holder[GroupLook] = Holder("group look", GroupLook())
