"""Plots as plain values: figures over time or side by side. ``view`` has them among its blocks."""

from __future__ import annotations

from msgspec import Struct


class Plot(Struct, frozen=True):
    """Figures as points joined by a line, or as bars.

    ``points`` are (x, y) in the figures' own units, from left to right; y begins at 0. ``across`` and ``up``
    are the places of the few marks on the two axes with what stands there; the axes reach from the first to
    the last of them. ``unit`` tells what goes up, ``below`` what goes across, ``told`` the gist in words, so
    that nobody depends on the picture. Above bars stands how high they are.
    """

    title: str
    unit: str
    points: tuple[tuple[float, float], ...]
    across: tuple[tuple[float, str], ...]
    up: tuple[tuple[float, str], ...]
    below: str = ""
    told: str = ""
    bars: bool = False


class PlotGrid(Struct, frozen=True):
    """Plots in rows, as many side by side as fit."""

    plots: tuple[Plot, ...]
