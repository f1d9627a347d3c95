"""The terms of the method: steps, verdicts and families of cases, apart from what works them out."""

from enum import Enum, StrEnum

from tutor.method import words

ALIGNMENTS = (0, 1, 2, 3)
"""Clockwise quarters by which the top layer can be turned further."""


class Family(StrEnum):
    """The four kinds of case, by which of the two pieces are on top."""

    BOTH_ON_TOP = words.BOTH_ON_TOP
    CORNER_ON_TOP = words.CORNER_ON_TOP
    EDGE_ON_TOP = words.EDGE_ON_TOP
    BOTH_IN_SLOT = words.BOTH_IN_SLOT


class Step(StrEnum):
    """What the learner is at. ``FIND`` is an act of looking; ``DONE`` says that nothing is left to do."""

    FIND = "find"
    RAISE = "raise"
    PART = "part"
    JOIN = "join"
    INSERT = "insert"
    DONE = "done"


TURNING_STEPS: tuple[Step, ...] = (Step.RAISE, Step.PART, Step.JOIN, Step.INSERT)
"""The steps in which the cube is turned, in their order."""


class Verdict(Enum):
    """How good a turn is."""

    OPTIMAL = "optimal"
    ACCEPTABLE = "acceptable"
    DETOUR = "detour"


TURNS_PER_STEP = 4
"""A step of a route takes at most so many turns, Raise so many for each slot that holds a piece of the pair;
and so many settle a position at most (definitions of the method)."""
