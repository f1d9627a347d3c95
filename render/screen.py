"""Draws a whole view, stage and interface, into the current framebuffer. Needs a current context."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from pyglet import gl

from render.canvas import Canvas
from render.gallery import SIDE, Gallery
from render.layout_box import Place, Rect, Scene
from render.paint import ScenePainter
from render.paint_shapes import Pointer
from render.surface import PictureStore, Surface
from render.theme import Theme, load_theme
from tutor.session.view import View

if TYPE_CHECKING:
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
        self._surface: Surface | None = None

    def draw(
        self,
        view: View,
        scene: Scene,
        size: tuple[int, int],
        ratio: float,
        scrolls: Mapping[Place, float],
        pointer: Pointer,
        smooth: bool = False,
    ) -> None:
        """Draw ``view`` as laid out in ``scene`` on a framebuffer of ``size`` pixels.

        ``smooth`` draws the stage with several samples a pixel and keeps it, so that the next frame with the
        same stage only copies it; it is for framebuffers that have one sample themselves.
        """
        theme = load_theme(view.look.theme)
        gl.glViewport(0, 0, *size)
        gl.glDisable(gl.GL_SCISSOR_TEST)
        gl.glClearColor(*theme.ground.rgb, 1.0)
        gl.glClear(gl.GL_COLOR_BUFFER_BIT | gl.GL_DEPTH_BUFFER_BIT)
        if scene.stage is not None:
            self._draw_stage(view, theme, stage_viewport(scene.stage, ratio, size[1]), smooth)
        self._painter.look = view.look
        shapes = self._painter.paint(scene, theme, ratio, scrolls, pointer)
        self._draw_pictures(theme)
        self._canvas.draw(shapes.all, *size, self._pictures.texture if self._pictures else 0)

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
        self, view: View, theme: Theme, viewport: tuple[int, int, int, int], smooth: bool
    ) -> None:
        stage, look = view.stage, view.look
        if stage is None or min(viewport[2:]) < 1:
            return
        renderer = self._renderer()
        if not smooth:
            renderer.draw(stage, look, theme, viewport)
            return
        if self._surface is None:
            self._surface = Surface()
        surface, inside = self._surface, (0, 0, *viewport[2:])
        key = (stage, look, inside)
        if surface.key != key:
            surface.draw(viewport[2:], lambda: renderer.draw(stage, look, theme, inside))
            surface.key = key
        surface.copy_to(viewport)

    def delete(self) -> None:
        """Free everything on the card."""
        for owned in (self._surface, self._pictures):
            if owned is not None:
                owned.delete()
        if self._stage is not None:
            self._stage.delete()
        self._canvas.delete()
