"""Why one of two equally short lines is easier on the hands, in words."""

from __future__ import annotations

from tutor.coach.catalogue import ENGLISH
from tutor.counting import counted, number
from tutor.cube.faces import Turn
from tutor.cube.notation import format_moves
from tutor.method.ergonomics import Discomfort, comfort


def easier(line: tuple[Turn, ...], other: tuple[Turn, ...]) -> str:
    """The sentence that says why ``line`` is ranked before ``other``; empty when it is not easier.

    Raises ValueError when the two are not equally long: then length decides, not comfort.
    """
    if len(line) != len(other):
        raise ValueError(f"lines of {len(line)} and {len(other)} turns are not ranked by comfort")
    own, theirs = comfort(line), comfort(other)
    if own.cost >= theirs.cost:
        return ""
    own_counts, their_counts = dict(own.reasons), dict(theirs.reasons)
    reasons = [
        ENGLISH.say(
            "comfort.fewer",
            less=counted_reasons(own_counts.get(reason, 0), reason),
            more=number(their_counts[reason]),
        )
        for reason in Discomfort
        if own_counts.get(reason, 0) < their_counts.get(reason, 0)
    ]
    names = format_moves(line), format_moves(other)
    if not reasons:
        return ENGLISH.say("comfort.smoother", line=names[0], other=names[1])
    return ENGLISH.say("comfort.because", line=names[0], other=names[1], reasons=_list(reasons))


def counted_reasons(count: int, reason: Discomfort) -> str:
    """How often a discomfort of one kind comes, for instance ``two new grips``."""
    key = f"comfort.{reason.name.lower()}"
    return counted(count, ENGLISH.say(f"{key}.one"), ENGLISH.say(f"{key}.more"))


def _list(reasons: list[str]) -> str:
    """The weightiest reason, or the first two."""
    if len(reasons) == 1:
        return reasons[0]
    return ENGLISH.say("list.two", first=reasons[0], second=reasons[1])
