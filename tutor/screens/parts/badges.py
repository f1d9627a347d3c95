"""How badges look that say how well a case is remembered."""

from __future__ import annotations

from tutor.progress.summary import Memory
from tutor.ui.view import Tone

BADGES = {
    Memory.NOT_MET: (Tone.MUTED, False),
    Memory.SETTLING: (Tone.NEUTRAL, False),
    Memory.SLIPPING: (Tone.WARNING, True),
    Memory.STICKS: (Tone.GOOD, False),
    Memory.SURE: (Tone.GOOD, True),
}
"""Colour of a badge: its tone, and whether it is full of it."""
