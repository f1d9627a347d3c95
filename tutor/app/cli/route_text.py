"""Routes and lines in one line of text, for the tables of the command line."""

from __future__ import annotations

from tutor.counting import counted
from tutor.cube.faces import Turn
from tutor.cube.notation import format_moves
from tutor.method.routes import Route


def by_step(route: Route) -> str:
    """The route's turns after the name of each step."""
    return "  ".join(f"{step.value.capitalize()}: {format_moves(turns)}" for step, turns in route.segments)


def with_far_layers(line: tuple[Turn, ...]) -> str:
    """What is told, once, of a sequence with far layers that is shorter than any by hand."""
    return f"{counted(len(line), 'turn')}: {format_moves(line)}"
