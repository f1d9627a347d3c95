"""Showing turns again: slowly, one beat for each turn, then perhaps once at full speed.

Where a demonstration is, is a pure function of time, so that it can be stopped, stepped, scrubbed and slowed
without anything moving by itself.
"""

from __future__ import annotations

from math import floor

from msgspec import Struct
from msgspec.structs import replace

from tutor.cube.faces import Face, Turn
from tutor.cube.held_cube import HeldCube
from tutor.cube.position import Slot
from tutor.method.terms import Step
from tutor.session.beats import Beat, Phase, Reading, Readings, Span, passes, steady
from tutor.session.timeline import Pose, ease, pose_within

SPEEDS = (0.1, 0.25, 0.5, 1.0, 1.5, 2.0, 3.0)
"""The speeds to choose from."""
_SPANS_OF_A_TURN = 3


class SpanPlace(Struct, frozen=True):
    """A place among the spans of a demonstration: the number of the span, and the part of it that is over."""

    span: int = 0
    share: float = 0.0


class ShownDetour(Struct, frozen=True):
    """A Detour with the cubes before it and after it, and what it put out of order.

    ``pairs`` and ``edges`` (of the cross) are named by the slots and the sides that they belong to, with the
    cross down.
    """

    turn: Turn
    before: HeldCube
    after: HeldCube
    pairs: frozenset[Slot]
    edges: frozenset[Face]
    told: str
    """What has to come back, in one sentence."""


class Demonstration(Struct, frozen=True):
    """Turns being shown from a start; there is at least one.

    ``steps`` names the step of each turn, None where no pair is in question; ``rests`` are the counts of
    turns after which the slow pass rests where nothing is said. While playing, it has gone on from ``place``
    since ``since``; while stopped, it is there.
    """

    start: HeldCube
    turns: tuple[Turn, ...]
    steps: tuple[Step | None, ...]
    rests: frozenset[int]
    since: float
    place: SpanPlace = SpanPlace()
    speed: float = 1.0
    playing: bool = True
    twice: bool = True
    """Whether a pass at full speed follows the slow one."""
    pace: float | None = None
    """Turns a minute, one as long as the other; None lets a turn take its time."""
    detour: ShownDetour | None = None
    """The Detour that is explained, where that is what is shown."""
    readings: Readings | None = None
    """How long the sentences stay; None until somebody has asked what is said."""
    waits: bool = False
    """Whether it waits for the person at every beat."""
    one_beat: bool = False
    """Whether it was asked for one beat more, after which it stops."""

    @property
    def spans(self) -> tuple[Span, ...]:
        """All phases of all passes."""
        if self.pace is not None:
            return steady(len(self.turns), self.pace)
        readings = (Reading(),) * len(self.turns) if self.readings is None else self.readings
        return passes(self.turns, readings, self.rests, self.speed, self.twice)

    def place_at(self, now: float) -> SpanPlace:
        """The place at a moment."""
        if not self.playing:
            return self.place
        spans, number = self.spans, self.place.span
        left = max(0.0, now - self.since) + self.place.share * spans[number].seconds
        while left >= spans[number].seconds and number + 1 < len(spans) and not self._stops(spans[number]):
            left -= spans[number].seconds
            number += 1
        return SpanPlace(number, min(1.0, left / spans[number].seconds))

    def _stops(self, span: Span) -> bool:
        """Whether it goes on from here only when asked."""
        return span.unknown or ((self.waits or self.one_beat) and span.waits)

    def beat(self, now: float) -> Beat:
        """Which turn is shown at a moment, and how far it is: all that is seen and said follows from this."""
        place = self.place_at(now)
        span = self.spans[place.span]
        return Beat(span.turn, span.phase, place.share, span.real)

    def playhead(self, now: float) -> float:
        """The count of turns shown, with a fraction inside a turn."""
        return self.beat(now).playhead

    def finished(self, now: float) -> bool:
        """Whether the last turn of the last pass has been made."""
        return self.playing and self.at_end(now)

    def at_end(self, now: float) -> bool:
        """Whether nothing comes any more, however it got there."""
        return self.place_at(now).span == len(self.spans) - 1

    def seen(self, now: float) -> bool:
        """Whether every turn has been shown once: the slow pass has ended, or one stepped on to its end."""
        return self.place_at(now).span >= _SPANS_OF_A_TURN * len(self.turns) - 1

    def moving(self, now: float) -> bool:
        """Whether the picture will change by itself."""
        place = self.place_at(now)
        stopped = place.share == 1.0 and self._stops(self.spans[place.span])
        return self.playing and not stopped and place.span < len(self.spans) - 1

    def pose(self, now: float) -> Pose:
        """The cube at a moment, exact at every fraction of a turn."""
        beat = self.beat(now)
        cube = self.start.after(self.turns[: floor(beat.playhead)])
        if beat.phase is not Phase.TURNING or beat.playhead == floor(beat.playhead):
            return Pose(cube)
        return pose_within(cube, self.turns[beat.turn], ease(beat.share))

    def stopped_at(self, playhead: float) -> Demonstration:
        """Stopped in the slow pass with so many turns made; between two turns the next one is coming."""
        count = max(0.0, min(float(len(self.turns)), playhead))
        turn, share = floor(count), count - floor(count)
        if turn == len(self.turns):
            return self._stopped(SpanPlace(self._span_of(turn - 1, Phase.DONE), 1.0))
        return self._stopped(SpanPlace(self._span_of(turn, Phase.TURNING if share else Phase.COMING), share))

    def _stopped(self, place: SpanPlace) -> Demonstration:
        return replace(self, playing=False, one_beat=False, place=place)

    def _span_of(self, turn: int, phase: Phase) -> int:
        """The number of a phase of a turn, in the first pass."""
        return next(
            (number for number, span in enumerate(self.spans) if (span.turn, span.phase) == (turn, phase)),
            0,
        )

    def paused(self, now: float) -> Demonstration:
        """Stopped where it is."""
        return self._stopped(self.place_at(now))

    def anew(self, now: float) -> Demonstration:
        """Playing from its beginning."""
        return self._playing_from(SpanPlace(), now)

    def resumed(self, now: float) -> Demonstration:
        """Playing on by itself; from the start when it was at the end. A turn that was coming begins."""
        if self.at_end(now):
            return self.anew(now)
        place = self.place_at(now)
        if self.spans[place.span].phase is Phase.COMING:
            place = SpanPlace(place.span + 1)
        return self._playing_from(place, now)

    def stepped_on(self, now: float) -> Demonstration:
        """One beat on, where it stops: the turn that was coming, or, after that, what comes next."""
        if self.at_end(now):
            return self.paused(now)
        on = self._playing_from(SpanPlace(self.place_at(now).span + 1), now)
        return replace(on, one_beat=True)

    def stepped_back(self, now: float) -> Demonstration:
        """Stopped before the turn that is shown, or, when it has not begun, before the one before it."""
        beat = self.beat(now)
        coming = beat.phase is Phase.COMING and not beat.real
        return self.stopped_at(float(max(0, beat.turn - coming)))

    def _playing_from(self, place: SpanPlace, now: float) -> Demonstration:
        return replace(self, playing=True, one_beat=False, place=place, since=now)

    def at_pace(self, pace: float, now: float) -> Demonstration:
        """The same with so many turns a minute, without a jump."""
        return replace(self, pace=pace, place=self.place_at(now), since=now)

    def at_speed(self, speed: float, now: float) -> Demonstration:
        """The same at another speed, without a jump."""
        return replace(self, speed=speed, place=self.place_at(now), since=now)

    def with_readings(self, readings: Readings, now: float) -> Demonstration:
        """The same with other sentences to read; one that has just come is read from its beginning."""
        place = self.place_at(now)
        if self.spans[place.span].unknown:
            place = SpanPlace(place.span)
        return replace(self, readings=readings, place=place, since=now)


def step_ends(steps: tuple[Step, ...]) -> frozenset[int]:
    """The counts of turns after which a step ends."""
    return frozenset(
        count
        for count in range(1, len(steps) + 1)
        if count == len(steps) or steps[count] is not steps[count - 1]
    )


def next_speed(speed: float, by: int) -> float:
    """The neighbouring speed to choose, faster for a positive ``by``."""
    nearest = min(range(len(SPEEDS)), key=lambda index: abs(SPEEDS[index] - speed))
    return SPEEDS[max(0, min(len(SPEEDS) - 1, nearest + by))]
