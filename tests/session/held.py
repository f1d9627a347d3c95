"""What a room keeps in the session, where a test knows that it is there."""

from typing import TypeVar

V = TypeVar("V")


def held(value: V | None) -> V:
    """The value, which there must be."""
    assert value is not None
    return value
