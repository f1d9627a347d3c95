"""Why one of two equally short lines is easier on the hands, in words."""

from __future__ import annotations

from tutor.coach.catalogue import ENGLISH
from tutor.cube.faces import Turn
from tutor.cube.notation import format_moves
from tutor.method.ergonomics import Reason, comfort

_COUNTED = {
    Reason.HOLD: "hold_changes",
    Reason.HALF: "half_turns",
    Reason.BACK: "back_turns",
    Reason.DOWN: "bottom_turns",
}


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
            less=ENGLISH.count(key, own_counts.get(reason, 0)),
            more=ENGLISH.number(their_counts[reason]),
        )
        for reason, key in _COUNTED.items()
        if own_counts.get(reason, 0) < their_counts.get(reason, 0)
    ]
    names = format_moves(line), format_moves(other)
    if not reasons:
        return ENGLISH.say("comfort.smoother", line=names[0], other=names[1])
    return ENGLISH.say("comfort.because", line=names[0], other=names[1], reasons=_list(reasons))


def _list(reasons: list[str]) -> str:
    """The weightiest reason, or the first two."""
    if len(reasons) == 1:
        return reasons[0]
    return ENGLISH.say("list.two", first=reasons[0], second=reasons[1])
