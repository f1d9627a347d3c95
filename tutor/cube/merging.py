"""Neighbouring moves of one layer made into one."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeVar

from msgspec.structs import replace

from tutor.cube.faces import Turn
from tutor.cube.notation import Move, Rotation

AnyMove = TypeVar("AnyMove", Turn, Move)


def same_layer(first: Move, second: Move) -> bool:
    """Whether two moves turn the same layer, or the same two layers; rotations turn the whole cube."""
    if isinstance(first, Rotation) or isinstance(second, Rotation):
        return False
    return type(first) is type(second) and first.face is second.face


def together(first: AnyMove, second: AnyMove) -> AnyMove | None:
    """What two moves of the same kind come to; None when the second takes the first back."""
    quarters = (first.quarters + second.quarters) % 4
    if not quarters:
        return None
    return Turn.of(first.face, quarters) if isinstance(first, Turn) else replace(first, quarters=quarters)


def merged(moves: Iterable[AnyMove]) -> tuple[AnyMove, ...]:
    """The same moves with those of one layer, made one after the other, as one; none where they cancel.

    Turns of opposite faces are left in the order they were made.
    """
    found: list[AnyMove] = []
    for move in moves:
        if found and same_layer(found[-1], move):
            both = together(found.pop(), move)
            found += () if both is None else (both,)
        else:
            found.append(move)
    return tuple(found)
