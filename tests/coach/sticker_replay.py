"""A cube of stickers in space that shares nothing with the program: x to the right, y up, z to the front.

A face turn moves the nine pieces of its layer by clockwise quarters as seen from outside (WCA 12a1).
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import product

Vector = tuple[int, int, int]
Cube = dict[tuple[Vector, Vector], Vector]
"""For each sticker, its piece's place and the way it faces, which way it faces on the solved cube."""

NORMALS: dict[str, Vector] = {
    "U": (0, 1, 0), "D": (0, -1, 0), "L": (-1, 0, 0), "R": (1, 0, 0), "F": (0, 0, 1), "B": (0, 0, -1),
}  # fmt: skip
SIDES = "FLBR"
SLOTS = ("FR", "FL", "BL", "BR")
_QUARTERS = {"": 1, "2": 2, "'": 3}
_LEFT_RIGHT = str.maketrans("LR", "RL")


def solved() -> Cube:
    places = [place for place in product((-1, 0, 1), repeat=3) if any(place)]
    return {
        ((x, y, z), normal): normal
        for x, y, z in places
        for normal in NORMALS.values()
        if x * normal[0] + y * normal[1] + z * normal[2] == 1
    }


def _quarter(axis: Vector, vector: Vector) -> Vector:
    """By a quarter clockwise, seen from where the axis points to: a (a.v) - a x v."""
    (a, b, c), (x, y, z) = axis, vector
    along = a * x + b * y + c * z
    return along * a - (b * z - c * y), along * b - (c * x - a * z), along * c - (a * y - b * x)


def after(cube: Cube, turns: Iterable[str]) -> Cube:
    for turn in turns:
        axis = NORMALS[turn[0]]
        for _ in range(_QUARTERS[turn[1:]]):
            cube = {_turned(sticker, axis): colour for sticker, colour in cube.items()}
    return cube


def _turned(sticker: tuple[Vector, Vector], axis: Vector) -> tuple[Vector, Vector]:
    place, facing = sticker
    return (_quarter(axis, place), _quarter(axis, facing)) if _in_layer(place, axis) else sticker


def _in_layer(place: Vector, axis: Vector) -> bool:
    return sum(a * b for a, b in zip(place, axis, strict=True)) == 1


def inverse(turns: list[str]) -> list[str]:
    back = {"": "'", "2": "2", "'": ""}
    return [turn[0] + back[turn[1:]] for turn in reversed(turns)]


def mirrored(turns: list[str]) -> list[str]:
    """With left and right exchanged: each turn goes the other way round."""
    other_way = {"": "'", "2": "2", "'": ""}
    return [turn[0].translate(_LEFT_RIGHT) + other_way[turn[1:]] for turn in turns]


def mirrored_slot(slot: str) -> str:
    return slot.translate(_LEFT_RIGHT)


def _is_solved(cube: Cube, faces: str) -> bool:
    """Whether the place between the faces shows on each of them what it shows on the solved cube."""
    x, y, z = (sum(NORMALS[face][axis] for face in faces) for axis in range(3))
    return all(cube[(x, y, z), NORMALS[face]] == NORMALS[face] for face in faces)


def pairs_out(cube: Cube) -> set[str]:
    """The slots whose pair is not solved."""
    return {slot for slot in SLOTS if not (_is_solved(cube, slot) and _is_solved(cube, f"D{slot}"))}


def cross_out(cube: Cube) -> set[str]:
    """The sides whose cross edge is not solved."""
    return {side for side in SIDES if not _is_solved(cube, f"D{side}")}
