"""Claims about ways: what turns lead to, how many are left, and which are best.

They are checked with the distance function that the scene brings along.
"""

from __future__ import annotations

from dataclasses import dataclass

from tutor.coach.claims import Claim, StepDone
from tutor.coach.scene import Scene, When
from tutor.cube.faces import Turn


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
class StaysShortest:
    """Whether some turns, made from the position before, are the beginning of a shortest way."""

    turns: tuple[Turn, ...]
    stays: bool = True

    def holds(self, scene: Scene) -> bool:
        """By the scene's distance after all of them."""
        nearer = scene.distance(scene.before) - scene.distance(scene.before.after(self.turns))
        return (nearer == len(self.turns)) is self.stays


@dataclass(frozen=True, slots=True)
class LeadsTo:
    """The position after some turns, made from the position before, has ``count`` turns to go."""

    turns: tuple[Turn, ...]
    count: int

    def holds(self, scene: Scene) -> bool:
        """By the scene's distance."""
        return scene.distance(scene.before.after(self.turns)) == self.count


@dataclass(frozen=True, slots=True)
class NeverDone:
    """Some turns, made from the position before, pass through no position in which the step is done."""

    turns: tuple[Turn, ...]
    step: str
    after: int
    """Positions count from after so many of the turns."""

    def holds(self, scene: Scene) -> bool:
        """By the step's definition at each position."""
        positions = [scene.before.after(self.turns[:made]) for made in range(self.after, len(self.turns) + 1)]
        return not any(
            StepDone(When.AFTER, self.step).holds(Scene(end, end, scene.task, scene.distance))
            for end in positions
        )


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
