"""Claims: the facts a sentence states, as values that can be checked against positions.

Sentences are written from locations and tables. Claims are checked from another side: from the 54 stickers
as they show, with coordinates, and with a distance function that the scene brings along. A mistake on either
side makes the two disagree.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum
from functools import lru_cache
from typing import Protocol

from tutor.cube.faces import Face, Turn
from tutor.cube.geometry import NORMALS, STICKERS, Vector
from tutor.cube.position import Position, Slot
from tutor.cube.stickers import faces_shown
from tutor.solver.task import Task


class When(Enum):
    """Whether a claim is about the position before the turn or after it."""

    BEFORE = "before"
    AFTER = "after"


class Piece(Enum):
    """One of the two pieces of the target pair."""

    CORNER = "corner"
    EDGE = "edge"


@dataclass(frozen=True)
class Scene:
    """What claims are checked against. Without a turn, ``before`` and ``after`` are the same position.

    ``distance`` gives the fewest turns from a position to the task done.
    """

    before: Position
    after: Position
    task: Task
    distance: Callable[[Position], int]
    turn: Turn | None = None
    previous: Turn | None = None

    def at(self, when: When) -> Position:
        """The position a claim is about."""
        return self.before if when is When.BEFORE else self.after


class Claim(Protocol):
    """A fact that can be read back."""

    def holds(self, scene: Scene) -> bool:
        """Whether the fact is true of the scene."""
        ...


# --------------------------------------------------------------- reading positions from their stickers

Shown = dict[Vector, dict[Face, Face]]


@lru_cache(maxsize=64)
def _cubies(position: Position) -> Shown:
    """For each cubie its colours (named by their home faces) by the face they show on."""
    shown: Shown = {}
    for (cubie, face), colour in zip(STICKERS, faces_shown(position), strict=True):
        shown.setdefault(cubie, {})[face] = colour
    return shown


def _home(faces: tuple[Face, ...]) -> Vector:
    x, y, z = (sum(NORMALS[face][axis] for face in faces) for axis in range(3))
    return (x, y, z)


def _own_faces(piece: Piece, slot: Slot) -> tuple[Face, ...]:
    sides = tuple(Face[letter] for letter in slot.name)
    return (Face.D, *sides) if piece is Piece.CORNER else sides


def _find(position: Position, colours: tuple[Face, ...]) -> tuple[Vector, dict[Face, Face]]:
    """Where the piece with these colours is, and what it shows there."""
    return next(
        (cubie, shown) for cubie, shown in _cubies(position).items() if set(shown.values()) == set(colours)
    )


def _is_home(position: Position, faces: tuple[Face, ...]) -> bool:
    return all(face is colour for face, colour in _cubies(position)[_home(faces)].items())


def _pair_is_home(position: Position, slot: Slot) -> bool:
    return all(_is_home(position, _own_faces(piece, slot)) for piece in Piece)


def _cross_out(position: Position) -> frozenset[Face]:
    sides = (Face.F, Face.L, Face.B, Face.R)
    return frozenset(side for side in sides if not _is_home(position, (Face.D, side)))


def _touch(position: Position, slot: Slot) -> bool:
    corner, _ = _find(position, _own_faces(Piece.CORNER, slot))
    edge, _ = _find(position, _own_faces(Piece.EDGE, slot))
    return sum(abs(a - b) for a, b in zip(corner, edge, strict=True)) == 1


def _match(position: Position, slot: Slot) -> bool:
    _, corner = _find(position, _own_faces(Piece.CORNER, slot))
    _, edge = _find(position, _own_faces(Piece.EDGE, slot))
    return _touch(position, slot) and all(corner.get(face) is colour for face, colour in edge.items())


def _on_top(position: Position, slot: Slot, piece: Piece) -> bool:
    return _find(position, _own_faces(piece, slot))[0][1] == 1


def _settled(position: Position, task: Task) -> bool:
    return not _cross_out(position) and all(_pair_is_home(position, slot) for slot in task.keep)


# ------------------------------------------------------------------------------------------- the claims


@dataclass(frozen=True, slots=True)
class PieceAt:
    """The piece is at the place named by its faces."""

    when: When
    piece: Piece
    place: frozenset[Face]

    def holds(self, scene: Scene) -> bool:
        """Read from the stickers."""
        cubie, _ = _find(scene.at(self.when), _own_faces(self.piece, scene.task.slot))
        return cubie == _home(tuple(self.place))


@dataclass(frozen=True, slots=True)
class ColourOn:
    """The piece shows ``colour`` (named by its home face) on ``face``."""

    when: When
    piece: Piece
    colour: Face
    face: Face

    def holds(self, scene: Scene) -> bool:
        """Read from the stickers."""
        _, shown = _find(scene.at(self.when), _own_faces(self.piece, scene.task.slot))
        return shown.get(self.face) is self.colour


@dataclass(frozen=True, slots=True)
class OutOfSight:
    """From the rest view the piece shows none of its stickers, but the mirror of ``mirror`` shows it."""

    when: When
    piece: Piece
    mirror: Face

    def holds(self, scene: Scene) -> bool:
        """The rest view shows U, F and R."""
        _, shown = _find(scene.at(self.when), _own_faces(self.piece, scene.task.slot))
        return not {Face.U, Face.F, Face.R} & set(shown) and self.mirror in shown


@dataclass(frozen=True, slots=True)
class SlotOutOfSight:
    """Neither place of the slot shows on U, F or R, and the mirror of ``mirror`` shows both."""

    slot: Slot
    mirror: Face

    def holds(self, scene: Scene) -> bool:
        """From the faces the slot lies between."""
        del scene
        faces = set(_own_faces(Piece.CORNER, self.slot))
        return not {Face.U, Face.F, Face.R} & faces and self.mirror in faces


@dataclass(frozen=True, slots=True)
class Moved:
    """Whether the turn moved the piece."""

    piece: Piece
    moved: bool = True

    def holds(self, scene: Scene) -> bool:
        """Compare where it was and is."""
        faces = _own_faces(self.piece, scene.task.slot)
        return (_find(scene.before, faces) != _find(scene.after, faces)) is self.moved


@dataclass(frozen=True, slots=True)
class OnTop:
    """Whether the piece is in the top layer."""

    when: When
    piece: Piece
    on_top: bool = True

    def holds(self, scene: Scene) -> bool:
        """By coordinates."""
        return _on_top(scene.at(self.when), scene.task.slot, self.piece) is self.on_top


@dataclass(frozen=True, slots=True)
class LiftsSlot:
    """The turn carries both places of the slot to the top layer."""

    slot: Slot

    def holds(self, scene: Scene) -> bool:
        """By what it does to the slot's own pair on a solved cube."""
        if scene.turn is None:
            return False
        turned = Position().turned(scene.turn)
        return all(_on_top(turned, self.slot, piece) for piece in Piece)


@dataclass(frozen=True, slots=True)
class InLayer:
    """Whether the piece is in the layer of ``face``."""

    when: When
    piece: Piece
    face: Face
    inside: bool = True

    def holds(self, scene: Scene) -> bool:
        """By coordinates."""
        cubie, _ = _find(scene.at(self.when), _own_faces(self.piece, scene.task.slot))
        return (sum(a * b for a, b in zip(cubie, NORMALS[self.face], strict=True)) == 1) is self.inside


@dataclass(frozen=True, slots=True)
class Touching:
    """Whether corner and edge share a side."""

    when: When
    touching: bool = True

    def holds(self, scene: Scene) -> bool:
        """By coordinates."""
        return _touch(scene.at(self.when), scene.task.slot) is self.touching


@dataclass(frozen=True, slots=True)
class Matching:
    """Whether corner and edge match."""

    when: When
    matching: bool = True

    def holds(self, scene: Scene) -> bool:
        """Colour by colour across the joint."""
        return _match(scene.at(self.when), scene.task.slot) is self.matching


@dataclass(frozen=True, slots=True)
class Settled:
    """Whether the cross and all kept pairs are home."""

    when: When
    settled: bool = True

    def holds(self, scene: Scene) -> bool:
        """From the stickers of the cross edges and the pairs."""
        return _settled(scene.at(self.when), scene.task) is self.settled


@dataclass(frozen=True, slots=True)
class PairHome:
    """Whether the slot's own pair is home."""

    when: When
    slot: Slot
    home: bool = True

    def holds(self, scene: Scene) -> bool:
        """From the stickers."""
        return _pair_is_home(scene.at(self.when), self.slot) is self.home


@dataclass(frozen=True, slots=True)
class CrossOut:
    """How many cross edges are out of place."""

    when: When
    count: int

    def holds(self, scene: Scene) -> bool:
        """From the stickers."""
        return len(_cross_out(scene.at(self.when))) == self.count


@dataclass(frozen=True, slots=True)
class SettledBy:
    """One turn of ``face`` would bring the cross and all kept pairs home, and they are not home now."""

    when: When
    face: Face

    def holds(self, scene: Scene) -> bool:
        """By making each of its turns."""
        position = scene.at(self.when)
        turns = (Turn.of(self.face, quarters) for quarters in (1, 2, 3))
        return not _settled(position, scene.task) and any(
            _settled(position.turned(turn), scene.task) for turn in turns
        )


@dataclass(frozen=True, slots=True)
class ComesHomeBy:
    """One turn of ``face`` completes the task."""

    when: When
    face: Face

    def holds(self, scene: Scene) -> bool:
        """By making each of its turns."""
        ends = [scene.at(self.when).turned(Turn.of(self.face, quarters)) for quarters in (1, 2, 3)]
        return any(_settled(end, scene.task) and _pair_is_home(end, scene.task.slot) for end in ends)


@dataclass(frozen=True, slots=True)
class StepDone:
    """Whether a step, by name, is done."""

    when: When
    step: str
    done: bool = True

    def holds(self, scene: Scene) -> bool:
        """By the step's definition, read from the stickers."""
        position, task = scene.at(self.when), scene.task
        on_top = all(_on_top(position, task.slot, piece) for piece in Piece)
        settled, match = _settled(position, task), _match(position, task.slot)
        apart = match or not _touch(position, task.slot)
        state = {
            "raise": on_top and settled,
            "part": on_top and settled and apart,
            "join": on_top and match,
            "insert": settled and _pair_is_home(position, task.slot),
        }
        return state[self.step] is self.done


@dataclass(frozen=True, slots=True)
class ToGo:
    """The fewest turns from the position to the task done."""

    when: When
    count: int

    def holds(self, scene: Scene) -> bool:
        """By the scene's distance."""
        return scene.distance(scene.at(self.when)) == self.count


@dataclass(frozen=True, slots=True)
class Costs:
    """How many turns more than the fewest the turn made takes in all."""

    count: int

    def holds(self, scene: Scene) -> bool:
        """By the scene's distance before and after."""
        return scene.distance(scene.after) + 1 - scene.distance(scene.before) == self.count


@dataclass(frozen=True, slots=True)
class Best:
    """Whether a turn, made at the position before, would start a shortest way."""

    turn: Turn
    best: bool = True

    def holds(self, scene: Scene) -> bool:
        """By the scene's distance after it."""
        nearer = scene.distance(scene.before.turned(self.turn)) == scene.distance(scene.before) - 1
        return nearer is self.best


@dataclass(frozen=True, slots=True)
class BestInOrder:
    """Two turns that, made one after the other at the position before, stay on a shortest way."""

    first: Turn
    second: Turn

    def holds(self, scene: Scene) -> bool:
        """By the scene's distance after both."""
        end = scene.before.turned(self.first).turned(self.second)
        return scene.distance(end) == scene.distance(scene.before) - 2


@dataclass(frozen=True, slots=True)
class MakesOne:
    """The previous turn and this one come to the single turn ``turn``; None when they cancel."""

    turn: Turn | None

    def holds(self, scene: Scene) -> bool:
        """By what they do to a position."""
        if scene.previous is None or scene.turn is None:
            return False
        both = Position().turned(scene.previous).turned(scene.turn)
        return both == (Position() if self.turn is None else Position().turned(self.turn))


@dataclass(frozen=True, slots=True)
class Later:
    """A claim about the last of several turns made from the position before."""

    turns: tuple[Turn, ...]
    claim: Claim

    def holds(self, scene: Scene) -> bool:
        """By making the turns."""
        *first, last = self.turns
        before = scene.before
        for turn in first:
            before = before.turned(turn)
        later = Scene(before, before.turned(last), scene.task, scene.distance, last)
        return self.claim.holds(later)


@dataclass(frozen=True, slots=True)
class Turned:
    """The turn that was made."""

    turn: Turn

    def holds(self, scene: Scene) -> bool:
        """The one that leads from before to after."""
        return scene.before.turned(self.turn) == scene.after
