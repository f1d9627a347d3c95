"""A scene turned into shapes: panel by panel, with what did not change kept. Needs no window."""

from __future__ import annotations

from collections.abc import Mapping
from math import hypot

import numpy as np
from msgspec import Struct, field
from msgspec.structs import replace
from numpy.typing import NDArray

from render.layout.boxes import Panel, Rect, Scene, WindowPart
from render.paint.boxes import paint_box
from render.paint.gallery import Gallery
from render.paint.glyph_atlas import Atlas
from render.paint.painter import FLOATS, Painter, Pointer
from render.paint.plots import paint_tip, tip_in_sight
from render.theme import Theme
from tutor.ui.view import Look

SCROLLBAR = 6.0
EDGE = 16.0
"""How far the shadow reaches at an edge of a panel under which more lies."""
_AFTER_THE_STAGE = (WindowPart.NOTICE, WindowPart.OVERLAY)
"""Panels that may lie over the stage, and are drawn after it."""


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
    if panel.place in (WindowPart.LINE, WindowPart.ASIDE):
        painter.rect(rect, theme.stage.background, radius=0.0)
        return
    if panel.place is WindowPart.OVERLAY:
        painter.rect(whole, theme.shade, radius=0.0)
        painter.rect(rect.inset(-4.0).moved(0, 6), theme.shadow, radius=20.0, softness=24.0)
        painter.rect(rect, theme.raised, theme.line, 1.0, 12.0)
        return
    if panel.place is WindowPart.NOTICE and rect.width < whole.width:
        painter.rect(rect, theme.raised, theme.line, 1.0, 8.0)
        return
    edges = {
        WindowPart.BAR: Rect(rect.x, rect.bottom - 1, rect.width, 1),
        WindowPart.NOTICE: Rect(rect.x, rect.y, rect.width, 1),
        WindowPart.RAIL: Rect(rect.x, rect.y, rect.width, 1),
        WindowPart.CARD: Rect(rect.x, rect.y, 1, rect.height),
        WindowPart.FOOT: Rect(rect.x + 24, rect.y, rect.width - 48, 1),
    }
    if panel.place in edges:
        painter.rect(edges[panel.place], theme.line, radius=0.0)
    if panel.place is WindowPart.FOOT:
        painter.rect(edges[WindowPart.CARD], theme.line, radius=0.0)


def paint_panel(panel: Panel, painter: Painter, scroll: float, whole: Rect) -> None:
    """A panel: its ground, what of it is in sight, and its scrollbar."""
    _panel_ground(panel, painter, whole)
    scroll = min(scroll, panel.scroll_limit)
    painter.within(panel.rect, scroll)
    top, bottom = panel.rect.y + scroll - 8, panel.rect.bottom + scroll + 8
    for box in panel.boxes:
        if box.rect.bottom >= top and box.rect.y <= bottom:
            paint_box(box, painter, panel.place is WindowPart.OVERLAY)
    _paint_tips(panel, painter, bottom - 8)
    painter.within(panel.rect)
    _paint_edges(panel, painter, scroll)
    painter.within(None)
    bar = scrollbar(panel, scroll)
    if bar:
        painter.rect(bar[1], painter.theme.edge, radius=SCROLLBAR / 2)


def _paint_edges(panel: Panel, painter: Painter, scroll: float) -> None:
    """A shadow at the edge beyond which there is more to read; the scrollbar alone is soon overlooked."""
    strip = replace(panel.rect, height=EDGE).inset(-EDGE, 0.0)
    # Half of what is soft lies within each strip's edge: the shadow is darkest where the panel ends.
    ends = ((-EDGE / 2, scroll), (panel.rect.height - EDGE / 2, panel.scroll_limit - scroll))
    for down, hidden in ends:
        if hidden >= 1.0:
            painter.rect(strip.moved(0.0, down), painter.theme.shadow, radius=0.0, softness=EDGE)


def _paint_tips(panel: Panel, painter: Painter, lowest: float) -> None:
    """The slip of what is pointed at; of what has the focus when nothing is."""
    tipped = [box for box in panel.boxes if box.tip]
    over = [box for box in tipped if box.action and box.action == painter.pointer.hover]
    for box in over or [box for box in tipped if box.focused]:
        assert box.tip is not None
        paint_tip(tip_in_sight(box.tip, box.rect, lowest), painter)


def paint_playhead(scene: Scene, painter: Painter, scroll: float) -> None:
    """The rail's playhead, apart from the rest since it moves while nothing else does."""
    playhead, panel = scene.playhead, scene.panel(WindowPart.RAIL)
    if playhead is None or playhead.position is None or panel is None:
        return
    painter.within(panel.rect, min(scroll, panel.scroll_limit))
    x, colour = playhead.x_of(playhead.position), painter.theme.accent
    area = playhead.area
    painter.rect(Rect(x - 1, area.y, 2, area.height), colour, radius=1.0)
    painter.disc(x, area.y + 1, 5.0, colour)
    painter.disc(x, area.bottom - 1, 3.0, colour)
    painter.within(None)


SPOT = 0.2
"""The spotlight's radius, in parts of the window's height."""


def paint_spotlight(scene: Scene, painter: Painter) -> None:
    """Shade over all but a disc round the pointer."""
    if painter.pointer.light is None:
        return
    x, y = painter.pointer.light
    radius, beyond = SPOT * scene.height, hypot(scene.width, scene.height)
    painter.disc(x, y, radius + beyond, painter.theme.shade, ring=beyond)


class Shapes(Struct, frozen=True, eq=False):
    """What a scene is painted of, in the order of drawing: ``float32`` arrays of shape (count, FLOATS)."""

    painting: int
    """The same number as before as long as nothing about ``below`` changes."""
    below: NDArray[np.float32]
    """All panels but those over the stage."""
    above: NDArray[np.float32]
    """Spotlight and playhead, which move while nothing else does, a notice and the overlay, if there are."""


class ScenePainter(Struct):
    """Paints scenes, and keeps what did not change from one frame to the next."""

    atlas: Atlas
    gallery: Gallery | None = None
    look: Look = field(default_factory=Look)
    """How the small cubes are drawn."""
    _key: tuple[object, ...] = ()
    _painting: int = 0
    _below: NDArray[np.float32] = field(default_factory=lambda: np.zeros((0, FLOATS), np.float32))
    _above: NDArray[np.float32] = field(default_factory=lambda: np.zeros((0, FLOATS), np.float32))
    _panels_kept: tuple[Panel, ...] = ()
    """Held so that its identity, which the key has, is not given to another."""

    def paint(
        self, scene: Scene, theme: Theme, ratio: float, scrolls: Mapping[WindowPart, float], pointer: Pointer
    ) -> Shapes:
        """All shapes of a scene; where the stage is stays open."""
        key = (
            id(scene.panels),
            id(theme),
            ratio,
            tuple(sorted((p.value, s) for p, s in scrolls.items())),
            replace(pointer, light=None),
        )
        if key != self._key or self.atlas.crowded:
            if self.atlas.crowded:
                self.atlas.clear()
            self._below = self._panels(scene, theme, ratio, scrolls, pointer, overlay=False)
            self._above = self._panels(scene, theme, ratio, scrolls, pointer, overlay=True)
            self._key, self._panels_kept = key, scene.panels
            self._painting += 1
        head = Painter(theme, self.atlas, ratio, pointer)
        paint_spotlight(scene, head)
        paint_playhead(scene, head, scrolls.get(WindowPart.RAIL, 0.0))
        return Shapes(self._painting, self._below, np.concatenate([head.shapes(), self._above]))

    def _panels(
        self,
        scene: Scene,
        theme: Theme,
        ratio: float,
        scrolls: Mapping[WindowPart, float],
        pointer: Pointer,
        overlay: bool,
    ) -> NDArray[np.float32]:
        painter = Painter(theme, self.atlas, ratio, pointer, self.gallery, self.look)
        whole = Rect(0, 0, scene.width, scene.height)
        for panel in scene.panels:
            if (panel.place in _AFTER_THE_STAGE) is overlay:
                paint_panel(panel, painter, scrolls.get(panel.place, 0.0), whole)
        return painter.shapes()
