"""The things on a list: the cube of each, and what of it can be seen."""

from __future__ import annotations

from functools import lru_cache

from tutor.coach.sight import SEEN_FACES
from tutor.cube.faces import Face
from tutor.cube.geometry import CORNER_FACES, EDGE_FACES
from tutor.cube.position import SLOTS, Position, Slot
from tutor.cube.symmetry import MIRROR_LEFT_RIGHT
from tutor.lesson.scenes import Lesson, Quiz, Recap, Scene, Tell
from tutor.method.cases import ALIGNMENTS, Case
from tutor.screens.board.state import BoardCase, BoardScene, Item
from tutor.screens.lesson.commands import Carried
from tutor.session.attempts import case_attempt
from tutor.session.history import History
from tutor.session.settings import Settings
from tutor.session.state import Attempt
from tutor.session.target import Bearing, aim_of
from tutor.solver.task import carried_slot

_ENOUGH = 2
"""Two sides of a piece in sight tell all of it."""


def cube_of(item: Item, settings: Settings) -> Attempt:
    """The cube of an item, with its pair the aim."""
    if isinstance(item, BoardCase):
        return case_attempt(item.case, item.slot, _best_alignment(item.case, item.slot), settings)
    scene = scene_of(item)
    aim = None if scene.task is None else aim_of(scene.cube, scene.cube.colour_of(Face.D), scene.task)
    return Attempt(History(scene.cube), aim)


def scene_of(item: BoardScene) -> Scene:
    """The scene itself."""
    return item.lesson.scenes[item.number]


def scenes_for_board(lesson: Lesson, carried: Carried) -> tuple[BoardScene, ...]:
    """The scenes in which there is something to answer, or a pair to solve."""
    return tuple(
        BoardScene(lesson, number, carried)
        for number, scene in enumerate(lesson.scenes)
        if _asks_something(scene)
    )


def _asks_something(scene: Scene) -> bool:
    if isinstance(scene, Quiz):
        return True
    task = scene.task
    told = isinstance(scene, Tell | Recap)
    return not told and task is not None and not task.done(scene.cube.position)


def mirrored(item: BoardCase) -> BoardCase:
    """The case and slot that the mirror shows, left and right exchanged."""
    return BoardCase(item.case.mirror, carried_slot(item.slot, MIRROR_LEFT_RIGHT))


def next_slot(slot: Slot, step: int) -> Slot:
    """The slot so many further round."""
    return SLOTS[(SLOTS.index(slot) + step) % len(SLOTS)]


@lru_cache(maxsize=256)
def _best_alignment(case: Case, slot: Slot) -> int:
    """How to turn the top so that most of the pair is in sight; as in the book where all are alike."""
    return max(ALIGNMENTS, key=lambda each: (sum(_sides_seen(case.position(slot, each), slot)), -each))


def _sides_seen(position: Position, slot: Slot) -> tuple[int, int]:
    """How many sides of the corner and of the edge are in sight."""
    corner = CORNER_FACES[position.corners[slot.corner] // 3]
    edge = EDGE_FACES[position.edges[slot.edge] // 2]
    return len(SEEN_FACES & set(corner)), len(SEEN_FACES & set(edge))


def all_in_sight(bearing: Bearing) -> bool:
    """Whether one sees the pair and its slot without mirrors."""
    seen = _sides_seen(bearing.position, bearing.task.slot)
    return bearing.task.slot is Slot.FR and min(seen) >= _ENOUGH
