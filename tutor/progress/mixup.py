"""Mix-ups: what kind of turn first leads a learner astray, as the verdicts kept with an attempt tell it."""

from __future__ import annotations

from enum import Enum

from tutor.cube.faces import Face, Turn
from tutor.cube.position import Slot
from tutor.method.hand_ways import LIFTS
from tutor.method.terms import Verdict
from tutor.progress import words
from tutor.progress.attempt import AttemptRecord


class Mixup(Enum):
    """The kind of the first detour of an attempt, with what one learner does, and what several do."""

    NONE = ("", "")
    LIFT = words.MIXES_UP_LIFTS
    """A lift of the slot: by the wrong layer, or at the wrong moment."""
    BESIDE = words.MIXES_UP_BESIDE
    """Any other turn of a layer beside the slot."""
    TOP = words.MIXES_UP_TOP
    FAR = words.MIXES_UP_FAR
    """A turn of a layer that is neither the top nor beside the slot."""

    @property
    def does(self) -> str:
        """What one learner does."""
        return self.value[0]

    @property
    def do(self) -> str:
        """What several learners do."""
        return self.value[1]


MIXUPS: tuple[Mixup, ...] = tuple(Mixup)


def mixup_of(attempt: AttemptRecord) -> Mixup:
    """The kind of the first detour; NONE without one. The slot is that of the attempt's beginning."""
    for made in attempt.turns:
        if made.verdict is Verdict.DETOUR:
            return _KINDS[attempt.slot][made.turn]
    return Mixup.NONE


def _kind(turn: Turn, slot: Slot) -> Mixup:
    if turn in LIFTS[slot]:
        return Mixup.LIFT
    if turn.face is Face.U:
        return Mixup.TOP
    return Mixup.BESIDE if turn.face in {lift.face for lift in LIFTS[slot]} else Mixup.FAR


_KINDS = {slot: {turn: _kind(turn, slot) for turn in Turn} for slot in Slot}
