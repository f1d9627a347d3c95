"""Pictures kept from frame to frame and copied to where they are needed."""

from __future__ import annotations

import ctypes
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from pyglet import gl

from render.opengl import Area, generated, integers

SAMPLES = 4


class Surface:
    """Colour and depth of one size, with several samples a pixel. Needs a current context."""

    def __init__(self) -> None:
        """An empty one; room is made when the size is known."""
        self.size = (0, 0)
        self._shows: tuple[object, ...] | None = None
        self._framebuffer, self._smoothed = (generated(gl.glGenFramebuffers) for _ in range(2))
        self._buffers = [generated(gl.glGenRenderbuffers) for _ in range(3)]
        self.samples = min(SAMPLES, integers(gl.GL_MAX_SAMPLES)[0])

    def show(self, what: tuple[object, ...], size: tuple[int, int], paint: Callable[[], None]) -> None:
        """Have ``paint`` draw unless the picture of this size shows the same ``what`` already."""
        if (what, size) != (self._shows, self.size):
            self._shows = None
            self.draw(size, paint)
            self._shows = what

    def draw(self, size: tuple[int, int], paint: Callable[[], None]) -> None:
        """Have ``paint`` draw with this surface bound; the framebuffer bound before is bound again."""
        before = integers(gl.GL_DRAW_FRAMEBUFFER_BINDING)[0]
        gl.glBindFramebuffer(gl.GL_FRAMEBUFFER, self._framebuffer)
        try:
            if size != self.size:
                self._resize(size)
            paint()
            gl.glBindFramebuffer(gl.GL_DRAW_FRAMEBUFFER, self._smoothed)
            _copy(self._framebuffer, (0, 0, *size), (0, 0, *size))
        finally:
            gl.glBindFramebuffer(gl.GL_FRAMEBUFFER, before)

    def _resize(self, size: tuple[int, int]) -> None:
        parts = (
            (self._framebuffer, gl.GL_COLOR_ATTACHMENT0, gl.GL_RGBA8, self.samples),
            (self._framebuffer, gl.GL_DEPTH_ATTACHMENT, gl.GL_DEPTH_COMPONENT24, self.samples),
            (self._smoothed, gl.GL_COLOR_ATTACHMENT0, gl.GL_RGBA8, 0),
        )
        for name, (framebuffer, attachment, kind, samples) in zip(self._buffers, parts, strict=True):
            gl.glBindRenderbuffer(gl.GL_RENDERBUFFER, name)
            gl.glRenderbufferStorageMultisample(gl.GL_RENDERBUFFER, samples, kind, *size)
            gl.glBindFramebuffer(gl.GL_FRAMEBUFFER, framebuffer)
            gl.glFramebufferRenderbuffer(gl.GL_FRAMEBUFFER, attachment, gl.GL_RENDERBUFFER, name)
        gl.glBindRenderbuffer(gl.GL_RENDERBUFFER, 0)
        gl.glBindFramebuffer(gl.GL_FRAMEBUFFER, self._framebuffer)
        self.size = size

    def let_go_beyond(self, size: tuple[int, int]) -> None:
        """Give the memory back when the picture is larger than this, after a window that was larger."""
        if self.size[0] > size[0] or self.size[1] > size[1]:
            before = integers(gl.GL_DRAW_FRAMEBUFFER_BINDING)[0]
            self._shows = None
            self._resize((0, 0))
            gl.glBindFramebuffer(gl.GL_FRAMEBUFFER, before)

    def copy_to(self, viewport: Area) -> None:
        """Copy the smoothed picture into the viewport of the bound framebuffer."""
        _copy(self._smoothed, (0, 0, *viewport[2:]), viewport)

    def delete(self) -> None:
        """Free it."""
        for name in (self._framebuffer, self._smoothed):
            gl.glDeleteFramebuffers(1, ctypes.byref(gl.GLuint(name)))
        for name in self._buffers:
            gl.glDeleteRenderbuffers(1, ctypes.byref(gl.GLuint(name)))


def _copy(framebuffer: int, source: Area, target: Area) -> None:
    """Copy a part of a framebuffer into one of the same size of the framebuffer bound for drawing."""
    corners = [corner for x, y, width, height in (source, target) for corner in (x, y, x + width, y + height)]
    before = integers(gl.GL_READ_FRAMEBUFFER_BINDING)[0]
    gl.glBindFramebuffer(gl.GL_READ_FRAMEBUFFER, framebuffer)
    gl.glBlitFramebuffer(*corners, gl.GL_COLOR_BUFFER_BIT, gl.GL_NEAREST)
    gl.glBindFramebuffer(gl.GL_READ_FRAMEBUFFER, before)


class Kept:
    """The picture of a whole framebuffer, kept when it is painted and put back as long as it is the same.

    It is for drivers that draw without a graphics card. It lies in memory as their windows do, with rows from
    the top and blue first. So they copy it as it is, ten times as fast as they would draw it.
    """

    def __init__(self) -> None:
        """Nothing yet; room is made when the size is known."""
        self.size = (0, 0)
        self._shows: tuple[object, ...] | None = None
        self._framebuffer, self._texture = generated(gl.glGenFramebuffers), generated(gl.glGenTextures)

    def show(self, what: tuple[object, ...], size: tuple[int, int], paint: Callable[[], None]) -> None:
        """Have the bound framebuffer of this size show ``what``: as it was kept, or as ``paint`` draws it."""
        window = integers(gl.GL_DRAW_FRAMEBUFFER_BINDING)[0]
        if (what, size) == (self._shows, self.size):
            self._copy(self._framebuffer, window)
        else:
            self._shows = None
            paint()
            if size != self.size:
                self._resize(size)
            self._copy(window, self._framebuffer)
            self._shows = what
        gl.glBindFramebuffer(gl.GL_FRAMEBUFFER, window)

    def _copy(self, source: int, target: int) -> None:
        """Copy all of a framebuffer into another, upside down."""
        width, height = self.size
        gl.glBindFramebuffer(gl.GL_READ_FRAMEBUFFER, source)
        gl.glBindFramebuffer(gl.GL_DRAW_FRAMEBUFFER, target)
        gl.glDisable(gl.GL_SCISSOR_TEST)
        gl.glBlitFramebuffer(0, height, width, 0, 0, 0, width, height, gl.GL_COLOR_BUFFER_BIT, gl.GL_NEAREST)

    def _resize(self, size: tuple[int, int]) -> None:
        gl.glBindTexture(gl.GL_TEXTURE_2D, self._texture)
        # Without a number of bits the driver follows the order of the colours, though none are handed over.
        order = gl.GL_BGRA, gl.GL_UNSIGNED_BYTE
        gl.glTexImage2D(gl.GL_TEXTURE_2D, 0, gl.GL_RGBA, *size, 0, *order, None)
        gl.glTexParameteri(gl.GL_TEXTURE_2D, gl.GL_TEXTURE_MIN_FILTER, gl.GL_NEAREST)
        gl.glBindTexture(gl.GL_TEXTURE_2D, 0)
        gl.glBindFramebuffer(gl.GL_FRAMEBUFFER, self._framebuffer)
        gl.glFramebufferTexture2D(
            gl.GL_FRAMEBUFFER, gl.GL_COLOR_ATTACHMENT0, gl.GL_TEXTURE_2D, self._texture, 0
        )
        self.size = size

    def let_go_beyond(self, size: tuple[int, int]) -> None:
        """Give the memory back when the picture is larger than this, after a window that was larger."""
        if self.size[0] > size[0] or self.size[1] > size[1]:
            window = integers(gl.GL_DRAW_FRAMEBUFFER_BINDING)[0]
            self._shows = None
            self._resize((0, 0))
            gl.glBindFramebuffer(gl.GL_FRAMEBUFFER, window)

    def delete(self) -> None:
        """Free it."""
        gl.glDeleteFramebuffers(1, ctypes.byref(gl.GLuint(self._framebuffer)))
        gl.glDeleteTextures(1, ctypes.byref(gl.GLuint(self._texture)))


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
