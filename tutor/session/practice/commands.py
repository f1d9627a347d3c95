"""Commands about practice; ``commands`` joins them to all others."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tutor.cube.faces import Turn
    from tutor.method.terms import Family
    from tutor.progress.attempt import Mode


@dataclass(frozen=True, slots=True)
class Practise:
    """Practise in a mode, one case after the other; ``family`` goes with Mode.FAMILY."""

    mode: Mode
    family: Family | None = None


@dataclass(frozen=True, slots=True)
class SetGoal:
    """What the sitting is to come to: the name of a ``GoalKind`` and its amount."""

    kind: str
    amount: int


@dataclass(frozen=True, slots=True)
class NameTurn:
    """In a flash: this is the first turn, as the cube is held."""

    turn: Turn


class PracticeAct(Enum):
    """Commands of practice that need nothing more said."""

    END = "end the sitting"
    GO_ON = "go on though the goal is reached"
    STOP = "stop for now"
    EASIER = "first the case it builds on"
    QUICKER = "more beats a minute"
    CALMER = "fewer beats a minute"


@dataclass(frozen=True, slots=True)
class Tick:
    """The clock of a flash or the metronome has come to its next stroke."""


PracticeCommand = Practise | SetGoal | NameTurn | PracticeAct | Tick
