"""Why an answer is wrong: what lies at the place chosen, and which turn moved the piece elsewhere."""

from __future__ import annotations

from tutor.coach.solve_review_sentences import pair_name
from tutor.cube.faces import FACES, Face
from tutor.cube.geometry import CORNER_CUBIES, EDGE_CUBIES, STICKERS, cubie_number
from tutor.cube.position import SLOTS, Position
from tutor.screens.looking_ahead import words
from tutor.screens.looking_ahead.state import LookingAhead

LAST_LAYER = range(4)
"""Pieces that belong on top: the same numbers for corners and for edges."""


def faces_of(cubie: int) -> tuple[Face, ...]:
    """The faces that a cubie shows."""
    return tuple(
        face for face in FACES for place, side in STICKERS if side is face and cubie_number(place) == cubie
    )


def miss_words(looking: LookingAhead, kind: str, chosen: int, colours: tuple[str, ...]) -> str:
    """Where the piece is, what was chosen instead, and which turn to watch; ``kind`` is corner or edge.

    ``chosen`` is a cubie of the same kind, and ``colours`` are the colour words of the faces as held.
    """
    path = _path(looking, kind)
    said = (
        words.it_is(kind, faces_of(path[-1])),
        _chosen(looking.end.position, kind, chosen, colours),
        _turn_to_watch(looking, kind, path, chosen),
    )
    return " ".join(said)


def _path(looking: LookingAhead, kind: str) -> tuple[int, ...]:
    """The cubie where the followed piece is at first and after every turn."""
    reached = [looking.cube.after(looking.turns[:count]) for count in range(len(looking.turns) + 1)]
    which = ("corner", "edge").index(kind)
    return tuple(pieces[which] for cube in reached if (pieces := looking.pieces(cube)) is not None)


def _chosen(position: Position, kind: str, chosen: int, colours: tuple[str, ...]) -> str:
    """Which piece lies at the place that was chosen."""
    piece = _piece_at(position, kind, chosen)
    if piece in LAST_LAYER:
        return words.chose_last_layer(kind, colours[Face.U])
    slot = next((slot for slot in SLOTS if piece == (slot.corner if kind == "corner" else slot.edge)), None)
    return words.CHOSE_CROSS if slot is None else words.chose_other_pair(kind, pair_name(slot, colours))


def _piece_at(position: Position, kind: str, cubie: int) -> int:
    if kind == "corner":
        return [location // 3 for location in position.corners].index(CORNER_CUBIES.index(cubie))
    return [location // 2 for location in position.edges].index(EDGE_CUBIES.index(cubie))


def _turn_to_watch(looking: LookingAhead, kind: str, path: tuple[int, ...], chosen: int) -> str:
    """The turn that carried the piece away from the place chosen, or else the last one that moved it."""
    turns = looking.turns
    there = [number for number, cubie in enumerate(path, start=1) if cubie == chosen]
    if there:
        return words.was_there(kind, there[-1], len(turns), turns[there[-1] - 1].face)
    moved = [number for number in range(1, len(path)) if path[number] != path[number - 1]]
    if moved:
        return words.never_there(kind, moved[-1], len(turns), turns[moved[-1] - 1].face)
    return words.never_moved(kind)
