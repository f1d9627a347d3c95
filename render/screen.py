"""Draws a whole view, stage and interface, into the current framebuffer. Needs a current context (3.3 core)."""

from __future__ import annotations

from collections.abc import Mapping

from pyglet import gl

from render.canvas import Canvas
from render.layout_box import Place, Rect, Scene
from render.paint import Pointer, ScenePainter
from render.stage import StageRenderer
from render.theme import load_theme
from tutor.session.view import View


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
        self._painter = ScenePainter(self._canvas.atlas)
        self._stage: StageRenderer | None = None

    def draw(
        self,
        view: View,
        scene: Scene,
        size: tuple[int, int],
        ratio: float,
        scrolls: Mapping[Place, float],
        pointer: Pointer,
    ) -> None:
        """Draw ``view`` as laid out in ``scene`` on a framebuffer of ``size`` pixels."""
        theme = load_theme(view.look.theme)
        gl.glViewport(0, 0, *size)
        gl.glDisable(gl.GL_SCISSOR_TEST)
        gl.glClearColor(*theme.ground.rgb, 1.0)
        gl.glClear(gl.GL_COLOR_BUFFER_BIT | gl.GL_DEPTH_BUFFER_BIT)
        if view.stage is not None and scene.stage is not None:
            if self._stage is None:
                self._stage = StageRenderer()
            self._stage.draw(view.stage, view.look, theme, stage_viewport(scene.stage, ratio, size[1]))
        self._canvas.draw(self._painter.paint(scene, theme, ratio, scrolls, pointer), *size)

    def delete(self) -> None:
        """Free everything on the card."""
        if self._stage is not None:
            self._stage.delete()
        self._canvas.delete()
