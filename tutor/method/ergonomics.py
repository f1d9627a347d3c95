"""How comfortable a turn sequence is in the hands: a small model that a teacher can tune.

All figures are common practice, not measurements: a right-hander turns R and U most easily, L nearly so; F
needs the index finger to reach round; D is pushed with a ring finger; B is hard to reach. A half turn takes
longer than a quarter. The costliest thing is to let go and take hold anew. Change the tables to taste; only
the order of equally long sequences depends on them, never a verdict or a length.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from enum import StrEnum
from typing import TypeVar

from msgspec import Struct

from tutor.cube.faces import Face, Turn

TURN_COST: dict[Face, float] = {
    Face.U: 1.0,
    Face.R: 1.0,
    Face.L: 1.2,
    Face.F: 1.5,
    Face.D: 1.8,
    Face.B: 2.5,
}
"""Cost of a quarter turn of each face (common practice)."""

HALF_TURN_COST = 0.5
"""What a half turn costs beyond a quarter turn (common practice)."""

CHANGE_COST = 1.5
"""Cost of taking hold anew (common practice)."""

HOLD: dict[Face, str | None] = {
    Face.U: None,
    Face.D: None,
    Face.R: "sides",
    Face.L: "sides",
    Face.F: "front",
    Face.B: "back",
}
"""How the cube is held to turn each face: R and L from one hold; U and D from any (common practice)."""

WRIST_LIMIT = 1
"""So many quarters to either side of rest a wrist turns before the hand must let go (common practice)."""

# Which way a clockwise quarter turns the wrist of the hand on that side.
_WRIST: dict[Face, int] = {Face.R: 1, Face.L: -1}


class Discomfort(StrEnum):
    """Why a sequence is less comfortable than another."""

    HOLD = "change of hold"
    HALF = "half turn"
    BACK = "turn of the back"
    DOWN = "turn of the bottom"


class Comfort(Struct, frozen=True):
    """What a sequence costs in the hands, and how often each reason occurs; others are left out."""

    cost: float
    reasons: tuple[tuple[Discomfort, int], ...]


def _holds_taken_anew(turns: Sequence[Turn]) -> int:
    """How often the hands must let go and take hold anew; the first hold is free."""
    changes = 0
    held: str | None = None
    wrists = {Face.R: 0, Face.L: 0}
    for turn in turns:
        needed = HOLD[turn.face]
        if needed is not None and held is not None and needed != held:
            changes += 1
            wrists = {Face.R: 0, Face.L: 0}
        held = needed or held
        if turn.face in wrists:
            wrist = _turned_wrist(wrists[turn.face], turn)
            if wrist is None:
                changes += 1
                wrist = _turned_wrist(0, turn) or 0
            wrists[turn.face] = wrist
    return changes


def _turned_wrist(wrist: int, turn: Turn) -> int | None:
    """Where the wrist is after the turn, or None when it cannot reach; a half turn may go either way."""
    sense = _WRIST[turn.face]
    ways = (2, -2) if turn.quarters == 2 else ((1,) if turn.quarters == 1 else (-1,))
    reached = [wrist + sense * way for way in ways]
    within = [place for place in reached if abs(place) <= WRIST_LIMIT]
    if within:
        return min(within, key=abs)
    # From rest a half turn is made in one sweep that ends past the limit, as far as a wrist goes.
    return reached[0] if wrist == 0 and turn.quarters == 2 else None


def comfort(turns: Sequence[Turn]) -> Comfort:
    """What ``turns`` cost in the hands, and why."""
    counts = {
        Discomfort.HOLD: _holds_taken_anew(turns),
        Discomfort.BACK: sum(turn.face is Face.B for turn in turns),
        Discomfort.DOWN: sum(turn.face is Face.D for turn in turns),
        Discomfort.HALF: sum(turn.quarters == 2 for turn in turns),
    }
    cost = sum(TURN_COST[turn.face] for turn in turns)
    cost += HALF_TURN_COST * counts[Discomfort.HALF] + CHANGE_COST * counts[Discomfort.HOLD]
    return Comfort(cost, tuple((reason, count) for reason, count in counts.items() if count))


Sequenced = TypeVar("Sequenced", bound=Sequence[Turn])


def by_comfort(sequences: Iterable[Sequenced]) -> list[Sequenced]:
    """The sequences, most comfortable first; equal ones in the order of their turns."""
    every = list(sequences)
    return sorted(every, key=lambda turns: (comfort(turns).cost, tuple(turns))) if len(every) > 1 else every
