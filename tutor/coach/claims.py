"""Claims: the facts a sentence states, as values that can be checked against positions.

Sentences are written from locations and tables. Claims are checked from another side: from the 54 stickers
as they show, with coordinates, and with a distance function that the scene brings along. A mistake on either
side makes the two disagree.
"""

from __future__ import annotations

from typing import Protocol

from msgspec import Struct

from tutor.coach import scene as seen
from tutor.coach.scene import ClaimContext, Moment, Piece
from tutor.cube.faces import Face, Turn
from tutor.cube.geometry import NORMALS
from tutor.cube.position import Position, Slot
from tutor.method.steps import ready


class Claim(Protocol):
    """A fact that can be read back."""

    def holds(self, scene: ClaimContext) -> bool:
        """Whether the fact is true of the scene."""
        ...


# ------------------------------------------------------------------------------------------- the claims


class PieceAt(Struct, frozen=True):
    """The piece is at the place named by its faces."""

    when: Moment
    piece: Piece
    place: frozenset[Face]

    def holds(self, scene: ClaimContext) -> bool:
        """Read from the stickers."""
        cubie, _ = seen.find(scene.at(self.when), seen.own_faces(self.piece, scene.task.slot))
        return cubie == seen.cubie_between(tuple(self.place))


class ColourOn(Struct, frozen=True):
    """The piece shows ``colour`` (named by its home face) on ``face``."""

    when: Moment
    piece: Piece
    colour: Face
    face: Face

    def holds(self, scene: ClaimContext) -> bool:
        """Read from the stickers."""
        _, shown = seen.find(scene.at(self.when), seen.own_faces(self.piece, scene.task.slot))
        return shown.get(self.face) is self.colour


class OutOfSight(Struct, frozen=True):
    """From the rest view the piece shows none of its stickers, but the mirror of ``mirror`` shows it."""

    when: Moment
    piece: Piece
    mirror: Face

    def holds(self, scene: ClaimContext) -> bool:
        """The rest view shows U, F and R."""
        _, shown = seen.find(scene.at(self.when), seen.own_faces(self.piece, scene.task.slot))
        return not {Face.U, Face.F, Face.R} & set(shown) and self.mirror in shown


class Moved(Struct, frozen=True):
    """Whether the turn moved the piece."""

    piece: Piece
    moved: bool = True

    def holds(self, scene: ClaimContext) -> bool:
        """Compare where it was and is."""
        faces = seen.own_faces(self.piece, scene.task.slot)
        return (seen.find(scene.before, faces) != seen.find(scene.after, faces)) is self.moved


class OnTop(Struct, frozen=True):
    """Whether the piece is in the top layer."""

    when: Moment
    piece: Piece
    on_top: bool = True

    def holds(self, scene: ClaimContext) -> bool:
        """By coordinates."""
        return seen.on_top(scene.at(self.when), scene.task.slot, self.piece) is self.on_top


class LiftsSlot(Struct, frozen=True):
    """The turn carries both places of the slot to the top layer."""

    slot: Slot

    def holds(self, scene: ClaimContext) -> bool:
        """By what it does to the slot's own pair on a solved cube."""
        if scene.turn is None:
            return False
        turned = Position().turned(scene.turn)
        return all(seen.on_top(turned, self.slot, piece) for piece in Piece)


class InLayer(Struct, frozen=True):
    """Whether the piece is in the layer of ``face``."""

    when: Moment
    piece: Piece
    face: Face
    inside: bool = True

    def holds(self, scene: ClaimContext) -> bool:
        """By coordinates."""
        cubie, _ = seen.find(scene.at(self.when), seen.own_faces(self.piece, scene.task.slot))
        return (sum(a * b for a, b in zip(cubie, NORMALS[self.face], strict=True)) == 1) is self.inside


class Touching(Struct, frozen=True):
    """Whether corner and edge share a side."""

    when: Moment
    touching: bool = True

    def holds(self, scene: ClaimContext) -> bool:
        """By coordinates."""
        return seen.touching(scene.at(self.when), scene.task.slot) is self.touching


class Matching(Struct, frozen=True):
    """Whether corner and edge match."""

    when: Moment
    matching: bool = True

    def holds(self, scene: ClaimContext) -> bool:
        """Colour by colour across the joint."""
        return seen.matching(scene.at(self.when), scene.task.slot) is self.matching


class Settled(Struct, frozen=True):
    """Whether the cross and all kept pairs are solved."""

    when: Moment
    settled: bool = True

    def holds(self, scene: ClaimContext) -> bool:
        """From the stickers of the cross edges and the pairs."""
        return seen.settled(scene.at(self.when), scene.task) is self.settled


class PairHome(Struct, frozen=True):
    """Whether the slot's own pair is solved."""

    when: Moment
    slot: Slot
    home: bool = True

    def holds(self, scene: ClaimContext) -> bool:
        """From the stickers."""
        return seen.pair_is_home(scene.at(self.when), self.slot) is self.home


class TakenOut(Struct, frozen=True):
    """The turn takes exactly these pairs and cross edges out of place, and no other pair of the task.

    ``edges`` are named by the sides they belong to.
    """

    pairs: frozenset[Slot]
    edges: frozenset[Face]

    def holds(self, scene: ClaimContext) -> bool:
        """Read from the stickers before and after."""
        return (self.pairs, self.edges) == seen.gone(scene.before, scene.after, scene.task)


class PutBack(Struct, frozen=True):
    """The turn brings exactly these pairs and cross edges back in place, and no other pair of the task."""

    pairs: frozenset[Slot]
    edges: frozenset[Face]

    def holds(self, scene: ClaimContext) -> bool:
        """Read from the stickers before and after."""
        return (self.pairs, self.edges) == seen.gone(scene.after, scene.before, scene.task)


class OutOfPlace(Struct, frozen=True):
    """At ``when`` these pairs and cross edges are not in place."""

    when: Moment
    pairs: frozenset[Slot]
    edges: frozenset[Face]

    def holds(self, scene: ClaimContext) -> bool:
        """Read from the stickers."""
        position = scene.at(self.when)
        return self.edges <= seen.cross_edges_out(position) and not any(
            seen.pair_is_home(position, slot) for slot in self.pairs
        )


class AllKept(Struct, frozen=True):
    """The cross and the pairs of ``pairs`` are solved, and these are all that the task keeps."""

    when: Moment
    pairs: frozenset[Slot]

    def holds(self, scene: ClaimContext) -> bool:
        """Read from the stickers."""
        return seen.settled(scene.at(self.when), scene.task) and self.pairs == scene.task.keep


class SettledBy(Struct, frozen=True):
    """One turn of ``face`` would solve the cross and all kept pairs, and they are not solved now."""

    when: Moment
    face: Face

    def holds(self, scene: ClaimContext) -> bool:
        """By making each of its turns."""
        position = scene.at(self.when)
        turns = (Turn.of(self.face, quarters) for quarters in (1, 2, 3))
        return not seen.settled(position, scene.task) and any(
            seen.settled(position.turned(turn), scene.task) for turn in turns
        )


class ComesHomeBy(Struct, frozen=True):
    """One turn of ``face`` completes the task."""

    when: Moment
    face: Face

    def holds(self, scene: ClaimContext) -> bool:
        """By making each of its turns."""
        ends = [scene.at(self.when).turned(Turn.of(self.face, quarters)) for quarters in (1, 2, 3)]
        return any(seen.settled(end, scene.task) and seen.pair_is_home(end, scene.task.slot) for end in ends)


class StepDone(Struct, frozen=True):
    """Whether a step, by name, is done."""

    when: Moment
    step: str
    done: bool = True

    def holds(self, scene: ClaimContext) -> bool:
        """By the step's definition, read from the stickers; what is ready is asked of the method."""
        position, task = scene.at(self.when), scene.task
        on_top = all(seen.on_top(position, task.slot, piece) for piece in Piece)
        settled, match = seen.settled(position, task), seen.matching(position, task.slot)
        state = {
            "raise": on_top and settled,
            "part": on_top and settled and ready(position, task),
            "join": on_top and match,
            "insert": settled and seen.pair_is_home(position, task.slot),
        }
        return state[self.step] is self.done
