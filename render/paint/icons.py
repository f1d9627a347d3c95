"""Signs as strokes, discs and rings in a unit square; each differs from the others by shape."""

from __future__ import annotations

from itertools import pairwise

from msgspec import Struct


class Stroke(Struct, frozen=True):
    """A line with round ends, in parts of the square; ``cut`` strokes are drawn in the ground's colour."""

    x0: float
    y0: float
    x1: float
    y1: float
    width: float = 0.12
    cut: bool = False


class Disc(Struct, frozen=True):
    """A disc, or a ring when ``ring`` (its width) is not 0."""

    x: float
    y: float
    radius: float
    ring: float = 0.0


Shape = Stroke | Disc


def _polyline(*points: tuple[float, float], width: float = 0.12, cut: bool = False) -> tuple[Stroke, ...]:
    return tuple(Stroke(*start, *end, width, cut) for start, end in pairwise(points))


_TICK = ((0.28, 0.53), (0.44, 0.68), (0.73, 0.35))

ICONS: dict[str, tuple[Shape, ...]] = {
    # A full disc with a tick: nothing better was possible.
    "optimal": (Disc(0.5, 0.5, 0.48), *_polyline(*_TICK, width=0.13, cut=True)),
    # An open ring with a bar: fine, as good as even.
    "acceptable": (Disc(0.5, 0.5, 0.46, 0.11), Stroke(0.3, 0.5, 0.7, 0.5, 0.13)),
    # A way that leaves the line, goes down and comes back up.
    "detour": _polyline(
        (0.08, 0.24), (0.3, 0.24), (0.3, 0.78), (0.7, 0.78), (0.7, 0.24), (0.92, 0.24), width=0.15
    ),
    # A quarter of a circle with an arrowhead: still on its way.
    "making": (
        *_polyline((0.16, 0.22), (0.39, 0.27), (0.58, 0.4), (0.71, 0.59), (0.76, 0.82), width=0.13),
        *_polyline((0.57, 0.66), (0.76, 0.84), (0.92, 0.63), width=0.13),
    ),
    # Three dots.
    "waiting": (Disc(0.14, 0.5, 0.11), Disc(0.5, 0.5, 0.11), Disc(0.86, 0.5, 0.11)),
    "good": _polyline((0.1, 0.55), (0.38, 0.82), (0.9, 0.22), width=0.15),
    "neutral": (Disc(0.5, 0.5, 0.46, 0.1), Disc(0.5, 0.28, 0.075), Stroke(0.5, 0.48, 0.5, 0.74, 0.11)),
    "warning": (
        *_polyline((0.5, 0.1), (0.94, 0.88), (0.06, 0.88), (0.5, 0.1), width=0.11),
        Stroke(0.5, 0.4, 0.5, 0.6, 0.1),
        Disc(0.5, 0.75, 0.06),
    ),
    "done": _polyline((0.08, 0.55), (0.38, 0.84), (0.92, 0.2), width=0.16),
    "current": (Disc(0.5, 0.5, 0.44),),
    "ahead": (Disc(0.5, 0.5, 0.4, 0.12),),
    "back": _polyline((0.7, 0.1), (0.28, 0.5), (0.7, 0.9), width=0.16),
    "menu": _polyline((0.1, 0.3), (0.5, 0.7), (0.9, 0.3), width=0.14),
}
"""All signs by name; verdicts by the value of their mark, tones and bay states by their own."""
