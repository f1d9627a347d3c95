"""Where a scene starts: a case, a setup, stickers, or where the scene before it began or ended."""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from tutor.cube.faces import Face
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import NotationError, parse_moves
from tutor.cube.position import SOLVED, Position, Slot
from tutor.cube.sticker_text import StickerTextError, parse_stickers
from tutor.cube.stickers import IllegalCubeError, read_stickers
from tutor.cube.symmetry import ROTATIONS, quarter_about
from tutor.lesson.problems import Path
from tutor.lesson.reading import Report
from tutor.lesson.script import LONGEST_SETUP, SceneScript
from tutor.lesson.variation import Variation
from tutor.lesson.words import faults_of_scenes as words
from tutor.method.cases import CASES, UnknownCaseError, parse_case
from tutor.method.settling_sequences import is_settled, settling
from tutor.method.slot_view import slot_view
from tutor.solver.task import Task


class SceneStart(Struct, frozen=True):
    """A cube as played, and the slot and task that hold until others are named. ``slot`` is the script's."""

    cube: HeldCube
    slot: Slot | None = None
    task: Task | None = None
    turned: int = 0
    """By how many quarters the whole cube is turned so that the slot faces the learner."""

    def with_cube_turned(self, turned: int) -> HeldCube:
        """The cube with the whole of it turned by so many quarters instead."""
        return self.cube.rotated(quarter_about(Face.U, turned - self.turned))


class SceneBounds(Struct, frozen=True):
    """Where the scene before began and ended; None when that could not be told because of a fault."""

    began: SceneStart | None
    ended: SceneStart | None


NO_SLOT = "none"
"""What stands for the slot in a scene about no pair."""
OPENING = SceneBounds(SceneStart(HeldCube()), SceneStart(HeldCube()))
"""Before the first scene: a solved cube."""


def continues(scene: SceneScript) -> bool:
    """Whether the scene goes on where the one before ended."""
    own = (scene.case, scene.setup, scene.stickers)
    return scene.origin == "here" or (scene.origin is None and all(way is None for way in own))


def start_of(
    scene: SceneScript, path: Path, before: SceneBounds, variation: Variation, report: Report
) -> SceneStart | None:
    """Where the scene starts, or None when that cannot be told; what is wrong is noted."""
    noted = len(report.problems)
    given = [key for key, value in _ways(scene).items() if value is not None]
    if len(given) > 1:
        report.add((*path, given[1]), *words.two_starts(given))
        return None
    if scene.top and scene.case is None:
        report.add((*path, "top"), *words.TOP_WITHOUT_CASE)
    earlier = before.began if scene.origin == "start" else before.ended
    slot = slot_of(scene, before)
    if given and given[0] != "from":
        written = _written(scene, slot, path, report)
        cube = None if written is None else variation.held(written)
        task = None
    elif earlier is None:
        return None
    else:
        cube, task = earlier.with_cube_turned(variation.turned), None if slot is None else earlier.task
    if cube is None or len(report.problems) > noted:
        return None
    return _with_task(scene, path, SceneStart(cube, slot, task, variation.turned), variation, report)


def _ways(scene: SceneScript) -> dict[str, str | None]:
    return {"case": scene.case, "setup": scene.setup, "stickers": scene.stickers, "from": scene.origin}


def slot_of(scene: SceneScript, before: SceneBounds) -> Slot | None:
    """The slot that a scene is about, in the script as written."""
    if scene.slot is not None:
        return None if scene.slot == NO_SLOT else Slot[scene.slot]
    known = before.ended or before.began
    return None if known is None else known.slot


def unsolved(scene: SceneScript, slot: str | None) -> bool:
    """Whether a scene has a cube of its own, by turns or stickers, of which ``slot``'s pair is not solved.

    Without a slot the scene is about the whole cube.
    """
    if scene.setup is None and scene.stickers is None:
        return False
    cube = _written(scene, None, (), Report(""))
    if cube is None:
        return False
    if slot is None or slot == NO_SLOT:
        return cube.position != SOLVED
    return not cube.position.pair_home(Slot[slot])


def start_by_itself(scene: SceneScript, variation: Variation) -> SceneStart | None:
    """Where a scene with a cube of its own starts, every other pair that is home kept; only to be looked at.

    None where that cannot be told.
    """
    slot = slot_of(scene, OPENING)
    written = _written(scene, slot, (), Report(""))
    if written is None:
        return None
    cube = variation.held(written)
    task = None if slot is None else Task.at(cube.position, variation.slot(slot))
    return SceneStart(cube, slot, task, variation.turned)


def _with_task(
    scene: SceneScript, path: Path, start: SceneStart, variation: Variation, report: Report
) -> SceneStart | None:
    """The start with its task: the one that goes on, or a new one for the slot and what is to be kept."""
    if start.slot is None:
        if scene.keep is not None:
            report.add((*path, "keep"), *words.KEEP_WITHOUT_SLOT)
        return start
    if start.task is not None and scene.slot is None and scene.keep is None:
        return start
    slot = variation.slot(start.slot)
    if scene.keep is None:
        return _judgeable(replace(start, task=Task.at(start.cube.position, slot)), path, report)
    if start.slot.name in scene.keep:
        report.add((*path, "keep"), *words.kept_target(start.slot.name))
        return None
    keep = frozenset(variation.slot(Slot[name]) for name in scene.keep)
    return _judgeable(replace(start, task=Task(slot, keep)), path, report)


def _judgeable(start: SceneStart, path: Path, report: Report) -> SceneStart | None:
    assert start.task is not None
    if near_settled(start.cube.position, start.task):
        return start
    report.add((*path, "slot"), *words.TOO_FAR_OFF)
    return None


def near_settled(position: Position, task: Task) -> bool:
    """Whether at most four turns would bring the cross and all kept pairs home.

    So it is at every moment of a route or a line of up to nine turns; farther off, answers may take long.
    """
    view = slot_view(task.slot)
    keep, code = view.keep(task.keep), view.code(position)
    return is_settled(keep, code) or len(settling(keep, code)) > 0


def _written(scene: SceneScript, slot: Slot | None, path: Path, report: Report) -> HeldCube | None:
    if scene.case is not None:
        return _case_start(scene, slot, path, report)
    if scene.setup is not None:
        return _setup_start(scene.setup, (*path, "setup"), report)
    return _sticker_start(scene.stickers or "", (*path, "stickers"), report)


def _setup_start(text: str, path: Path, report: Report) -> HeldCube | None:
    try:
        moves = parse_moves(text)
    except NotationError as error:
        add_notation_problem(report, path, error)
        return None
    if len(moves) > LONGEST_SETUP:
        report.add(path, *words.long_setup(len(moves), LONGEST_SETUP))
        return None
    return HeldCube().after(moves)


_TOP = {"": 0, "U": 1, "U2": 2, "U'": 3}


def _case_start(scene: SceneScript, slot: Slot | None, path: Path, report: Report) -> HeldCube | None:
    if slot is None:
        report.add((*path, "case"), *words.CASE_WITHOUT_SLOT)
        return None
    try:
        case = parse_case(scene.case or "")
    except UnknownCaseError as error:
        report.add((*path, "case"), *words.unknown_case(error.near, CASES[0].slug))
        return None
    keep = None if scene.keep is None else frozenset(Slot[name] for name in scene.keep)
    return HeldCube(case.position(slot, _TOP[scene.top], keep))


def add_notation_problem(report: Report, path: Path, error: NotationError) -> None:
    """Note what is wrong with written moves, and what would be right."""
    report.add(path, *words.not_a_move(error.offending, error.column, error.advice))


def _sticker_start(text: str, path: Path, report: Report) -> HeldCube | None:
    try:
        position, centres = read_stickers(parse_stickers(text.strip("\n")))
    except StickerTextError as error:
        report.add(path, *words.sticker_row(error.line, error.message, error.advice))
        return None
    except IllegalCubeError as error:
        for fault in error.faults:
            report.add(path, *words.impossible_cube(fault.message, fault.rule.value))
        return None
    for viewpoint in ROTATIONS:
        if all(viewpoint.faces[colour] is face for face, colour in zip(Face, centres, strict=True)):
            return HeldCube(position, viewpoint)
    report.add(path, *words.OTHER_CENTRES)
    return None
