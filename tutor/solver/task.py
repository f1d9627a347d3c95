"""A task: solve the pair of one slot, and keep the cross and chosen pairs."""

from __future__ import annotations

from functools import cache

from msgspec import Struct

from tutor.cube.faces import Face
from tutor.cube.geometry import CORNER_FACES, EDGE_FACES
from tutor.cube.position import SLOTS, Position, Slot
from tutor.cube.symmetry import Symmetry
from tutor.solver import words


def slot_sides(slot: Slot) -> frozenset[Face]:
    """The two side faces between which the slot lies."""
    return frozenset(EDGE_FACES[slot.edge])


def carried_slot(slot: Slot, symmetry: Symmetry) -> Slot:
    """The slot that ``slot`` becomes under a symmetry that leaves the cross below."""
    sides = frozenset(symmetry.faces[face] for face in slot_sides(slot))
    return next(other for other in SLOTS if slot_sides(other) == sides)


@cache
def _working(slots: frozenset[Slot]) -> frozenset[Face]:
    return frozenset({Face.U}).union(*(slot_sides(slot) for slot in slots))


@cache
def _out_of_reach(faces: frozenset[Face]) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """The corners and the edges whose places none of the faces moves."""
    corners = tuple(place for place, sides in enumerate(CORNER_FACES) if faces.isdisjoint(sides))
    return corners, tuple(place for place, sides in enumerate(EDGE_FACES) if faces.isdisjoint(sides))


class Task(Struct, frozen=True):
    """The target slot and the slots whose pairs must be home at the end too.

    Slots that are neither target nor kept are free. Raises ValueError when the target is among the kept.
    """

    slot: Slot
    keep: frozenset[Slot] = frozenset()

    def __post_init__(self) -> None:
        if self.slot in self.keep:
            raise ValueError(words.target_kept(self.slot))

    @classmethod
    def at(cls, position: Position, slot: Slot) -> Task:
        """The task for ``slot`` that keeps every other pair now home."""
        return cls(slot, position.home_pairs - {slot})

    @property
    def free(self) -> frozenset[Slot]:
        """The slots whose content may be spoilt, the target aside."""
        return frozenset(SLOTS) - self.keep - {self.slot}

    def settled(self, position: Position) -> bool:
        """Whether the cross and every kept pair are home."""
        return position.cross_home and self.keep <= position.home_pairs

    def done(self, position: Position) -> bool:
        """Whether the position is settled and the target pair is home."""
        return position.pair_home(self.slot) and self.settled(position)

    @property
    def working_faces(self) -> frozenset[Face]:
        """The faces you work with (a definition of the method).

        The top, and the two side faces of every slot that is not kept: the target's and the free ones'.
        """
        return _working(frozenset(SLOTS) - self.keep)

    def can_by_hand(self, position: Position) -> bool:
        """Whether turns of working faces alone can finish the task.

        They can where every piece whose place they do not move is home. Those pieces are of the cross and of
        kept pairs; all others that matter the working faces bring anywhere.
        """
        corners, edges = _out_of_reach(self.working_faces)
        return all(position.corners[place] == 3 * place for place in corners) and all(
            position.edges[place] == 2 * place for place in edges
        )
