"""Turns on their way: segments of time, sampled by a pure function. Animation never owns state."""

from __future__ import annotations

from math import pi

from msgspec import Struct
from msgspec.structs import replace

from tutor.cube.faces import Face, Turn
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import Move, WideTurn
from tutor.ui.view import Turning

TURN_SECONDS = 0.32
"""Time of a quarter turn at speed 1, when nothing waits behind it."""
HALF_TURN_FACTOR = 1.45
"""A half turn takes this much longer than a quarter."""
LEAST_GLIDE = 0.08
"""Seconds that a released layer takes at least, so that you see where it goes."""
HURRY = 0.6
"""Every turn waiting shortens those on the way by this factor, so that the picture catches up."""
MOST_WAITING = 16
"""With so many turns waiting, the first passes faster than can be seen; earlier ones are not shown."""


class Segment(Struct, frozen=True):
    """One move shown between two moments, beginning from ``cube``.

    It goes from the ``first`` part of the move's way to the ``last``: all of it, or, for a layer that a hand
    let go, what is left of it, or the way back.
    """

    begin: float
    end: float
    cube: HeldCube
    move: Move
    first: float = 0.0
    last: float = 1.0


class Pose(Struct, frozen=True):
    """The cube at a moment: its position and the layer that is turning, if any."""

    cube: HeldCube
    turning: Turning | None = None


class Timeline(Struct, frozen=True):
    """Segments in order of time; those behind the present are forgotten when one is added."""

    segments: tuple[Segment, ...] = ()

    def moving(self, now: float) -> bool:
        """Whether anything is still to be shown."""
        return bool(self.segments) and now < self.segments[-1].end

    def added(self, cube: HeldCube, move: Move, now: float, speed: float) -> Timeline:
        """With ``move`` (made from ``cube``) after all that is waiting; those waiting are hurried.

        What is on the way keeps the fraction it has reached, so that nothing jumps.
        """
        waiting = tuple(segment for segment in self.segments if segment.end > now)[-MOST_WAITING:]
        hurried: list[Segment] = []
        moment = now
        for place, segment in enumerate(waiting):
            share = abs(segment.last - segment.first)
            duration = share * seconds(segment.move, speed) * HURRY ** (len(waiting) - place)
            begun = max(0.0, now - segment.begin) / (segment.end - segment.begin)
            begin = moment - begun * duration
            hurried.append(replace(segment, begin=begin, end=begin + duration))
            moment = begin + duration
        hurried.append(Segment(moment, moment + seconds(move, speed), cube, move))
        return Timeline(tuple(hurried))

    @staticmethod
    def gliding(cube: HeldCube, let_go: Turning, quarters: int, now: float, speed: float) -> Timeline:
        """A layer of ``cube`` let go of glides on to so many quarters; 0 is back to where it came from.

        Nothing else is on the way any more: the hand has taken over.
        """
        move = Turn.of(let_go.face, quarters % 4 or 1)
        way = (move.quarters if move.quarters < 3 else -1) * pi / 2
        first, last = let_go.angle / way, quarters * pi / 2 / way
        duration = max(LEAST_GLIDE, abs(last - first) * seconds(move, speed))
        return Timeline((Segment(now, now + duration, cube, move, first, last),))

    def sample(self, now: float, final: HeldCube) -> Pose:
        """The pose at ``now``; ``final`` is the cube when everything has been shown."""
        for segment in self.segments:
            if now < segment.end:
                fraction = (now - segment.begin) / (segment.end - segment.begin)
                way = segment.first + ease(fraction) * (segment.last - segment.first)
                return pose_within(segment.cube, segment.move, way)
        return Pose(final)


def seconds(move: Move, speed: float) -> float:
    """How long a move is shown, at a speed where 1 is usual."""
    return TURN_SECONDS * (HALF_TURN_FACTOR if move.quarters == 2 else 1.0) / speed


def ease(fraction: float) -> float:
    """Smooth start and stop: Hermite's 3t^2 - 2t^3 on 0..1."""
    t = min(1.0, max(0.0, fraction))
    return t * t * (3 - 2 * t)


def pose_within(cube: HeldCube, move: Move, fraction: float) -> Pose:
    """The pose with ``fraction`` (0..1) of the move's way behind it."""
    signed = move.quarters if move.quarters < 3 else -1
    if isinstance(move, Turn):
        face, layers = move.face, 1
    elif isinstance(move, WideTurn):
        face, layers = move.face, 2
    else:
        face, layers = Face(move.axis), 3
    return Pose(cube, Turning(face, fraction * signed * pi / 2, layers))
