"""What a script or a person asks about: a setup, a slot and the slots to keep, read and checked."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import msgspec

from tutor.cube.faces import Face
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import Axis, NotationError, Rotation, parse_moves, quotable
from tutor.cube.position import SLOTS, Position, Slot
from tutor.solver.task import Task

SLOT_NAMES = tuple(slot.name for slot in SLOTS)
EXAMPLE_LINE = """{"setup": "R U R'", "slot": "FR", "keep": ["FL", "BL", "BR"]}"""

_SIDES = {
    Face.U: "on top",
    Face.L: "on the left",
    Face.R: "on the right",
    Face.F: "in front",
    Face.B: "at the back",
}


class RequestError(ValueError):
    """A request that cannot be answered; the message is one sentence that says what would be right."""


@dataclass(frozen=True, slots=True)
class Question:
    """A cube as held and a task, with the setup that they come from as it was written."""

    setup: str
    cube: HeldCube
    task: Task

    @property
    def position(self) -> Position:
        """The position as held."""
        return self.cube.position


class _Line(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """One line of a batch. ``keep`` may be left out: then every other pair that is home is kept."""

    setup: str
    slot: str
    keep: list[str] | msgspec.UnsetType = msgspec.UNSET


def question(setup: str, slot: str, keep: Iterable[str] | None) -> Question:
    """What is asked about the position that ``setup`` makes of a solved cube held with the cross down.

    The slots are those of the cube as held after the setup. With ``keep`` None every other pair that is home
    then is kept. Raises RequestError.
    """
    cube = _cube(setup)
    target = read_slot(slot)
    if keep is None:
        return Question(setup, cube, Task.at(cube.position, target))
    try:
        return Question(setup, cube, Task(target, frozenset(read_slot(name) for name in keep)))
    except RequestError:
        raise
    except ValueError as fault:
        raise RequestError(str(fault)) from fault


def line_question(line: bytes) -> Question:
    """What one line of a batch asks, a JSON object like ``EXAMPLE_LINE``. Raises RequestError."""
    if not line.strip():
        raise RequestError(f"the line is empty; a line is a JSON object such as {EXAMPLE_LINE}")
    try:
        read = msgspec.json.decode(line, type=_Line)
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as fault:
        told = quotable(str(fault), 200)
        raise RequestError(f"{told}; a line is a JSON object such as {EXAMPLE_LINE}") from fault
    return question(read.setup, read.slot, None if isinstance(read.keep, msgspec.UnsetType) else read.keep)


def _cube(setup: str) -> HeldCube:
    try:
        cube = HeldCube().after(parse_moves(setup))
    except NotationError as fault:
        raise RequestError(f"the setup has a fault at {fault}") from fault
    cross = cube.face_of(Face.D)
    if cross is not Face.D:
        raise RequestError(
            f"after this setup the cross is {_SIDES[cross]}, but the cube must be held with the cross down; "
            f"end the setup with {_bringing_down(cross).notation}, for instance"
        )
    return cube


def _bringing_down(face: Face) -> Rotation:
    """The shortest rotation that brings a face down."""
    rotations = [Rotation(axis, quarters) for quarters in (1, 3, 2) for axis in Axis]
    return next(rotation for rotation in rotations if rotation.symmetry.faces[face] is Face.D)


def read_slot(name: str) -> Slot:
    """The slot of this name. Raises RequestError."""
    if name not in SLOT_NAMES:
        raise RequestError(f"“{quotable(name)}” is no slot; a slot is one of {', '.join(SLOT_NAMES)}")
    return Slot[name]
