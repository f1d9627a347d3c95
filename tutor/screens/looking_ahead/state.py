"""Looking ahead as a plain value: what is played, which pair is followed, and what was pointed at."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from tutor.cube.faces import Turn
from tutor.cube.geometry import CORNER_CUBIES, EDGE_CUBIES
from tutor.cube.held_cube import HeldCube
from tutor.cube.position import Slot
from tutor.method.plan import PlannedPair
from tutor.session.holder import Holder

PACES = tuple(range(20, 100, 10))
"""Turns a minute to choose from."""
USUAL_PACE = 40


class Watch(Enum):
    """Where a round stands."""

    WAITING = "what to play is being worked out"
    READY = "the two pieces are shown"
    PLAYING = "the pair before is brought home, then the corner is asked for"
    EDGE = "the edge is asked for"
    TOLD = "both were answered"
    OVER = "no pair is left to look ahead to"


@dataclass(frozen=True, slots=True)
class LookingAhead:
    """The exercise. ``cube`` is held with the cross down and stands where the round begins.

    ``stages`` are the pairs still to be played, the first of them in this round; the second is the pair to
    follow. ``pointed`` are the cubies pointed at in this round, the corner's first.
    """

    cube: HeldCube
    pace: int = USUAL_PACE
    stages: tuple[PlannedPair, ...] = ()
    watch: Watch = Watch.WAITING
    pointed: tuple[int, ...] = ()
    right: int = 0
    asked: int = 0
    again: bool = False
    """Whether the turns of this round are seen once more, when answers do not count."""

    @property
    def turns(self) -> tuple[Turn, ...]:
        """The turns of this round."""
        return self.stages[0].turns if self.stages else ()

    @property
    def followed(self) -> Slot | None:
        """The slot of the pair to follow; None when there is none."""
        return self.stages[1].slot if len(self.stages) > 1 else None

    @property
    def end(self) -> HeldCube:
        """The cube after this round's turns."""
        return self.cube.after(self.turns)

    @property
    def shown(self) -> HeldCube:
        """The cube as it stands while nothing is being played."""
        return self.end if self.watch in (Watch.EDGE, Watch.TOLD) else self.cube

    def pieces(self, cube: HeldCube) -> tuple[int, int] | None:
        """The cubies where the followed corner and edge are."""
        if self.followed is None:
            return None
        corner = cube.position.corners[self.followed.corner] // 3
        edge = cube.position.edges[self.followed.edge] // 2
        return CORNER_CUBIES[corner], EDGE_CUBIES[edge]


LOOKING: Holder[LookingAhead | None] = Holder("looking", None)
"""The exercise; None before one was begun."""
