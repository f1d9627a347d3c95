"""Routes in one line of text, for the tables of the command line."""

from __future__ import annotations

from tutor.cube.notation import format_moves
from tutor.method.routes import Route


def by_step(route: Route) -> str:
    """The route's turns after the name of each step."""
    return "  ".join(f"{step.value.capitalize()}: {format_moves(turns)}" for step, turns in route.segments)
