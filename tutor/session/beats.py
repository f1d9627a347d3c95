"""Turns shown one beat each: what comes and why, the turn itself, then what it changed.

Everything on the screen asks one ``Beat`` which turn it speaks of, so that card, rail and arrow agree.
"""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum
from functools import lru_cache

from msgspec import Struct

from tutor.cube.faces import Turn
from tutor.session.timeline import seconds
from tutor.speech.spoken_text import spoken_text

SLOW = 0.5
"""Speed of the slow pass, of the usual speed."""
STEP_REST = 1.2
"""Seconds of rest at the end of a step in the slow pass, where nothing is said of the turn."""
BREATH = 0.1
"""Seconds between turns."""
LEAD_IN = 0.6
"""Seconds before a turn of which nothing is said: time to see its arrow, or where it starts."""
MOVING_SHARE = 0.7
"""At a steady pace a layer moves for this part of the time from one turn to the next."""
BETWEEN_PASSES = 1.6
"""Seconds between the slow pass and the one at full speed, at least."""
READING_PACE = 240.0
"""Words a minute for which a sentence stays."""
SPEAKING_PACE = 140.0
"""Words a minute that the system's speech reads aloud, with its pauses."""
LEAST_READING = 1.3
"""Seconds that the shortest sentence stays."""


class Phase(Enum):
    """Where a turn is that is shown."""

    COMING = "coming"
    """It is about to be made: its reason is told, and its arrow shown."""
    TURNING = "turning"
    DONE = "done"
    """It has just been made: what it changed is told."""


class Beat(Struct, frozen=True):
    """What is shown at a moment: one turn, numbered from 0, and how far it is."""

    turn: int
    phase: Phase
    share: float
    """The part of the phase that is over."""
    real: bool = False
    """Whether it is a turn of the pass at full speed, in which nothing is said."""

    @property
    def playhead(self) -> float:
        """The count of turns made, with a fraction inside a turn."""
        return self.turn + (self.share if self.phase is Phase.TURNING else self.phase is Phase.DONE)


class Reading(Struct, frozen=True):
    """Seconds that it takes to read what is said before a turn, and after it; 0 where nothing is said."""

    before: float = 0.0
    after: float = 0.0


Readings = tuple[Reading | None, ...]
"""One for each turn; None for a turn whose sentence is still being worked out."""


class Span(Struct, frozen=True):
    """A phase of a turn with the seconds that it lasts."""

    turn: int
    phase: Phase
    seconds: float
    real: bool = False
    waits: bool = False
    """Whether it ends with something to have been read, so that whoever goes step by step stops there."""
    unknown: bool = False
    """Whether what is to be said here is not known yet, so that nothing goes on by itself."""


def reading_seconds(text: str) -> float:
    """How long a sentence stays, so that it can be read; 0 for none."""
    count = len(text.split())
    return max(LEAST_READING, 60.0 * count / READING_PACE) if count else 0.0


def listening_seconds(text: str) -> float:
    """How long a sentence stays, so that it can be read aloud; 0 for none."""
    count = len(spoken_text(text).split())
    return LEAST_READING + 60.0 * count / SPEAKING_PACE if count else 0.0


@lru_cache(maxsize=16)
def passes(
    turns: tuple[Turn, ...], readings: Readings, rests: frozenset[int], speed: float, twice: bool
) -> tuple[Span, ...]:
    """All phases of the slow pass and, ``twice``, of the one at full speed.

    A greater speed shortens turns and rests, but never the time to read.
    """
    slow = tuple(_slowly(turns, readings, rests, speed))
    if not twice or not turns:
        return slow
    *others, last = slow
    pause = max(last.seconds, BETWEEN_PASSES)
    return (*others, Span(last.turn, last.phase, pause, waits=True), *_at_full_speed(turns, speed))


def _slowly(
    turns: tuple[Turn, ...], readings: Readings, rests: frozenset[int], speed: float
) -> Iterator[Span]:
    unhurried = min(1.0, speed)
    for index, (turn, known) in enumerate(zip(turns, readings, strict=True)):
        read = known or Reading()
        before = read.before / unhurried if read.before else LEAD_IN / speed
        rest = STEP_REST if index + 1 in rests else BREATH
        after = read.after / unhurried if read.after else rest / speed
        yield Span(index, Phase.COMING, before, waits=True, unknown=known is None)
        yield Span(index, Phase.TURNING, seconds(turn, SLOW * speed))
        yield Span(index, Phase.DONE, after, waits=bool(read.after))


def _at_full_speed(turns: tuple[Turn, ...], speed: float) -> Iterator[Span]:
    yield Span(0, Phase.COMING, LEAD_IN, real=True)
    for index, turn in enumerate(turns):
        yield Span(index, Phase.TURNING, seconds(turn, speed), real=True)
        yield Span(index, Phase.DONE, BREATH / speed, real=True)


@lru_cache(maxsize=4)
def steady(count: int, pace: float) -> tuple[Span, ...]:
    """So many turns a minute, one as long as the other, with a rest before the next."""
    beat = 60.0 / pace
    spans = [Span(0, Phase.COMING, LEAD_IN)]
    for index in range(count):
        spans.append(Span(index, Phase.TURNING, MOVING_SHARE * beat))
        spans.append(Span(index, Phase.DONE, (1 - MOVING_SHARE) * beat))
    return tuple(spans)
