"""A multisampled picture that is kept from frame to frame and copied to where it is needed."""

from __future__ import annotations

import ctypes
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from pyglet import gl

from render.graphics import generated, integers

SAMPLES = 4


class Surface:
    """Colour and depth of one size with several samples a pixel. Needs a current context."""

    def __init__(self) -> None:
        """An empty one; room is made when the size is known."""
        self.size = (0, 0)
        self.key: object = None
        """What was drawn last; the owner's to compare."""
        self._framebuffer = generated(gl.glGenFramebuffers)
        self._buffers = [generated(gl.glGenRenderbuffers), generated(gl.glGenRenderbuffers)]
        self.samples = min(SAMPLES, integers(gl.GL_MAX_SAMPLES)[0])

    def draw(self, size: tuple[int, int], paint: Callable[[], None]) -> None:
        """Have ``paint`` draw with this surface bound; the framebuffer bound before is bound again."""
        before = integers(gl.GL_DRAW_FRAMEBUFFER_BINDING)[0]
        gl.glBindFramebuffer(gl.GL_FRAMEBUFFER, self._framebuffer)
        try:
            if size != self.size:
                self._resize(size)
            paint()
        finally:
            gl.glBindFramebuffer(gl.GL_FRAMEBUFFER, before)

    def _resize(self, size: tuple[int, int]) -> None:
        kinds = ((gl.GL_COLOR_ATTACHMENT0, gl.GL_RGBA8), (gl.GL_DEPTH_ATTACHMENT, gl.GL_DEPTH_COMPONENT24))
        for name, (attachment, kind) in zip(self._buffers, kinds, strict=True):
            gl.glBindRenderbuffer(gl.GL_RENDERBUFFER, name)
            gl.glRenderbufferStorageMultisample(gl.GL_RENDERBUFFER, self.samples, kind, *size)
            gl.glFramebufferRenderbuffer(gl.GL_FRAMEBUFFER, attachment, gl.GL_RENDERBUFFER, name)
        gl.glBindRenderbuffer(gl.GL_RENDERBUFFER, 0)
        self.size = size

    def copy_to(self, viewport: tuple[int, int, int, int]) -> None:
        """Resolve into the viewport (x, y from below, width, height) of the bound framebuffer."""
        x, y, width, height = viewport
        before = integers(gl.GL_READ_FRAMEBUFFER_BINDING)[0]
        gl.glBindFramebuffer(gl.GL_READ_FRAMEBUFFER, self._framebuffer)
        gl.glBlitFramebuffer(
            0, 0, width, height, x, y, x + width, y + height, gl.GL_COLOR_BUFFER_BIT, gl.GL_NEAREST
        )
        gl.glBindFramebuffer(gl.GL_READ_FRAMEBUFFER, before)

    def delete(self) -> None:
        """Free it."""
        gl.glDeleteFramebuffers(1, ctypes.byref(gl.GLuint(self._framebuffer)))
        for name in self._buffers:
            gl.glDeleteRenderbuffers(1, ctypes.byref(gl.GLuint(name)))


class PictureStore:
    """A square texture that pictures are drawn into, smoothed, and taken from again by their place."""

    def __init__(self, side: int) -> None:
        """Make room for ``side`` pixels each way."""
        self.side = side
        self.texture = generated(gl.glGenTextures)
        self._framebuffer = generated(gl.glGenFramebuffers)
        self._surface = Surface()
        gl.glBindTexture(gl.GL_TEXTURE_2D, self.texture)
        gl.glTexImage2D(
            gl.GL_TEXTURE_2D, 0, gl.GL_RGBA8, side, side, 0, gl.GL_RGBA, gl.GL_UNSIGNED_BYTE, None
        )
        for name in (gl.GL_TEXTURE_MIN_FILTER, gl.GL_TEXTURE_MAG_FILTER):
            gl.glTexParameteri(gl.GL_TEXTURE_2D, name, gl.GL_NEAREST)
        gl.glBindTexture(gl.GL_TEXTURE_2D, 0)
        with self._bound():
            gl.glFramebufferTexture2D(
                gl.GL_FRAMEBUFFER, gl.GL_COLOR_ATTACHMENT0, gl.GL_TEXTURE_2D, self.texture, 0
            )

    @contextmanager
    def _bound(self) -> Iterator[None]:
        before = integers(gl.GL_DRAW_FRAMEBUFFER_BINDING)[0]
        gl.glBindFramebuffer(gl.GL_FRAMEBUFFER, self._framebuffer)
        try:
            yield
        finally:
            gl.glBindFramebuffer(gl.GL_FRAMEBUFFER, before)

    def put(self, column: int, row: int, size: int, paint: Callable[[], None]) -> None:
        """Have ``paint`` draw a picture of ``size`` pixels each way, kept at a place from the upper left."""
        self._surface.draw((size, size), paint)
        with self._bound():
            self._surface.copy_to((column, self.side - row - size, size, size))

    def delete(self) -> None:
        """Free it."""
        self._surface.delete()
        gl.glDeleteFramebuffers(1, ctypes.byref(gl.GLuint(self._framebuffer)))
        gl.glDeleteTextures(1, ctypes.byref(gl.GLuint(self.texture)))
