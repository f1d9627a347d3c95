"""Claims about ways: what turns lead to, how many are left, and which are best.

They are checked with the two distances that the scene brings along, by hand and of all turns.
"""

from __future__ import annotations

from msgspec import Struct

from tutor.coach.claims import Claim, StepDone
from tutor.coach.scene import ClaimContext, Moment, cross_edges_out, gone, pair_is_home
from tutor.cube.faces import Face, Turn
from tutor.cube.position import Position, Slot
from tutor.cube.symmetry import MIRROR_LEFT_RIGHT


class ToGo(Struct, frozen=True):
    """The fewest turns from the position to the task done: by hand where there is a way by hand."""

    when: Moment
    count: int

    def holds(self, scene: ClaimContext) -> bool:
        """By the scene's distances."""
        return scene.to_go(scene.at(self.when)) == self.count


class ByHand(Struct, frozen=True):
    """Whether turns of the top and of the layers beside the slot alone can do the task."""

    when: Moment
    possible: bool = True

    def holds(self, scene: ClaimContext) -> bool:
        """By the scene's distance by hand."""
        return (scene.by_hand(scene.at(self.when)) is not None) is self.possible


class ShortestOfAll(Struct, frozen=True):
    """Whether the turn made begins a shortest way of all turns."""

    shortest: bool = True

    def holds(self, scene: ClaimContext) -> bool:
        """By the scene's distances before and after."""
        return (scene.at_all(scene.after) == scene.at_all(scene.before) - 1) is self.shortest


class Costs(Struct, frozen=True):
    """How many turns the turn made costs, as the coach counts."""

    count: int

    def holds(self, scene: ClaimContext) -> bool:
        """By the scene's distances before and after."""
        return scene.cost() == self.count


class Best(Struct, frozen=True):
    """Whether a turn, made at the position before, begins a shortest way: by hand, or of all turns."""

    turn: Turn
    best: bool = True

    def holds(self, scene: ClaimContext) -> bool:
        """By the scene's distances after it."""
        return scene.is_best(scene.before, self.turn) is self.best


class OnlyBest(Struct, frozen=True):
    """No turn but those of one face begins a shortest way from the position before."""

    face: Face

    def holds(self, scene: ClaimContext) -> bool:
        """By the scene's distances after each turn."""
        return all(turn.face is self.face for turn in Turn if scene.is_best(scene.before, turn))


class BackIsBest(Struct, frozen=True):
    """To take the turn made back begins a shortest way from the position after it."""

    def holds(self, scene: ClaimContext) -> bool:
        """By the scene's distances."""
        return scene.turn is not None and scene.is_best(scene.after, scene.turn.inverse)


class BestInOrder(Struct, frozen=True):
    """Two turns that, made one after the other at the position before, stay on a shortest way."""

    first: Turn
    second: Turn

    def holds(self, scene: ClaimContext) -> bool:
        """By the scene's distances after both."""
        end = scene.before.turned(self.first).turned(self.second)
        return scene.to_go(end) == scene.to_go(scene.before) - 2


class StaysShortest(Struct, frozen=True):
    """Whether some turns, made from the position before, are the beginning of a shortest way."""

    turns: tuple[Turn, ...]
    stays: bool = True

    def holds(self, scene: ClaimContext) -> bool:
        """By the scene's distances after all of them."""
        nearer = scene.to_go(scene.before) - scene.to_go(scene.before.after(self.turns))
        return (nearer == len(self.turns)) is self.stays


class LeadsTo(Struct, frozen=True):
    """The position after some turns, made from the position before, has ``count`` turns to go."""

    turns: tuple[Turn, ...]
    count: int

    def holds(self, scene: ClaimContext) -> bool:
        """By the scene's distances."""
        return scene.to_go(scene.before.after(self.turns)) == self.count


class AllBeside(Struct, frozen=True):
    """Whether some turns are all of the top and of the faces beside the slots that are not kept."""

    turns: tuple[Turn, ...]
    beside: bool = True

    def holds(self, scene: ClaimContext) -> bool:
        """By the slots' names."""
        return all(scene.is_beside(turn) for turn in self.turns) is self.beside


class NeverDone(Struct, frozen=True):
    """Some turns, made from the position before, pass through no position in which the step is done."""

    turns: tuple[Turn, ...]
    step: str
    after: int
    """Positions count from after so many of the turns."""

    def holds(self, scene: ClaimContext) -> bool:
        """By the step's definition at each position."""
        positions = [scene.before.after(self.turns[:made]) for made in range(self.after, len(self.turns) + 1)]
        return not any(StepDone(Moment.AFTER, self.step).holds(scene.moved_to(end)) for end in positions)


class Later(Struct, frozen=True):
    """A claim about the last of several turns made from the position before."""

    turns: tuple[Turn, ...]
    claim: Claim

    def holds(self, scene: ClaimContext) -> bool:
        """By making the turns."""
        *first, last = self.turns
        return self.claim.holds(scene.moved_to(scene.before.after(first), last))


class Unsolved(Struct, frozen=True):
    """At ``when`` exactly these pairs of the task and these cross edges are not solved."""

    when: Moment
    pairs: frozenset[Slot]
    edges: frozenset[Face]

    def holds(self, scene: ClaimContext) -> bool:
        """Read from the stickers."""
        position = scene.at(self.when)
        slots = (*scene.task.keep, scene.task.slot)
        pairs = frozenset(slot for slot in slots if not pair_is_home(position, slot))
        return (self.pairs, self.edges) == (pairs, cross_edges_out(position))


class Spoils(Struct, frozen=True):
    """Of a solved cube, some turns leave exactly these cross edges and pairs unsolved, the target's aside."""

    turns: tuple[Turn, ...]
    pairs: frozenset[Slot]
    edges: frozenset[Face]

    def holds(self, scene: ClaimContext) -> bool:
        """Read from the stickers of a cube that was solved before them."""
        end = Position().after(self.turns)
        others = (slot for slot in Slot if slot is not scene.task.slot)
        pairs = frozenset(slot for slot in others if not pair_is_home(end, slot))
        return (self.pairs, self.edges) == (pairs, cross_edges_out(end))


class OutBetween(Struct, frozen=True):
    """Some turns, made from the position before, take exactly these pairs and cross edges out on the way and
    have them back at the end."""

    turns: tuple[Turn, ...]
    pairs: frozenset[Slot]
    edges: frozenset[Face]

    def holds(self, scene: ClaimContext) -> bool:
        """Read from the stickers of every position that they pass."""
        passed = [scene.before.after(self.turns[:made]) for made in range(len(self.turns) + 1)]
        lost = [gone(scene.before, at, scene.task) for at in passed]
        pairs = frozenset[Slot]().union(*(slots for slots, _ in lost)) - lost[-1][0] - {scene.task.slot}
        edges = frozenset[Face]().union(*(sides for _, sides in lost)) - lost[-1][1]
        return (self.pairs, self.edges) == (pairs, edges)


class SlidesIn(Struct, frozen=True):
    """Whether the slot just lifted, lowered after some turn of the top, would have its pair."""

    slides: bool

    def holds(self, scene: ClaimContext) -> bool:
        """Read from the stickers after each turn of the top."""
        return any(pair_is_home(end, scene.task.slot) for end in _lowered(scene)) is self.slides


def _lowered(scene: ClaimContext) -> list[Position]:
    """Where a turn of the top and the turn made, taken back, lead."""
    if scene.turn is None:
        return []
    return [scene.after.turned(top).turned(scene.turn.inverse) for top in (Turn.U, Turn.U2, Turn.U_PRIME)]


class Mirrored(Struct, frozen=True):
    """Whether some turns solve the pair of ``slot`` at the mirror image of the position before."""

    turns: tuple[Turn, ...]
    slot: Slot
    solves: bool

    def holds(self, scene: ClaimContext) -> bool:
        """By making them there, with left and right exchanged in the names of slots."""
        end = scene.before.carried(MIRROR_LEFT_RIGHT).after(self.turns)
        swapped = str.maketrans("LR", "RL")
        keep = (Slot[slot.name.translate(swapped)] for slot in scene.task.keep)
        solved = not cross_edges_out(end) and all(pair_is_home(end, slot) for slot in (self.slot, *keep))
        return self.slot.name.translate(swapped) == scene.task.slot.name and solved is self.solves


class Turned(Struct, frozen=True):
    """The turn that was made."""

    turn: Turn

    def holds(self, scene: ClaimContext) -> bool:
        """The one that leads from before to after."""
        return scene.before.turned(self.turn) == scene.after
