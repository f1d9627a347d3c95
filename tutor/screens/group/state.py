"""What the Group screen keeps: the figures, and how they are looked at."""

from __future__ import annotations

from dataclasses import dataclass

from tutor.progress.group import GroupReport
from tutor.session.holder import Holder


@dataclass(frozen=True, slots=True)
class GroupLook:
    """``case`` is the slug of the case shown across the group, empty for none."""

    case: str = ""
    by_number: bool = False


REPORT: Holder[GroupReport | None] = Holder("group report", None)
"""The latest figures; None until they are ready."""
LOOK: Holder[GroupLook] = Holder("group look", GroupLook())
