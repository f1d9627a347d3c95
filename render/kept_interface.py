"""The interface's picture kept from frame to frame, since it stays as it is while the cube moves."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from render.region import Region
from render.surface import Surface


class KeptInterface:
    """The picture of the interface drawn last. Needs a current context."""

    def __init__(self) -> None:
        """Nothing is kept yet."""
        self._surface = Surface(smooth=False)
        self._drawn: tuple[NDArray[np.float32], int, tuple[int, int]] | None = None

    def draw(
        self,
        shapes: NDArray[np.float32],
        pictures: int,
        size: tuple[int, int],
        paint: Callable[[], None],
        stage: Region,
    ) -> None:
        """Copy the picture into the bound framebuffer, around the stage.

        ``paint`` draws it anew when other ``shapes``, another texture of small cubes or another size are
        given; the same array counts as the same shapes.
        """
        drawn = self._drawn
        if drawn is None or drawn[0] is not shapes or drawn[1:] != (pictures, size):
            self._surface.draw(size, paint)
            self._drawn = shapes, pictures, size
        for part in around(stage, size):
            self._surface.copy_part(part)

    def delete(self) -> None:
        """Free what it owns."""
        self._surface.delete()


def around(stage: Region, size: tuple[int, int]) -> tuple[Region, ...]:
    """What of a framebuffer the stage leaves: below and above it, to its left and to its right."""
    x, y, width, height = stage
    right, top = x + width, y + height
    parts = (
        (0, 0, size[0], y),
        (0, top, size[0], size[1] - top),
        (0, y, x, height),
        (right, y, size[0] - right, height),
    )
    return tuple(part for part in parts if part[2] > 0 and part[3] > 0)
