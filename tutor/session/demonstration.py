"""Showing turns again: slowly with a rest at each step's end, then once at full speed.

The playhead counts turns from the start, with a fraction inside a turn. It is a pure function of time, so
that it can be stopped, stepped, scrubbed and slowed without anything moving by itself.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import floor

from tutor.cube.faces import Face, Turn
from tutor.cube.held_cube import HeldCube
from tutor.cube.position import Slot
from tutor.method.terms import Step
from tutor.session.timeline import Pose, ease, pose_within, seconds

SLOW = 0.5
"""Speed of the slow pass, of the usual speed."""
STEP_REST = 1.2
"""Seconds of rest at the end of a step in the slow pass."""
BREATH = 0.1
"""Seconds between turns."""
LEAD_IN = 0.6
"""Seconds before the first turn."""
MOVING_SHARE = 0.7
"""At a steady pace a layer moves for this part of the time from one turn to the next."""
BETWEEN_PASSES = 1.6
"""Seconds between the slow pass and the one at full speed."""
SPEEDS = (0.1, 0.25, 0.5, 1.0, 1.5, 2.0, 3.0)
"""The speeds to choose from."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """Between two moments (seconds from the start of playing) the playhead goes from one count to another."""

    begin: float
    end: float
    first: float
    last: float


@dataclass(frozen=True, slots=True)
class ShownDetour:
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
    """What would have to come back, in one sentence."""


@dataclass(frozen=True, slots=True)
class Demonstration:
    """Turns being shown from a start.

    ``steps`` names the step of each turn, None where no pair is in question; ``rests`` are the counts of
    turns after which the slow pass rests. While playing, time since ``since`` is added to ``elapsed`` (both
    in seconds of a schedule at speed 1, scaled by ``speed``). While stopped, ``held_at`` is the playhead.
    """

    start: HeldCube
    turns: tuple[Turn, ...]
    steps: tuple[Step | None, ...]
    rests: frozenset[int]
    since: float
    elapsed: float = 0.0
    speed: float = 1.0
    playing: bool = True
    held_at: float = 0.0
    twice: bool = True
    """Whether a pass at full speed follows the slow one."""
    pace: float | None = None
    """Turns a minute, one as long as the other; None lets a turn take its time."""
    detour: ShownDetour | None = None
    """The Detour that is explained, where that is what is shown."""

    def schedule(self) -> tuple[Stretch, ...]:
        """All stretches of both passes."""
        if self.pace is not None:
            return self._steady(60.0 / self.pace)
        stretches: list[Stretch] = []
        moment = LEAD_IN
        for slow in (True, False) if self.twice else (True,):
            for index, turn in enumerate(self.turns):
                duration = seconds(turn, SLOW if slow else 1.0)
                stretches.append(Stretch(moment, moment + duration, index, index + 1))
                moment += duration + (STEP_REST if slow and index + 1 in self.rests else BREATH)
            moment += BETWEEN_PASSES
        return tuple(stretches)

    def _steady(self, beat: float) -> tuple[Stretch, ...]:
        """A turn every ``beat`` seconds, with a rest before the next."""
        begins = (LEAD_IN + index * beat for index in range(len(self.turns)))
        return tuple(
            Stretch(begin, begin + MOVING_SHARE * beat, index, index + 1)
            for index, begin in enumerate(begins)
        )

    def _clock(self, now: float) -> float:
        return self.elapsed + (max(0.0, now - self.since) * self.speed if self.playing else 0.0)

    def playhead(self, now: float) -> float:
        """The count of turns shown, with a fraction inside a turn."""
        if not self.playing:
            return self.held_at
        clock = self._clock(now)
        reached = 0.0
        for stretch in self.schedule():
            if clock < stretch.begin:
                # Before a second pass the end of the first stays in view until the pass begins.
                return reached
            if clock < stretch.end:
                share = (clock - stretch.begin) / (stretch.end - stretch.begin)
                return stretch.first + share * (stretch.last - stretch.first)
            reached = stretch.last
        return reached

    def told(self, now: float) -> int:
        """The number, from 0, of the turn that words go with: the one under way, or about to be made.

        While it plays on and rests after a turn, that turn: then the words tell what it changed. At the end
        it is the last one.
        """
        playhead = self.playhead(now)
        whole = floor(playhead)
        rests = self.moving(now) and 0 < whole == playhead
        return max(0, min(whole - rests, len(self.turns) - 1))

    def finished(self, now: float) -> bool:
        """Whether the last pass has ended."""
        stretches = self.schedule()
        return self.playing and (not stretches or self._clock(now) >= stretches[-1].end)

    def seen(self, now: float) -> bool:
        """Whether every turn has been shown once: the slow pass has ended, or one stepped on to its end."""
        if not self.playing:
            return self.held_at >= len(self.turns)
        slow = self.schedule()[: len(self.turns)]
        return not slow or self._clock(now) >= slow[-1].end

    def moving(self, now: float) -> bool:
        """Whether the picture will change by itself."""
        return self.playing and not self.finished(now)

    def pose(self, now: float) -> Pose:
        """The cube at the playhead, exact at every fraction of a turn."""
        return pose_at(self.start, self.turns, self.playhead(now), eased=self.playing)

    def stopped_at(self, playhead: float) -> Demonstration:
        """Stopped with the playhead at this count."""
        return replace(self, playing=False, held_at=max(0.0, min(float(len(self.turns)), playhead)))

    def paused(self, now: float) -> Demonstration:
        """Stopped where it is."""
        return self.stopped_at(self.playhead(now))

    def resumed(self, now: float) -> Demonstration:
        """Playing on from the playhead, in the slow pass; from the start when it stood at the end."""
        if self.playing and not self.finished(now):
            return self
        held = self.playhead(now)
        position = 0.0 if held >= len(self.turns) else held
        return replace(self, playing=True, since=now, elapsed=self._elapsed_at(position))

    def stepped(self, by: int, now: float) -> Demonstration:
        """Stopped a whole turn on or back."""
        playhead = self.playhead(now)
        whole = floor(playhead) + by if by > 0 or playhead == floor(playhead) else floor(playhead)
        return self.stopped_at(float(whole))

    def at_speed(self, speed: float, now: float) -> Demonstration:
        """The same at another speed, without a jump."""
        return replace(self, speed=speed, elapsed=self._clock(now), since=now)

    def _elapsed_at(self, position: float) -> float:
        if position == 0.0:
            return 0.0
        for stretch in self.schedule():
            if stretch.first <= position <= stretch.last:
                return stretch.begin + (position - stretch.first) * (stretch.end - stretch.begin)
        return 0.0


def step_ends(steps: tuple[Step, ...]) -> frozenset[int]:
    """The counts of turns after which a step ends."""
    return frozenset(
        count
        for count in range(1, len(steps) + 1)
        if count == len(steps) or steps[count] is not steps[count - 1]
    )


def pose_at(start: HeldCube, turns: tuple[Turn, ...], playhead: float, *, eased: bool) -> Pose:
    """The pose after ``playhead`` turns of a sequence."""
    whole = min(len(turns), floor(playhead))
    fraction = playhead - whole
    cube = start.after(turns[:whole])
    if whole == len(turns) or fraction == 0.0:
        return Pose(cube)
    return pose_within(cube, turns[whole], ease(fraction) if eased else fraction)


def next_speed(speed: float, by: int) -> float:
    """The neighbouring speed to choose, faster for a positive ``by``."""
    nearest = min(range(len(SPEEDS)), key=lambda index: abs(SPEEDS[index] - speed))
    return SPEEDS[max(0, min(len(SPEEDS) - 1, nearest + by))]
