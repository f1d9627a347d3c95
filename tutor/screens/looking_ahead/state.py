"""Looking ahead as a plain value: the turns played, the pair to follow, and the places chosen."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct

from tutor.cube.faces import Turn
from tutor.cube.geometry import CORNER_CUBIES, EDGE_CUBIES
from tutor.cube.held_cube import HeldCube
from tutor.cube.position import Slot
from tutor.method.plan import PlannedPair
from tutor.session.holder import Holder

PACES = tuple(range(20, 100, 10))
"""Turns a minute to choose from."""
USUAL_PACE = 40


class RoundPhase(Enum):
    """How far a round is."""

    WAITING = "the program works out what to play"
    READY = "the two pieces are on the screen"
    PLAYING = "the pair before is being solved, then comes the question for the corner"
    EDGE = "the question for the edge"
    TOLD = "both answers are given"
    OVER = "no pair is left to look ahead to"


class LookingAhead(Struct, frozen=True):
    """The exercise. ``cube`` is the cube at the beginning of the round, held with the cross down.

    ``stages`` are the pairs still to be played, the first of them in this round; the second is the pair to
    follow. ``pointed`` are the cubies pointed at in this round, the corner's first.
    """

    cube: HeldCube
    pace: int = USUAL_PACE
    stages: tuple[PlannedPair, ...] = ()
    watch: RoundPhase = RoundPhase.WAITING
    pointed: tuple[int, ...] = ()
    right: int = 0
    asked: int = 0
    again: bool = False
    """Whether this round is played once more, so that its answers do not count."""

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
        """The cube while no turns are being played."""
        return self.end if self.watch in (RoundPhase.EDGE, RoundPhase.TOLD) else self.cube

    def pieces(self, cube: HeldCube) -> tuple[int, int] | None:
        """The cubies where the followed corner and edge are."""
        if self.followed is None:
            return None
        corner = cube.position.corners[self.followed.corner] // 3
        edge = cube.position.edges[self.followed.edge] // 2
        return CORNER_CUBIES[corner], EDGE_CUBIES[edge]


LOOKING: Holder[LookingAhead | None] = Holder("looking", None)
"""The exercise; None before the first."""
