"""Commands and effects of whole solves; ``commands`` joins them to all others."""

from __future__ import annotations

from dataclasses import dataclass

from tutor.cube.faces import Face
from tutor.method.advice import PositionQuestion

Question = PositionQuestion
"""What can be asked about a whole solve."""


@dataclass(frozen=True, slots=True)
class ChooseCross:
    """In a whole solve: make the cross of this colour (by its number)."""

    colour: Face


@dataclass(frozen=True, slots=True)
class ShowTurns:
    """In a whole solve: show these turns (as written) from the cube as it stands."""

    turns: str


@dataclass(frozen=True, slots=True)
class Advised:
    """What was worked out for a whole solve; None when its time ran out."""

    request: int
    answer: object


@dataclass(frozen=True, slots=True)
class Advise:
    """Work out what is asked about a whole solve; it comes back as Advised."""

    request: int
    question: Question


@dataclass(frozen=True, slots=True)
class Unadvise:
    """These requests for advice need not be answered any more."""

    requests: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Copy:
    """Put a text on the clipboard."""

    text: str
