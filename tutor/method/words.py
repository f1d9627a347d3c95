"""What the method calls things, in English: the names of the 41 cases."""

from __future__ import annotations

from tutor.cube.faces import Face

_SEEN = {Face.U: "up", Face.D: "down", Face.F: "in front", Face.R: "right", Face.B: "behind", Face.L: "left"}
_COLOUR_OF = {Face.F: "front", Face.R: "right", Face.B: "back", Face.L: "left"}


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
