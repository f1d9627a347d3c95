"""What the method calls things, in English: the 41 cases, their families, and why a turn is good or bad."""

from __future__ import annotations

from collections.abc import Sequence

from tutor.counting import figured
from tutor.cube.faces import Face

# ------------------------------------------------------------------------------------------------ the cases

BOTH_ON_TOP = "both on top"
CORNER_ON_TOP = "corner on top, edge in the slot"
EDGE_ON_TOP = "edge on top, corner in the slot"
BOTH_IN_SLOT = "both in the slot"

_TOWARDS = {
    Face.U: "up",
    Face.D: "down",
    Face.F: "to the front",
    Face.R: "to the right",
    Face.B: "to the back",
    Face.L: "to the left",
}

_SEEN = {Face.U: "up", Face.D: "down", Face.F: "in front", Face.R: "right", Face.B: "behind", Face.L: "left"}
_COLOUR_OF = {Face.F: "front", Face.R: "right", Face.B: "back", Face.L: "left"}


_AT_ITS_SLOT, _FORMERLY = "on top at its slot", "above its slot"


def case_name(
    points: Face, *, corner_on_top: bool, edge_side: Face | None, edge_straight: bool, up: Face
) -> str:
    """A case in full, its slot at the front right.

    ``points`` is where the corner's cross colour points, ``edge_side`` where an edge on top is (None in the
    slot), ``up`` whose centre's colour it shows on top.
    """
    corner = _AT_ITS_SLOT if corner_on_top else "in its slot"
    if edge_side is not None:
        edge = f"on top at the {_COLOUR_OF[edge_side]}, {_COLOUR_OF[up]} colour up"
    else:
        edge = f"in its slot, {'the right way round' if edge_straight else 'turned over'}"
    return f"Corner {corner}, cross colour {_TOWARDS[points]}; edge {edge}"


def former_case_name(name: str) -> str:
    """The full name as earlier versions wrote it, in notes and sheets that people still have."""
    return name.replace(_AT_ITS_SLOT, _FORMERLY)


def case_title(number: int, short_name: str) -> str:
    """A case by its number and its short name: "Case 14: white right, edge behind, tops alike"."""
    return f"Case {number}: {short_name}"


def short_case_name(
    cross: str,
    points: Face,
    *,
    corner_on_top: bool,
    edge_side: Face | None,
    edge_straight: bool,
    tops_alike: bool | None,
    up: Face,
) -> str:
    """A case in a few words, for instance "white right, edge behind, tops alike".

    ``cross`` is the cross colour and ``points`` where the corner shows it; ``edge_side`` is where an edge on
    top is (None in the slot), ``up`` whose centre's colour it shows on top.
    """
    if edge_side is None:
        way = "right way round" if edge_straight else "turned over"
        if corner_on_top:
            return f"{cross} {_SEEN[points]}, edge in slot, {way}"
        return f"both in slot, {cross} {_SEEN[points]}, edge {way}"
    edge = f"edge {_SEEN[edge_side]}"
    if not corner_on_top:
        return f"corner in slot, {cross} {_SEEN[points]}, {edge}"
    if tops_alike is None:
        return f"{cross} up, {edge}, {_COLOUR_OF[up]} colour on top"
    return f"{cross} {_SEEN[points]}, {edge}, tops {'alike' if tops_alike else 'different'}"


def unknown_case(quoted: str, near: Sequence[str], most: int, example: str) -> str:
    """What was typed is none of the cases."""
    if near:
        return f"there is no case “{quoted}”; did you mean {' or '.join(near)}?"
    return f"there is no case “{quoted}”; type a number from 1 to {most}, or a name such as {example}"


# ------------------------------------------------------------------------------------ why a turn is judged so

STARTS_A_LINE = "it starts a shortest line"
STARTS_WITH_FAR_LAYERS = "it starts a shortest way that turns far layers too"
STARTS_A_ROUTE = "it starts a way through the five steps"
STARTS_ANOTHER_WAY = "it starts another way by hand"
SAME_LAYER_AGAIN = "you must turn the same layer again at once"
FAR_LAYER = "it turns a far layer and starts no shortest way"
LEADS_AWAY = "it leads away from the solved pair"
KEEPS_THE_PAIR = "the pair is in its slot and stays there"
UNDOES_WHAT_IS_SOLVED = "it takes apart what was already solved"


def reason_and_loss(reason: str, lost: int) -> str:
    """A reason, with how much longer the way becomes."""
    return f"{reason}, {figured(lost, 'turn')} longer"
