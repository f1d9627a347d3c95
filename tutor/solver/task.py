"""A task: bring the pair of one slot home and keep the cross and chosen pairs."""

from __future__ import annotations

from dataclasses import dataclass

from tutor.cube.faces import Face
from tutor.cube.geometry import EDGE_FACES
from tutor.cube.position import SLOTS, Position, Slot


def slot_sides(slot: Slot) -> frozenset[Face]:
    """The two side faces between which the slot lies."""
    return frozenset(EDGE_FACES[slot.edge])


@dataclass(frozen=True, slots=True)
class Task:
    """The target slot and the slots whose pairs must be home at the end too.

    Slots that are neither target nor kept are free. Raises ValueError when the target is among the kept.
    """

    slot: Slot
    keep: frozenset[Slot] = frozenset()

    def __post_init__(self) -> None:
        if self.slot in self.keep:
            raise ValueError(f"slot {self.slot.name} is the target, so it cannot be among the kept ones")

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

    def working_faces(self, position: Position) -> frozenset[Face]:
        """The faces one works with (a definition of the method).

        The top, and the side faces of the target slot, of the free slots, and of any slot that now holds
        the target's corner or edge.
        """
        slots = {self.slot} | self.free
        corner_place = position.corners[self.slot.corner] // 3
        edge_place = position.edges[self.slot.edge] // 2
        slots |= {slot for slot in SLOTS if slot.corner == corner_place or slot.edge == edge_place}
        return frozenset({Face.U}).union(*(slot_sides(slot) for slot in slots))
