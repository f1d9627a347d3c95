"""What a script or a person asks about: a setup, a slot and the slots to keep, read and checked."""

from __future__ import annotations

from collections.abc import Iterable

import msgspec
from msgspec import Struct

from tutor.app.cli.words import requests as words
from tutor.cube.faces import Face
from tutor.cube.held_cube import HeldCube
from tutor.cube.notation import Axis, NotationError, Rotation, parse_moves
from tutor.cube.position import SLOTS, Position, Slot
from tutor.quoting import ToldError, quotable
from tutor.solver.task import Task

SLOT_NAMES = tuple(slot.name for slot in SLOTS)


class RequestError(ToldError):
    """A request that cannot be answered; the message is one sentence that says what would be right."""


class TaskRequest(Struct, frozen=True):
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


def task_request(setup: str, slot: str, keep: Iterable[str] | None) -> TaskRequest:
    """What is asked about the position that ``setup`` makes of a solved cube held with the cross down.

    The slots are those of the cube as held after the setup. With ``keep`` None every other pair that is home
    then is kept. Raises RequestError.
    """
    cube = _cube(setup)
    target = read_slot(slot)
    if keep is None:
        return TaskRequest(setup, cube, Task.at(cube.position, target))
    kept = frozenset(read_slot(name) for name in keep)
    if target in kept:
        raise RequestError(words.target_kept(target.name))
    return TaskRequest(setup, cube, Task(target, kept))


def request_in_line(line: bytes) -> TaskRequest:
    """What one line of a batch asks, a JSON object like ``words.EXAMPLE_LINE``. Raises RequestError."""
    if not line.strip():
        raise RequestError(words.EMPTY_LINE)
    try:
        read = msgspec.json.decode(line.decode(), type=_Line)
    except UnicodeDecodeError as fault:
        raise RequestError(words.NOT_TEXT) from fault
    except (msgspec.DecodeError, RecursionError) as fault:
        raise RequestError(words.bad_line(quotable(str(fault), 200))) from fault
    return task_request(
        read.setup, read.slot, None if isinstance(read.keep, msgspec.UnsetType) else read.keep
    )


def _cube(setup: str) -> HeldCube:
    try:
        cube = HeldCube().after(parse_moves(setup))
    except NotationError as fault:
        raise RequestError(words.bad_setup(str(fault))) from fault
    cross = cube.face_of(Face.D)
    if cross is not Face.D:
        raise RequestError(words.cross_not_down(cross, _bringing_down(cross).notation))
    return cube


def _bringing_down(face: Face) -> Rotation:
    """The shortest rotation that brings a face down."""
    rotations = [Rotation(axis, quarters) for quarters in (1, 3, 2) for axis in Axis]
    return next(rotation for rotation in rotations if rotation.symmetry.faces[face] is Face.D)


def read_keep(text: str | None) -> list[str] | None:
    """The names in a text with commas; None where nothing was written."""
    return None if text is None else [name.strip() for name in text.split(",") if name.strip()]


def read_slot(name: str) -> Slot:
    """The slot of this name. Raises RequestError."""
    if name not in SLOT_NAMES:
        raise RequestError(words.no_slot(quotable(name), SLOT_NAMES))
    return Slot[name]
