"""What the curriculum says of cases: in which order new ones are met, and which lesson teaches each."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from tutor.cube.faces import Face
from tutor.cube.position import Position, Slot
from tutor.lesson.library import curriculum_names, taught
from tutor.method.cases import CASES, Case, parse_case
from tutor.method.pairs import TOP_CORNER, TOP_EDGE, pair_locations, touch
from tutor.method.steps import Step

Turns = tuple[Face, ...]


@cache
def course() -> tuple[Case, ...]:
    """The 41 cases in the order in which the lessons first turn them; cases no lesson turns come last.

    A case that is only looked at, to find its pieces, is not met yet.
    """
    met = dict.fromkeys(parse_case(case) for name in curriculum_names() for case in taught(name).turned)
    return tuple(dict.fromkeys((*met, *CASES)))


@cache
def lesson_of(case: Case) -> str:
    """The lesson that teaches a case: the first that is about it and about an idea of its route."""
    ideas = {idea for _, each in route_ideas(case) for idea in each}
    for name in curriculum_names():
        lesson = taught(name)
        if ideas.intersection(lesson.ideas) and case in map(parse_case, lesson.named):
            return name
    raise LookupError(f"no lesson teaches {case.slug}")


def route_ideas(case: Case) -> Iterator[tuple[Step, tuple[str, ...]]]:
    """Each step of the case's route with the ideas of the lessons, any of which is enough to find it."""
    position = case.position()
    for step, turns in case.route().segments:
        yield step, _IDEAS[step](position, tuple(turn.face for turn in turns))
        position = position.after(turns)


def _raise(position: Position, _faces: Turns) -> tuple[str, ...]:
    corner, edge = pair_locations(position, Slot.FR)
    if TOP_CORNER[corner]:
        return ("raise the edge",)
    return ("raise the corner",) if TOP_EDGE[edge] else ("both in one slot",)


def _part(position: Position, _faces: Turns) -> tuple[str, ...]:
    corner, edge = pair_locations(position, Slot.FR)
    if _cross_up(corner):
        return ("cross colour up, touching",)
    return ("part two that touch",) if touch(corner, edge) else ("tops different",)


def _join(position: Position, faces: Turns) -> tuple[str, ...]:
    if _cross_up(pair_locations(position, Slot.FR)[0]):
        return ("cross colour up, apart",)
    if sum(face is not Face.U for face in faces) == 1:
        return ("join in three turns",)
    return ("hide the corner while the edge moves", "tops alike")


def _insert(_position: Position, _faces: Turns) -> tuple[str, ...]:
    return ("insert a joined pair",)


_IDEAS = {Step.RAISE: _raise, Step.PART: _part, Step.JOIN: _join, Step.INSERT: _insert}
"""Which idea a step needs, by how the two pieces lie when it begins and by the faces that it turns.

The pieces below the top tell a Raise. The colour on top of the corner tells a Part and a Join, with whether
the two touch, and whether one lift joins them. An Insert is always the same. The names are those that the
lessons give their ideas, with the key ``ideas``.
"""


def _cross_up(corner: int) -> bool:
    """Whether a corner on top shows the cross colour there."""
    return corner % 3 == 0
