"""The verdict on each of the 18 turns: Optimal, Acceptable or Detour, and the rule that decided it."""

from __future__ import annotations

from enum import Enum

from msgspec import Struct

from tutor.cube.faces import TURNS, Face, Turn
from tutor.method import words
from tutor.method.terms import Verdict as Verdict
from tutor.solver.search import HandDistances, TurnDistances


class Reason(Enum):
    """The rule that decided a verdict."""

    BY_HAND = words.STARTS_A_LINE
    WITH_FAR_LAYERS = words.STARTS_WITH_FAR_LAYERS
    ROUTE = words.STARTS_A_ROUTE
    ANOTHER_WAY = words.STARTS_ANOTHER_WAY
    AGAIN = words.SAME_LAYER_AGAIN
    FAR_LAYER = words.FAR_LAYER
    LONGER = words.LEADS_AWAY
    STAYS_HOME = words.KEEPS_THE_PAIR
    WAS_HOME = words.UNDOES_WHAT_IS_SOLVED


class Continuation(Struct, frozen=True):
    """One of the 18 turns at a position: what is to go after it, what it costs, and how it is judged.

    ``after`` and ``cost`` (0, 1 or 2 turns) are with all 18 turns; ``by_hand`` is the distance by hand after
    the turn, None where there is no way by hand. ``lost`` is how many turns longer the way becomes as it is
    told to people: by hand, where that can be said.
    """

    turn: Turn
    after: int
    cost: int
    by_hand: int | None
    lost: int
    verdict: Verdict
    reason: Reason

    @property
    def to_go(self) -> int:
        """Turns to go after it: by hand where there is a way by hand, else with all turns."""
        return self.after if self.by_hand is None else self.by_hand

    @property
    def far_is_shorter(self) -> bool:
        """Whether ``to_go`` counts by hand what takes fewer turns with far layers."""
        return self.after < self.to_go

    @property
    def why(self) -> str:
        """The reason in plain words, with how much longer the way becomes."""
        if not self.lost or self.reason in (Reason.BY_HAND, Reason.WITH_FAR_LAYERS):
            return self.reason.value
        return words.reason_and_loss(self.reason.value, self.lost)


class Judging(Struct, frozen=True):
    """What the verdicts of a position are made from.

    ``working`` are the task's working faces, ``starts`` the turns that begin a route at most two turns longer
    than the shortest one.
    """

    at_all: TurnDistances
    by_hand: HandDistances
    working: frozenset[Face]
    starts: frozenset[Turn]

    def continuations(self) -> tuple[Continuation, ...]:
        """The 18 continuations, in the order of ``TURNS``."""
        return tuple(self._judged(turn) for turn in TURNS)

    def _judged(self, turn: Turn) -> Continuation:
        verdict, reason = self._rule(turn)
        lost = 0 if verdict is Verdict.OPTIMAL else self._lost(turn)
        at_all = self.at_all
        return Continuation(
            turn, at_all.after[turn], at_all.cost(turn), self.by_hand.after[turn], lost, verdict, reason
        )

    def _lost(self, turn: Turn) -> int:
        before, after = self.by_hand.distance, self.by_hand.after[turn]
        if before is None:
            return self.at_all.cost(turn)
        if turn.face in self.working:
            return 0 if after is None else after + 1 - before
        # A turn of a far layer costs no more than itself and its undoing.
        return 2 if after is None else max(0, min(2, after + 1 - before))

    def _rule(self, turn: Turn) -> tuple[Verdict, Reason]:
        """The rules in the order in which they decide (definitions of the method)."""
        working = turn.face in self.working
        if self.at_all.distance == 0:
            return self._when_done(turn)
        if working and self._lost(turn) == 0 and self.by_hand.distance is not None:
            return Verdict.OPTIMAL, Reason.BY_HAND
        if self.at_all.cost(turn) == 0:
            return Verdict.OPTIMAL, Reason.WITH_FAR_LAYERS
        if not working:
            return Verdict.DETOUR, Reason.FAR_LAYER
        if turn in self.starts:
            return Verdict.ACCEPTABLE, Reason.ROUTE
        if self.by_hand.distance is not None and self._lost(turn) == 1:
            if turn in self.by_hand.direct:
                return Verdict.ACCEPTABLE, Reason.ANOTHER_WAY
            return Verdict.DETOUR, Reason.AGAIN
        return Verdict.DETOUR, Reason.LONGER

    def _when_done(self, turn: Turn) -> tuple[Verdict, Reason]:
        """With the task done nothing is left to judge: a turn leaves it done or takes it apart."""
        if self.at_all.after[turn] == 0:
            return Verdict.OPTIMAL, Reason.STAYS_HOME
        return Verdict.DETOUR, Reason.WAS_HOME
