"""The scene a claim is checked against, and what can be read off it from the stickers alone.

Nothing here uses the tables that sentences are written from: pieces are found by their colours among the 54
stickers, places by coordinates.
"""

from __future__ import annotations

from collections.abc import Callable
from enum import Enum
from functools import cache, lru_cache

from msgspec import Struct
from msgspec.structs import replace

from tutor.cube.faces import Face, Turn
from tutor.cube.geometry import NORMALS, STICKERS, Vector
from tutor.cube.position import Position, Slot
from tutor.cube.stickers import faces_shown
from tutor.solver.task import Task


class Moment(Enum):
    """Whether a claim is about the position before the turn or after it."""

    BEFORE = "before"
    AFTER = "after"


class Piece(Enum):
    """One of the two pieces of the target pair."""

    CORNER = "corner"
    EDGE = "edge"


class ClaimContext(Struct, frozen=True):
    """What claims are checked against. Without a turn, ``before`` and ``after`` are the same position.

    ``at_all`` gives the fewest turns from a position to the task done, ``by_hand`` the fewest of the top and
    of the faces beside slots that are not kept; None where these alone do not do it.
    """

    before: Position
    after: Position
    task: Task
    at_all: Callable[[Position], int]
    by_hand: Callable[[Position], int | None]
    turn: Turn | None = None

    def at(self, when: Moment) -> Position:
        """The position a claim is about."""
        return self.before if when is Moment.BEFORE else self.after

    def moved_to(self, before: Position, turn: Turn | None = None) -> ClaimContext:
        """The same task at another position."""
        after = before if turn is None else before.turned(turn)
        return replace(self, before=before, after=after, turn=turn)

    def to_go(self, position: Position) -> int:
        """Turns to go, as the coach counts: by hand where there is a way by hand."""
        by_hand = self.by_hand(position)
        return self.at_all(position) if by_hand is None else by_hand

    def cost(self) -> int:
        """Turns that the turn made costs, as the coach counts: by hand, and two at most (turn it back).

        Of all turns where there was no way by hand.
        """
        before, after = self.by_hand(self.before), self.by_hand(self.after)
        if before is None:
            return self.at_all(self.after) + 1 - self.at_all(self.before)
        return 2 if after is None else max(0, min(2, after + 1 - before))

    def is_best(self, position: Position, turn: Turn) -> bool:
        """Whether a turn begins a shortest way by hand or of all turns."""
        after, by_hand = position.turned(turn), self.by_hand(position)
        nearer = by_hand is not None and self.by_hand(after) == by_hand - 1
        return (nearer and self.is_beside(turn)) or self.at_all(after) == self.at_all(position) - 1

    def is_beside(self, turn: Turn) -> bool:
        """Whether a turn is of the top or of a face beside a slot that is not kept, by the slots' names."""
        names = (slot.name for slot in Slot if slot not in self.task.keep)
        return turn.face.name in {"U"}.union(*names)


Shown = dict[Vector, dict[Face, Face]]


@lru_cache(maxsize=64)
def _cubies(position: Position) -> Shown:
    """For each cubie its colours (named by their home faces) by the face they show on."""
    shown: Shown = {}
    for (cubie, face), colour in zip(STICKERS, faces_shown(position), strict=True):
        shown.setdefault(cubie, {})[face] = colour
    return shown


@lru_cache(maxsize=64)
def _pieces(position: Position) -> dict[frozenset[Face], tuple[Vector, dict[Face, Face]]]:
    """For the colours of each piece its cubie and what it shows there."""
    return {frozenset(shown.values()): (cubie, shown) for cubie, shown in _cubies(position).items()}


@cache
def cubie_between(faces: tuple[Face, ...]) -> Vector:
    """The coordinates of the place between the faces."""
    x, y, z = (sum(NORMALS[face][axis] for face in faces) for axis in range(3))
    return (x, y, z)


@cache
def own_faces(piece: Piece, slot: Slot) -> tuple[Face, ...]:
    """The faces between which the slot's own piece is home; they name its colours."""
    sides = tuple(Face[letter] for letter in slot.name)
    return (Face.D, *sides) if piece is Piece.CORNER else sides


def find(position: Position, colours: tuple[Face, ...]) -> tuple[Vector, dict[Face, Face]]:
    """Where the piece with these colours is, and what it shows there."""
    return _pieces(position)[frozenset(colours)]


def _is_home(position: Position, faces: tuple[Face, ...]) -> bool:
    return all(face is colour for face, colour in _cubies(position)[cubie_between(faces)].items())


def pair_is_home(position: Position, slot: Slot) -> bool:
    """Whether the slot shows at every sticker the colour of the centre."""
    return all(_is_home(position, own_faces(piece, slot)) for piece in Piece)


def cross_edges_out(position: Position) -> frozenset[Face]:
    """The sides at which the edge of the cross is not solved."""
    sides = (Face.F, Face.L, Face.B, Face.R)
    return frozenset(side for side in sides if not _is_home(position, (Face.D, side)))


def gone(before: Position, after: Position, task: Task) -> tuple[frozenset[Slot], frozenset[Face]]:
    """The pairs of the task, and the sides whose cross edges, that are home before and not after."""
    pairs = (
        slot
        for slot in (*task.keep, task.slot)
        if pair_is_home(before, slot) and not pair_is_home(after, slot)
    )
    return frozenset(pairs), cross_edges_out(after) - cross_edges_out(before)


def touching(position: Position, slot: Slot) -> bool:
    """Whether corner and edge are one step apart."""
    corner, _ = find(position, own_faces(Piece.CORNER, slot))
    edge, _ = find(position, own_faces(Piece.EDGE, slot))
    return sum(abs(a - b) for a, b in zip(corner, edge, strict=True)) == 1


def matching(position: Position, slot: Slot) -> bool:
    """Whether they touch and show the same colours on the faces they share."""
    _, corner = find(position, own_faces(Piece.CORNER, slot))
    _, edge = find(position, own_faces(Piece.EDGE, slot))
    return touching(position, slot) and all(corner.get(face) is colour for face, colour in edge.items())


def on_top(position: Position, slot: Slot, piece: Piece) -> bool:
    """Whether the piece is in the top layer."""
    return find(position, own_faces(piece, slot))[0][1] == 1


def settled(position: Position, task: Task) -> bool:
    """Whether the cross and all kept pairs are solved."""
    return not cross_edges_out(position) and all(pair_is_home(position, slot) for slot in task.keep)
