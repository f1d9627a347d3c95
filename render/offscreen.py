"""Drawing without a window or display: an OpenGL context of its own and a framebuffer of any size.

Used for tests, stills and films. The hidden window that pyglet opens for the context may have as little as
5-6-5 bits, so everything is drawn into a framebuffer object and read back from there.

pyglet decides between a display and none when its OpenGL module is first imported. So this module imports it
late, and asks for none unless the process has already chosen.
"""

from __future__ import annotations

import ctypes
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import cache
from typing import TYPE_CHECKING, Any

import numpy as np
import numpy.typing as npt
import pyglet

from render import words
from render.system.system import system_here
from render.theme import StageTheme, Theme, load_theme
from tutor.ui.view import Look, Stage

if TYPE_CHECKING:
    from render.stage.renderer import StageRenderer

SAMPLES = 4

Picture = npt.NDArray[np.uint8]
"""Rows from the top, shape (height, width, 4), sRGB with alpha."""


class OffscreenError(ValueError):
    """A picture that cannot be drawn; the message says why."""


class OffscreenContext:
    """An OpenGL context with a framebuffer that takes any size. Keep one and use it again."""

    def __init__(self) -> None:
        first, system = "pyglet.gl" not in sys.modules, system_here()
        if first:
            # Where there is no EGL, a hidden window needs no display server.
            pyglet.options.headless = system.draws_without_display
            pyglet.options.debug_gl = False
        with system.importing():
            from pyglet import gl, window

            if first:
                system.draw_only()

        before = gl.current_context
        self.window: Any = window.Window(width=16, height=16, visible=False, caption="")
        self._target: _Target | None = None
        if before is not None:
            before.set_current()

    @contextmanager
    def current(self) -> Iterator[None]:
        """Make the context current, and the one before current again at the end."""
        from pyglet import gl

        before = gl.current_context
        self.window.switch_to()
        try:
            yield
        finally:
            if before is not None and before is not self.window.context:
                before.set_current()

    def picture(self, size: tuple[int, int], paint: Callable[[], None]) -> Picture:
        """What ``paint`` draws on a framebuffer of this width and height, cleared to transparent black.

        The framebuffer is multisampled and is bound, with the viewport set to all of it, when ``paint`` is
        called. Raises OffscreenError when the size is not possible.
        """
        with self.current():
            if self._target is None or self._target.size != size:
                if self._target is not None:
                    self._target.delete()
                    self._target = None
                self._target = _Target(size)
            return self._target.picture(paint)

    def delete(self) -> None:
        """Free the framebuffer and close the context."""
        with self.current():
            if self._target is not None:
                self._target.delete()
                self._target = None
        self.window.close()


class _Target:
    """A multisampled framebuffer and a plain one that it is resolved into."""

    def __init__(self, size: tuple[int, int]) -> None:
        from render.opengl import integers

        gl = self._gl = pyglet.gl
        limit = integers(gl.GL_MAX_RENDERBUFFER_SIZE)[0]
        if not (0 < size[0] <= limit and 0 < size[1] <= limit):
            raise OffscreenError(words.picture_size(*size, limit))
        self.size = size
        samples = min(SAMPLES, integers(gl.GL_MAX_SAMPLES)[0])
        self._buffers: list[int] = []
        colour, depth = gl.GL_COLOR_ATTACHMENT0, gl.GL_DEPTH_STENCIL_ATTACHMENT
        self._drawn = self._framebuffer(((colour, gl.GL_RGBA8), (depth, gl.GL_DEPTH24_STENCIL8)), samples)
        self._resolved = self._framebuffer(((colour, gl.GL_RGBA8),), 0)

    def _framebuffer(self, attachments: tuple[tuple[int, int], ...], samples: int) -> int:
        from render.opengl import generated

        gl = self._gl
        name = generated(gl.glGenFramebuffers)
        gl.glBindFramebuffer(gl.GL_FRAMEBUFFER, name)
        for attachment, kind in attachments:
            self._buffers.append(generated(gl.glGenRenderbuffers))
            gl.glBindRenderbuffer(gl.GL_RENDERBUFFER, self._buffers[-1])
            gl.glRenderbufferStorageMultisample(gl.GL_RENDERBUFFER, samples, kind, *self.size)
            gl.glFramebufferRenderbuffer(gl.GL_FRAMEBUFFER, attachment, gl.GL_RENDERBUFFER, self._buffers[-1])
        status = gl.glCheckFramebufferStatus(gl.GL_FRAMEBUFFER)
        gl.glBindFramebuffer(gl.GL_FRAMEBUFFER, 0)
        if status != gl.GL_FRAMEBUFFER_COMPLETE:
            raise OffscreenError(words.picture_refused(*self.size, status))
        return name

    def picture(self, paint: Callable[[], None]) -> Picture:
        gl, (width, height) = self._gl, self.size
        gl.glBindFramebuffer(gl.GL_FRAMEBUFFER, self._drawn)
        try:
            gl.glViewport(0, 0, width, height)
            gl.glDisable(gl.GL_SCISSOR_TEST)
            gl.glClearColor(0.0, 0.0, 0.0, 0.0)
            gl.glClear(gl.GL_COLOR_BUFFER_BIT | gl.GL_DEPTH_BUFFER_BIT | gl.GL_STENCIL_BUFFER_BIT)
            paint()
            gl.glDisable(gl.GL_SCISSOR_TEST)
            gl.glBindFramebuffer(gl.GL_READ_FRAMEBUFFER, self._drawn)
            gl.glBindFramebuffer(gl.GL_DRAW_FRAMEBUFFER, self._resolved)
            whole = (0, 0, width, height)
            gl.glBlitFramebuffer(*whole, *whole, gl.GL_COLOR_BUFFER_BIT, gl.GL_NEAREST)
            gl.glBindFramebuffer(gl.GL_FRAMEBUFFER, self._resolved)
            pixels = np.empty((height, width, 4), dtype=np.uint8)
            address = pixels.ctypes.data_as(ctypes.c_void_p)
            gl.glPixelStorei(gl.GL_PACK_ALIGNMENT, 4)
            gl.glReadPixels(*whole, gl.GL_RGBA, gl.GL_UNSIGNED_BYTE, address)
        finally:
            gl.glBindFramebuffer(gl.GL_FRAMEBUFFER, 0)
        return np.ascontiguousarray(pixels[::-1])

    def delete(self) -> None:
        gl = self._gl
        for name in (self._drawn, self._resolved):
            gl.glDeleteFramebuffers(1, ctypes.byref(gl.GLuint(name)))
        for name in self._buffers:
            gl.glDeleteRenderbuffers(1, ctypes.byref(gl.GLuint(name)))


@cache
def shared_context() -> OffscreenContext:
    """The process's one offscreen context, made when first asked for."""
    return OffscreenContext()


@cache
def _shared_renderer() -> StageRenderer:
    context = shared_context()
    with context.current():
        from render.stage.renderer import StageRenderer

        return StageRenderer()


def render_stage(
    stage: Stage, look: Look, size: tuple[int, int], theme: Theme | StageTheme | None = None
) -> Picture:
    """The stage as a picture of this width and height; the same input gives the same bytes.

    ``theme`` stands in for the one that ``look`` names. Raises OffscreenError when the size is not possible,
    ThemeError or PaletteError when ``look`` names what does not exist.
    """
    colours = load_theme(look.theme) if theme is None else theme
    renderer = _shared_renderer()
    viewport = (0, 0, *size)
    return shared_context().picture(size, lambda: renderer.draw(stage, look, colours, viewport))
