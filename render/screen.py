"""Draws a whole view, stage and interface, into the current framebuffer. Needs a current context."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray
from pyglet import gl

from render.canvas import Canvas
from render.gallery import SIDE, Gallery
from render.layout_box import Place, Rect, Scene
from render.paint import ScenePainter
from render.paint_shapes import Pointer
from render.surface import PictureStore
from render.theme import Theme, load_theme
from tutor.ui.view import View

if TYPE_CHECKING:
    from render.kept_interface import KeptInterface
    from render.kept_stage import KeptStage
    from render.stage import StageRenderer


def stage_viewport(rect: Rect, ratio: float, height: int) -> tuple[int, int, int, int]:
    """The stage's rectangle in framebuffer pixels: x, y from below, width, height."""
    left, right = round(rect.x * ratio), round(rect.right * ratio)
    top, bottom = round(rect.y * ratio), round(rect.bottom * ratio)
    return left, height - bottom, right - left, bottom - top


class Screen:
    """Owns everything on the card that a window needs; the stage's part is made when first shown."""

    def __init__(self) -> None:
        """Make the interface's part."""
        self._canvas = Canvas()
        self._gallery = Gallery()
        self._painter = ScenePainter(self._canvas.atlas, self._gallery)
        self._pictures: PictureStore | None = None
        self._stage: StageRenderer | None = None
        self._kept: dict[bool, KeptStage] = {}
        self._interface: KeptInterface | None = None

    def draw(
        self,
        view: View,
        scene: Scene,
        size: tuple[int, int],
        ratio: float,
        scrolls: Mapping[Place, float],
        pointer: Pointer,
        smooth: bool | None = None,
    ) -> None:
        """Draw ``view`` as laid out in ``scene`` on a framebuffer of ``size`` pixels.

        When ``smooth`` is not None, interface and stage are kept, so that the next frame need not draw them
        again; when it is true, the stage has several samples a pixel. That is for framebuffers that have one
        sample themselves. Otherwise all is drawn straight to the framebuffer.
        """
        theme = load_theme(view.look.theme)
        self._painter.look = view.look
        shapes = self._painter.paint(scene, theme, ratio, scrolls, pointer)
        self._draw_pictures(theme)
        if scene.stage is None:
            for kept in self._kept.values():
                kept.spare()
            self._draw_interface(theme, size, shapes.all)
            return
        viewport = stage_viewport(scene.stage, ratio, size[1])
        if smooth is None or len(shapes.above):
            self._draw_ground(theme, size)
            self._draw_stage(view, theme, viewport, smooth)
            self._canvas.draw(shapes.all, *size, self._texture)
            return
        if self._interface is None:
            from render.kept_interface import KeptInterface

            self._interface = KeptInterface()
        draw = partial(self._draw_interface, theme, size, shapes.below)
        self._interface.draw(shapes.below, self._texture, size, draw, viewport)
        self._draw_stage(view, theme, viewport, smooth)
        self._canvas.draw(shapes.playhead, *size, self._texture)

    @property
    def _texture(self) -> int:
        return self._pictures.texture if self._pictures else 0

    def _draw_ground(self, theme: Theme, size: tuple[int, int]) -> None:
        gl.glViewport(0, 0, *size)
        gl.glDisable(gl.GL_SCISSOR_TEST)
        gl.glClearColor(*theme.ground.rgb, 1.0)
        gl.glClear(gl.GL_COLOR_BUFFER_BIT | gl.GL_DEPTH_BUFFER_BIT)

    def _draw_interface(self, theme: Theme, size: tuple[int, int], shapes: NDArray[np.float32]) -> None:
        self._draw_ground(theme, size)
        self._canvas.draw(shapes, *size, self._texture)

    def _renderer(self) -> StageRenderer:
        """The stage's part, imported and made when a cube first comes into sight."""
        if self._stage is None:
            from render.stage import StageRenderer

            self._stage = StageRenderer()
        return self._stage

    def _draw_pictures(self, theme: Theme) -> None:
        """Draw the small cubes that have come into sight."""
        if not self._gallery.wanted:
            return
        if self._pictures is None:
            self._pictures = PictureStore(SIDE)
        renderer = self._renderer()
        for each in self._gallery.wanted:
            look, inside = replace(each.look, mirrors=False), (0, 0, each.size, each.size)
            draw = partial(renderer.draw, each.stage, look, theme, inside)
            self._pictures.put(each.column, each.row, each.size, draw)
        self._gallery.wanted.clear()

    def _draw_stage(
        self, view: View, theme: Theme, viewport: tuple[int, int, int, int], smooth: bool | None
    ) -> None:
        stage, look = view.stage, view.look
        if stage is None or min(viewport[2:]) < 1:
            return
        renderer = self._renderer()
        if smooth is None:
            renderer.draw(stage, look, theme, viewport)
            return
        if smooth not in self._kept:
            from render.kept_stage import KeptStage

            self._kept[smooth] = KeptStage(renderer, smooth)
        if not smooth and True in self._kept and stage.turning is not None:
            # Turns have proved too slow with several samples: what they needed is large.
            self._kept[True].spare()
        self._kept[smooth].draw(stage, look, theme, viewport)

    def delete(self) -> None:
        """Free everything on the card."""
        for owned in (*self._kept.values(), self._interface, self._pictures):
            if owned is not None:
                owned.delete()
        if self._stage is not None:
            self._stage.delete()
        self._canvas.delete()
