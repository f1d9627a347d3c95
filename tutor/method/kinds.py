"""What cases are told apart by, for those who name cases and look at none: apart from what works them out."""

from enum import StrEnum

ALIGNMENTS = (0, 1, 2, 3)
"""Clockwise quarters by which the top layer can be turned further."""


class Family(StrEnum):
    """The four kinds of case, by which of the two pieces are on top."""

    BOTH_ON_TOP = "both on top"
    CORNER_ON_TOP = "corner on top, edge in the slot"
    EDGE_ON_TOP = "edge on top, corner in the slot"
    BOTH_IN_SLOT = "both in the slot"
