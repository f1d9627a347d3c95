"""All glyphs drawn so far in one picture, filled as text asks for them."""

from __future__ import annotations

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from render.text.typefaces import PHASES, Typeface, advance, rasterise
from render.text.typesetting import Font

_COLUMNS, _ROWS, _MOST_ROWS = 1024, 512, 4096
_LARGE = 36.0
"""From this size in pixels on, letters start on whole pixels: a fraction would not be seen."""


class AtlasFullError(ValueError):
    """More different letters than the atlas has room for."""


class _Spot(Struct, frozen=True):
    """Where a glyph lies in the atlas and about the pen; no width for a space."""

    column: int = 0
    row: int = 0
    width: int = 0
    height: int = 0
    left: int = 0
    top: int = 0


class Atlas:
    """Glyph coverage, ``uint8`` of shape (rows, columns), with what changed since it was last uploaded.

    ``generation`` changes when the picture grew or was emptied, so that places given before are void.
    """

    def __init__(self) -> None:
        """An empty atlas."""
        self.generation = -1
        self.clear()

    def clear(self) -> None:
        """Forget all glyphs, for instance after the text scale has changed many times."""
        self.coverage: NDArray[np.uint8] = np.zeros((_ROWS, _COLUMNS), np.uint8)
        self.generation += 1
        self.dirty: tuple[int, int] | None = None
        self._spots: dict[tuple[Typeface, float, str, int], _Spot] = {}
        self._runs: dict[tuple[Typeface, float, str], NDArray[np.float32]] = {}
        self._x = self._y = self._shelf = 0

    def run(self, style: Font, text: str, pixel_ratio: float) -> NDArray[np.float32]:
        """The glyphs of a line: rows of x, y, width, height, atlas column and row, in pixels from the pen."""
        pixels = style.size * pixel_ratio
        key = (style.face, round(pixels, 3), text)
        found = self._runs.get(key)
        if found is None:
            found = self._make_run(style.face, pixels, text)
            self._runs[key] = found
        return found

    def _make_run(self, face: Typeface, pixels: float, text: str) -> NDArray[np.float32]:
        rows: list[tuple[float, ...]] = []
        pen, phases = 0.0, PHASES if pixels < _LARGE else 1
        for character in text:
            place = round(pen * phases)
            phase = place % phases
            spot = self._spot(face, pixels, character, phase)
            if spot.width:
                whole = place // phases
                rows.append((whole + spot.left, spot.top, spot.width, spot.height, spot.column, spot.row))
            pen += advance(face, character) * pixels
        return np.array(rows, np.float32).reshape(-1, 6)

    def _spot(self, face: Typeface, pixels: float, character: str, phase: int) -> _Spot:
        key = (face, round(pixels, 3), character, phase)
        spot = self._spots.get(key)
        if spot is None:
            glyph = rasterise(face, pixels, character, phase)
            if glyph is None:
                spot = _Spot()
            else:
                height, width = glyph.coverage.shape
                column, row = self._place(width, height)
                self.coverage[row : row + height, column : column + width] = glyph.coverage
                top, bottom = self.dirty or (row, row)
                self.dirty = min(top, row), max(bottom, row + height)
                spot = _Spot(column, row, width, height, glyph.left, glyph.top)
            self._spots[key] = spot
        return spot

    def _place(self, width: int, height: int) -> tuple[int, int]:
        """Room on the current shelf, a new one, or in a picture twice as large."""
        size = self.coverage.shape[1]
        if self._x + width + 1 > size:
            self._x, self._y, self._shelf = 0, self._y + self._shelf + 1, 0
        if self._y + height + 1 > self.coverage.shape[0]:
            self._grow()
        place = self._x, self._y
        self._x += width + 1
        self._shelf = max(self._shelf, height)
        return place

    def _grow(self) -> None:
        """Twice as many rows; the places given stay good."""
        rows, columns = self.coverage.shape
        if rows >= _MOST_ROWS:
            raise AtlasFullError(f"the letters in use need more than {rows} x {columns} pixels")
        larger = np.zeros((2 * rows, columns), np.uint8)
        larger[:rows] = self.coverage
        self.coverage = larger
        self.generation += 1

    @property
    def crowded(self) -> bool:
        """Whether so much is drawn that the atlas had better start afresh before the next frame."""
        return self._y > _MOST_ROWS // 2
