"""Shapes as rows of numbers, which the canvas draws in one call: boxes, lines, glyphs, small cubes."""

from __future__ import annotations

import numpy as np
from msgspec import Struct, field
from numpy.typing import NDArray

from render.layout.boxes import Ink, Line, Rect, Sign
from render.paint.gallery import Gallery
from render.paint.glyph_atlas import Atlas
from render.paint.icons import ICONS, Disc
from render.theme import Colour, Theme
from tutor.ui.view import Action, Look, Stage

FLOATS = 24
"""Numbers per shape: rect, fill, stroke, (radius, stroke width, kind, softness), extra, clip."""
_SHAPE, _GLYPH, _SEGMENT, _PICTURE = 0.0, 1.0, 2.0, 3.0
CLEAR = Colour((0.0, 0.0, 0.0, 0.0))
RADIUS = 6.0


class Pointer(Struct, frozen=True):
    """What the pointer is doing, which is nobody's business but the window's."""

    hover: Action | None = None
    """The action under the pointer."""
    pressed: Action | None = None
    """The action that is held down."""
    light: tuple[float, float] | None = None
    """Where it is, while a spotlight follows it."""


class Painter(Struct):
    """Collects the shapes of one picture, in pixels."""

    theme: Theme
    atlas: Atlas
    ratio: float
    pointer: Pointer = field(default_factory=Pointer)
    gallery: Gallery | None = None
    look: Look = field(default_factory=Look)
    _parts: list[NDArray[np.float32]] = field(default_factory=list)
    _rows: list[tuple[float, ...]] = field(default_factory=list)
    _clip: tuple[float, float, float, float] = (0.0, 0.0, 1e6, 1e6)
    _shift: float = 0.0

    # -- primitives

    def within(self, rect: Rect | None, scroll: float = 0.0) -> None:
        """From here on, clip to ``rect`` and draw ``scroll`` px higher."""
        ratio = self.ratio
        self._shift = round(scroll * ratio) / ratio
        if rect is None:
            self._clip = (0.0, 0.0, 1e6, 1e6)
        else:
            self._clip = (rect.x * ratio, rect.y * ratio, rect.right * ratio, rect.bottom * ratio)

    def _pixels(self, rect: Rect) -> tuple[float, float, float, float]:
        """The rectangle in pixels with its edges on whole ones."""
        left, top = round(rect.x * self.ratio), round((rect.y - self._shift) * self.ratio)
        right, bottom = round(rect.right * self.ratio), round((rect.bottom - self._shift) * self.ratio)
        return left, top, max(1, right - left), max(1, bottom - top)

    def rect(
        self,
        rect: Rect,
        fill: Colour = CLEAR,
        stroke: Colour = CLEAR,
        width: float = 0.0,
        radius: float = RADIUS,
        softness: float = 0.0,
    ) -> None:
        """A rectangle with round corners, a border inside its edge, or a soft edge for a shadow."""
        ratio = self.ratio
        border = max(1.0, round(width * ratio)) if width else 0.0
        self._rows.append(
            (
                *self._pixels(rect),
                *fill,
                *stroke,
                radius * ratio,
                border,
                _SHAPE,
                softness * ratio,
                0.0,
                0.0,
                0.0,
                0.0,
                *self._clip,
            )
        )

    def segment(self, x0: float, y0: float, x1: float, y1: float, width: float, colour: Colour) -> None:
        """A line with round ends."""
        ratio, shift = self.ratio, self._shift
        half = width / 2 * ratio
        ends = (x0 * ratio, (y0 - shift) * ratio, x1 * ratio, (y1 - shift) * ratio)
        left, top = min(ends[0], ends[2]) - half, min(ends[1], ends[3]) - half
        right, bottom = max(ends[0], ends[2]) + half, max(ends[1], ends[3]) + half
        self._rows.append(
            (
                left,
                top,
                right - left,
                bottom - top,
                *colour,
                *CLEAR,
                half,
                0.0,
                _SEGMENT,
                0.0,
                *ends,
                *self._clip,
            )
        )

    def disc(self, x: float, y: float, radius: float, colour: Colour, ring: float = 0.0) -> None:
        """A disc, or a ring of that width; its middle is not moved to whole pixels."""
        ratio = self.ratio
        box = (
            (x - radius) * ratio,
            (y - self._shift - radius) * ratio,
            2 * radius * ratio,
            2 * radius * ratio,
        )
        fill, stroke = (CLEAR, colour) if ring else (colour, CLEAR)
        self._rows.append(
            (*box, *fill, *stroke, radius * ratio, ring * ratio, _SHAPE, 0.0, 0.0, 0.0, 0.0, 0.0, *self._clip)
        )

    def text(self, line: Line, colour: Colour | None = None) -> None:
        """A line of text, its base line on a whole pixel."""
        glyphs = self.atlas.run(line.font, line.text, self.ratio)
        if not len(glyphs):
            return
        self._flush()
        rows = np.zeros((len(glyphs), FLOATS), np.float32)
        rows[:, 0] = glyphs[:, 0] + round(line.x * self.ratio)
        rows[:, 1] = glyphs[:, 1] + round((line.baseline - self._shift) * self.ratio)
        rows[:, 2:4] = glyphs[:, 2:4]
        rows[:, 4:8] = colour or self.ink(line.ink)
        rows[:, 14] = _GLYPH
        rows[:, 16:18] = glyphs[:, 4:6]
        rows[:, 20:24] = self._clip
        self._parts.append(rows)

    def picture(self, rect: Rect, stage: Stage) -> None:
        """A small cube, taken from the gallery; without one its place stays plain."""
        if self.gallery is None:
            self.rect(rect, self.theme.stage.background)
            return
        left, top, _, _ = self._pixels(rect)
        # Not from edge to edge: rounded one by one, those would make it depend on where the picture lies.
        size = max(1, int(min(rect.width, rect.height) * self.ratio))
        column, row = self.gallery.spot(stage, self.look, size)
        box = (left, top, size, size)
        place = (column, self.gallery.side - row, 0.0, 0.0)
        self._rows.append(
            (*box, *CLEAR, *CLEAR, RADIUS * self.ratio, 0.0, _PICTURE, 0.0, *place, *self._clip)
        )

    def _flush(self) -> None:
        if self._rows:
            self._parts.append(np.array(self._rows, np.float32))
            self._rows.clear()

    def shapes(self) -> NDArray[np.float32]:
        """All shapes so far, ``float32`` of shape (count, FLOATS), in the order they are painted."""
        self._flush()
        return np.concatenate(self._parts) if self._parts else np.zeros((0, FLOATS), np.float32)

    def ink(self, ink: Ink) -> Colour:
        """The theme's colour of an ink."""
        colour: Colour = getattr(self.theme, ink.value)
        return colour

    def sign(self, sign: Sign, ground: Colour) -> None:
        """An icon; what is cut out of it shows the ground's colour."""
        box, size, colour = sign.rect, sign.rect.width, self.ink(sign.ink)
        for shape in ICONS[sign.icon]:
            if isinstance(shape, Disc):
                centre = box.x + shape.x * size, box.y + shape.y * size
                self.disc(*centre, shape.radius * size, colour, shape.ring * size)
            else:
                self.segment(
                    box.x + shape.x0 * size,
                    box.y + shape.y0 * size,
                    box.x + shape.x1 * size,
                    box.y + shape.y1 * size,
                    max(shape.width * size, 1.2),
                    ground if shape.cut else colour,
                )
