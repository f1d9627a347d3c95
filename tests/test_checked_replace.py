"""Replacing a field of a value is checked by mypy: the line ignored here must be wrong to it."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from tutor.cube.notation import Axis, Rotation


def test_a_field_that_a_value_does_not_have_is_refused() -> None:
    with pytest.raises(TypeError, match="colour"):
        replace(Rotation(Axis.Y, 1), colour="red")  # type: ignore[call-arg]


def test_a_value_of_another_kind_is_refused() -> None:
    with pytest.raises(ValueError, match="quarters"):
        replace(Rotation(Axis.Y, 1), quarters="one")  # type: ignore[arg-type]
