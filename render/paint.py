"""A scene turned into shapes: rows of numbers that the canvas draws in one call. Needs no window."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from render.gallery import SIDE, Gallery
from render.icons import ICONS, Disc
from render.layout_box import Box, Ink, Kind, Line, Panel, Place, Rect, Scene, Sign
from render.paint_atlas import Atlas
from render.theme import Colour, Theme
from tutor.session.view import Look, Stage

FLOATS = 24
"""Numbers per shape: rect, fill, stroke, (radius, stroke width, kind, softness), extra, clip."""
_SHAPE, _GLYPH, _SEGMENT, _PICTURE = 0.0, 1.0, 2.0, 3.0
_CLEAR = Colour((0.0, 0.0, 0.0, 0.0))
RADIUS = 6.0
SCROLLBAR = 6.0


@dataclass(frozen=True, slots=True)
class Pointer:
    """What the pointer is doing, which is nobody's business but the window's."""

    hover: str = ""
    """The action under the pointer."""
    pressed: str = ""
    """The action that is held down."""


@dataclass(slots=True)
class Painter:
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
        fill: Colour = _CLEAR,
        stroke: Colour = _CLEAR,
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
                *_CLEAR,
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
        fill, stroke = (_CLEAR, colour) if ring else (colour, _CLEAR)
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
        left, top, width, height = self._pixels(rect)
        if self.gallery is None or width < 1:
            self.rect(rect, self.theme.stage.background)
            return
        size = int(min(width, height))
        column, row = self.gallery.spot(stage, self.look, size)
        box = (left, top, size, size)
        place = (column, SIDE - row, 0.0, 0.0)
        self._rows.append(
            (*box, *_CLEAR, *_CLEAR, RADIUS * self.ratio, 0.0, _PICTURE, 0.0, *place, *self._clip)
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


# ----------------------------------------------------------------------------------------------- boxes


def _button_ground(box: Box, painter: Painter) -> tuple[Colour, Colour, float]:
    """Fill, border colour and border width of a button or tile in its state."""
    theme = painter.theme
    held = box.action and painter.pointer.pressed == box.action
    over = box.action and painter.pointer.hover == box.action and box.enabled
    if not box.enabled:
        return _CLEAR, theme.line, 1.0
    if box.primary:
        return (theme.accent_hover if over or held else theme.accent), _CLEAR, 0.0
    if box.selected:
        return theme.accent_soft, theme.accent, 2.0
    return (theme.pressed if held else theme.hover if over else theme.raised), theme.edge, 1.0


def _paint_button(box: Box, painter: Painter) -> Colour:
    fill, stroke, width = _button_ground(box, painter)
    painter.rect(box.rect, fill, stroke, width)
    if box.keycap:
        painter.rect(box.keycap, _CLEAR, painter.ink(box.lines[-1].ink).with_alpha(0.6), 1.0, 3.0)
    return fill


def _paint_quiet(box: Box, painter: Painter) -> Colour:
    theme = painter.theme
    over = box.enabled and painter.pointer.hover == box.action
    held = box.enabled and painter.pointer.pressed == box.action
    fill = theme.pressed if held else theme.hover if over else _CLEAR
    painter.rect(box.rect, fill)
    if box.selected:
        bar = Rect(box.rect.x + 8, box.rect.bottom - 3, box.rect.width - 16, 3)
        painter.rect(bar, theme.accent, radius=1.5)
    if box.keycap:
        painter.rect(box.keycap, _CLEAR, theme.edge, 1.0, 3.0)
    return fill


def _paint_tile(box: Box, painter: Painter) -> Colour:
    theme = painter.theme
    if box.selected or not box.enabled:
        return _paint_button(box, painter)
    held = box.action and painter.pointer.pressed == box.action
    over = box.action and painter.pointer.hover == box.action
    rest = theme.raised if box.played else theme.ground
    fill = theme.pressed if held else theme.hover if over else rest
    painter.rect(box.rect, fill, theme.edge if box.played else theme.line, 1.0, 5.0)
    return fill


def _paint_miniature(box: Box, painter: Painter) -> Colour:
    fill = _paint_button(box, painter)
    if box.picture and box.stage:
        painter.picture(box.picture, box.stage)
    return fill


def _paint_field(box: Box, painter: Painter) -> Colour:
    theme = painter.theme
    wrong = box.ink is Ink.WARNING
    stroke = theme.warning if wrong else theme.accent if box.selected else theme.edge
    painter.rect(box.rect, theme.raised, stroke, 2.0 if wrong or box.selected else 1.0, 4.0)
    if box.underline:
        painter.rect(box.underline, theme.warning, radius=1.5)
    if box.caret:
        painter.rect(box.caret, theme.text, radius=0.0)
    return theme.raised


def _paint_ground(box: Box, painter: Painter, raised: bool) -> Colour:
    """The boxes that others lie on, and the plain ones."""
    theme = painter.theme
    over = theme.ground if raised else theme.raised
    match box.kind:
        case Kind.GROUP:
            painter.rect(box.rect, over, theme.line, 1.0, 8.0)
            return over
        case Kind.NOTE:
            painter.rect(box.rect, over, theme.line, 1.0, 8.0)
            stripe = Rect(box.rect.x, box.rect.y + 8, 4, box.rect.height - 16)
            painter.rect(stripe, painter.ink(box.ink), radius=2.0)
            return over
        case Kind.BAY:
            fill = theme.accent_soft if box.selected else theme.ground
            painter.rect(box.rect, fill, theme.accent if box.selected else theme.line, 1.0, 8.0)
            return fill
        case Kind.TRACK:
            painter.rect(box.rect, over, theme.edge, 1.0, 4.0)
            if box.fraction > 0:
                filled = Rect(
                    box.rect.x, box.rect.y, max(8.0, box.fraction * box.rect.width), box.rect.height
                )
                painter.rect(filled, theme.accent, radius=4.0)
        case Kind.RULE:
            painter.rect(box.rect, theme.line, radius=0.0)
        case Kind.PATH:
            painter.rect(box.rect, theme.edge, radius=0.0)
    return theme.raised if raised else theme.ground


_BUTTONS = {
    Kind.BUTTON: _paint_button,
    Kind.QUIET: _paint_quiet,
    Kind.TILE: _paint_tile,
    Kind.FIELD: _paint_field,
    Kind.MINIATURE: _paint_miniature,
}


def paint_box(box: Box, painter: Painter, raised: bool) -> None:
    """One box with all that is on it; ``raised`` says it lies on an overlay's sheet."""
    paint = _BUTTONS.get(box.kind)
    ground = paint(box, painter) if paint else _paint_ground(box, painter, raised)
    if not ground[3]:
        ground = painter.theme.raised if raised else painter.theme.ground
    for sign in box.signs:
        painter.sign(sign, ground)
    for line in box.lines:
        painter.text(line)
    if box.focused:
        ring = box.rect.inset(-4.0) if box.kind is not Kind.FIELD else box.rect.inset(-3.0)
        painter.rect(ring, _CLEAR, painter.theme.focus, 2.0, RADIUS + 4)


# ---------------------------------------------------------------------------------------------- panels


def scrollbar(panel: Panel, scroll: float) -> tuple[Rect, Rect] | None:
    """Track and thumb at the panel's right edge, or None when all of it fits."""
    if panel.scroll_limit <= 0:
        return None
    rect = panel.rect
    track = Rect(rect.right - SCROLLBAR - 3, rect.y + 4, SCROLLBAR, rect.height - 8)
    high = max(32.0, track.height * rect.height / panel.content)
    y = track.y + (track.height - high) * min(1.0, scroll / panel.scroll_limit)
    return track, Rect(track.x, y, track.width, min(high, track.height))


def _panel_ground(panel: Panel, painter: Painter, whole: Rect) -> None:
    theme, rect = painter.theme, panel.rect
    if panel.place is Place.OVERLAY:
        painter.rect(whole, theme.shade, radius=0.0)
        painter.rect(rect.inset(-4.0).moved(0, 6), theme.shadow, radius=20.0, softness=24.0)
        painter.rect(rect, theme.raised, theme.line, 1.0, 12.0)
        return
    edges = {
        Place.BAR: Rect(rect.x, rect.bottom - 1, rect.width, 1),
        Place.RAIL: Rect(rect.x, rect.y, rect.width, 1),
        Place.NOTICE: Rect(rect.x, rect.y, rect.width, 1),
        Place.CARD: Rect(rect.x, rect.y, 1, rect.height),
    }
    if panel.place in edges:
        painter.rect(edges[panel.place], theme.line, radius=0.0)


def paint_panel(panel: Panel, painter: Painter, scroll: float, whole: Rect) -> None:
    """A panel: its ground, what of it is in sight, and its scrollbar."""
    _panel_ground(panel, painter, whole)
    scroll = min(scroll, panel.scroll_limit)
    painter.within(panel.rect, scroll)
    top, bottom = panel.rect.y + scroll - 8, panel.rect.bottom + scroll + 8
    for box in panel.boxes:
        if box.rect.bottom >= top and box.rect.y <= bottom:
            paint_box(box, painter, panel.place is Place.OVERLAY)
    painter.within(None)
    bar = scrollbar(panel, scroll)
    if bar:
        painter.rect(bar[1], painter.theme.edge, radius=SCROLLBAR / 2)


def paint_playhead(scene: Scene, painter: Painter, scroll: float) -> None:
    """The rail's playhead, apart from the rest since it moves while nothing else does."""
    playhead, panel = scene.playhead, scene.panel(Place.RAIL)
    if playhead is None or playhead.position is None or panel is None:
        return
    painter.within(panel.rect, min(scroll, panel.scroll_limit))
    x, colour = playhead.x_of(playhead.position), painter.theme.accent
    area = playhead.area
    painter.rect(Rect(x - 1, area.y, 2, area.height), colour.with_alpha(0.4), radius=1.0)
    painter.disc(x, area.y + 1, 5.0, colour)
    painter.disc(x, area.bottom - 1, 3.0, colour)
    painter.within(None)


@dataclass(slots=True)
class ScenePainter:
    """Paints scenes, and keeps what did not change from one frame to the next."""

    atlas: Atlas
    gallery: Gallery | None = None
    look: Look = field(default_factory=Look)
    """How the small cubes are drawn."""
    _key: tuple[object, ...] = ()
    _below: NDArray[np.float32] = field(default_factory=lambda: np.zeros((0, FLOATS), np.float32))
    _above: NDArray[np.float32] = field(default_factory=lambda: np.zeros((0, FLOATS), np.float32))
    _panels_kept: tuple[Panel, ...] = ()
    """Held so that its identity, which the key has, is not given to another."""

    def paint(
        self, scene: Scene, theme: Theme, ratio: float, scrolls: Mapping[Place, float], pointer: Pointer
    ) -> NDArray[np.float32]:
        """All shapes of a scene, ``float32`` of shape (count, FLOATS); where the stage is stays open."""
        key = (
            id(scene.panels),
            id(theme),
            ratio,
            tuple(sorted((p.value, s) for p, s in scrolls.items())),
            pointer,
        )
        if key != self._key or self.atlas.crowded:
            if self.atlas.crowded:
                self.atlas.clear()
            self._below = self._panels(scene, theme, ratio, scrolls, pointer, overlay=False)
            self._above = self._panels(scene, theme, ratio, scrolls, pointer, overlay=True)
            self._key, self._panels_kept = key, scene.panels
        head = Painter(theme, self.atlas, ratio)
        paint_playhead(scene, head, scrolls.get(Place.RAIL, 0.0))
        return np.concatenate([self._below, head.shapes(), self._above])

    def _panels(
        self,
        scene: Scene,
        theme: Theme,
        ratio: float,
        scrolls: Mapping[Place, float],
        pointer: Pointer,
        overlay: bool,
    ) -> NDArray[np.float32]:
        painter = Painter(theme, self.atlas, ratio, pointer, self.gallery, self.look)
        whole = Rect(0, 0, scene.width, scene.height)
        for panel in scene.panels:
            if (panel.place is Place.OVERLAY) is overlay:
                paint_panel(panel, painter, scrolls.get(panel.place, 0.0), whole)
        return painter.shapes()
