"""Draws a whole view, stage and interface, into the current framebuffer. Needs a current context."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import TYPE_CHECKING

import numpy as np
from msgspec.structs import replace
from numpy.typing import NDArray
from pyglet import gl

from render.layout.boxes import Rect, Scene, WindowPart
from render.opengl import Area
from render.paint.canvas import Canvas
from render.paint.gallery import Gallery
from render.paint.painter import Pointer
from render.paint.scene_painter import ScenePainter
from render.theme import Theme, load_theme
from render.window.surface import Kept, PictureStore, Surface
from tutor.ui.view import Look, Stage, View

if TYPE_CHECKING:
    from render.stage.renderer import StageRenderer


def stage_viewport(rect: Rect, ratio: float, height: int) -> Area:
    """The stage's rectangle in the pixels of a framebuffer of this height."""
    left, right = round(rect.x * ratio), round(rect.right * ratio)
    top, bottom = round(rect.y * ratio), round(rect.bottom * ratio)
    return left, height - bottom, right - left, bottom - top


class ViewDrawer:
    """Owns everything on the card that a window needs; the stage's part is made when first shown."""

    def __init__(self) -> None:
        """Make the interface's part."""
        self._canvas = Canvas()
        self._gallery = Gallery()
        self._painter = ScenePainter(self._canvas.atlas, self._gallery)
        self._pictures: PictureStore | None = None
        self._renderer: StageRenderer | None = None
        self._interface, self._still, self._stage = Kept(), Kept(), Surface()
        self._stayed: tuple[object, ...] = ()

    def draw(
        self,
        view: View,
        scene: Scene,
        size: tuple[int, int],
        ratio: float,
        scrolls: Mapping[WindowPart, float],
        pointer: Pointer,
        smooth: bool | None = None,
    ) -> None:
        """Draw ``view`` as laid out in ``scene`` on a framebuffer of ``size`` pixels.

        All is drawn straight to the framebuffer, unless ``smooth`` says how a framebuffer with one sample a
        pixel shows a stage: True with several samples, from a picture that is kept as long as the stage stays
        the same, False with one, while all that does not move is kept.
        """
        theme = load_theme(view.look.theme)
        self._painter.look = view.look
        shapes = self._painter.paint(scene, theme, ratio, scrolls, pointer)
        self._draw_pictures(theme)
        texture = self._pictures.texture if self._pictures else 0
        draw_below = partial(self._draw_interface, theme, size, shapes.below, texture)
        if scene.stage is None or view.stage is None:
            draw_below()
            for kept in (self._interface, self._still, self._stage):
                kept.let_go_beyond(size)
        else:
            viewport = stage_viewport(scene.stage, ratio, size[1])
            if smooth is False:
                self._show_still(
                    (shapes.painting, texture), size, draw_below, view.stage, view.look, viewport
                )
                self.renderer.draw(view.stage, view.look, theme, viewport, setting=False)
            else:
                draw_below()
                self._draw_stage(view.stage, view.look, theme, viewport, smooth)
        self._canvas.draw(shapes.above, *size, texture)

    def _draw_interface(
        self, theme: Theme, size: tuple[int, int], shapes: NDArray[np.float32], texture: int
    ) -> None:
        gl.glViewport(0, 0, *size)
        gl.glDisable(gl.GL_SCISSOR_TEST)
        gl.glClearColor(*theme.ground.rgb, 1.0)
        gl.glClear(gl.GL_COLOR_BUFFER_BIT)
        self._canvas.draw(shapes, *size, texture)

    def _show_still(
        self,
        interface: tuple[object, ...],
        size: tuple[int, int],
        draw_interface: Callable[[], None],
        stage: Stage,
        look: Look,
        viewport: Area,
    ) -> None:
        """Show all but the cube, which alone moves in a turn."""

        def paint() -> None:
            self._interface.show(interface, size, draw_interface)
            self.renderer.draw(stage, look, load_theme(look.theme), viewport, cube=False)

        still = (interface, look, stage.camera, stage.framed, viewport)
        # Who looks round sees it once, so it is kept only when it stays.
        if still == self._stayed:
            self._still.show(still, size, paint)
        else:
            paint()
        self._stayed = still

    @property
    def renderer(self) -> StageRenderer:
        """The stage's part, imported and made when a cube first comes into sight."""
        if self._renderer is None:
            from render.stage.renderer import StageRenderer

            self._renderer = StageRenderer()
        return self._renderer

    def _draw_pictures(self, theme: Theme) -> None:
        """Draw the small cubes that have come into sight."""
        if not self._gallery.wanted:
            return
        if self._pictures is not None and self._pictures.side != self._gallery.side:
            self._pictures.delete()
            self._pictures = None
        if self._pictures is None:
            self._pictures = PictureStore(self._gallery.side)
        for each in self._gallery.wanted:
            look, inside = replace(each.look, mirrors=False), (0, 0, each.size, each.size)
            draw = partial(self.renderer.draw, each.stage, look, theme, inside, small=True)
            self._pictures.put(each.column, each.row, each.size, draw)
        self._gallery.wanted.clear()

    def _draw_stage(
        self, stage: Stage, look: Look, theme: Theme, viewport: Area, smooth: bool | None
    ) -> None:
        size = viewport[2:]
        if not smooth or min(size) < 1:
            self.renderer.draw(stage, look, theme, viewport)
            return
        draw = partial(self.renderer.draw, stage, look, theme, (0, 0, *size))
        self._stage.show((stage, look, theme), size, draw)
        self._stage.copy_to(viewport)

    def delete(self) -> None:
        """Free everything on the card."""
        for owned in (
            self._interface,
            self._still,
            self._stage,
            self._pictures,
            self._renderer,
            self._canvas,
        ):
            if owned is not None:
                owned.delete()
