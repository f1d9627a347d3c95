"""The cube of free play."""

from __future__ import annotations

from tutor.cube.held_cube import HeldCube
from tutor.cube.position import SOLVED
from tutor.cube.symmetry import IDENTITY
from tutor.screens.parts.explained import AskedSequence
from tutor.session.history import History
from tutor.session.holder import Holder
from tutor.session.state import Attempt

FREE: Holder[Attempt] = Holder("free", Attempt(History(HeldCube(SOLVED, IDENTITY))))
EXPLAINED: Holder[AskedSequence | None] = Holder("explained", None)
"""The turns that the learner asked to have explained; the card explains them while they are the last made."""
