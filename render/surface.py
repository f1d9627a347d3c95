"""A multisampled picture that is kept from frame to frame and copied to where it is needed."""

from __future__ import annotations

import ctypes
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager

from pyglet import gl

from render.graphics import generated, integers
from render.region import Region

SAMPLES = 4


class Surface:
    """Colour and depth of one size. Needs a current context."""

    def __init__(self, smooth: bool = True, shown: bool = True) -> None:
        """An empty one; room is made when the size is known. ``smooth`` has several samples a pixel.

        One that is not ``shown`` is only there for others to take over.
        """
        self.size = (0, 0)
        self._framebuffer = self._smoothed = generated(gl.glGenFramebuffers)
        self._buffers = [generated(gl.glGenRenderbuffers) for _ in range(2 + (smooth and shown))]
        if smooth and shown:
            self._smoothed = generated(gl.glGenFramebuffers)
        self.samples = min(SAMPLES, integers(gl.GL_MAX_SAMPLES)[0]) if smooth else 0

    def draw(
        self, size: tuple[int, int], paint: Callable[[], None], regions: Iterable[Region] | None = None
    ) -> None:
        """Have ``paint`` draw with this surface bound; the framebuffer bound before is bound again.

        ``regions`` are all that it draws, when the rest is to stay as it is.
        """
        before = integers(gl.GL_DRAW_FRAMEBUFFER_BINDING)[0]
        gl.glBindFramebuffer(gl.GL_FRAMEBUFFER, self._framebuffer)
        try:
            if size != self.size:
                self._resize(size)
            paint()
            if self._smoothed != self._framebuffer:
                gl.glBindFramebuffer(gl.GL_DRAW_FRAMEBUFFER, self._smoothed)
                for region in ((0, 0, *size),) if regions is None else regions:
                    copy(region, region, self._framebuffer)
        finally:
            gl.glBindFramebuffer(gl.GL_FRAMEBUFFER, before)

    def take_over(self, other: Surface, region: Region) -> None:
        """While this one is drawn: a part of another of the same size and kind, every sample and its depth.

        In two steps, as drivers without a graphics card then copy memory instead of drawing.
        """
        for mask in (gl.GL_COLOR_BUFFER_BIT, gl.GL_DEPTH_BUFFER_BIT):
            copy(region, region, other._framebuffer, mask)

    def _resize(self, size: tuple[int, int]) -> None:
        parts = (
            (self._framebuffer, gl.GL_COLOR_ATTACHMENT0, gl.GL_RGBA8, self.samples),
            (self._framebuffer, gl.GL_DEPTH_ATTACHMENT, gl.GL_DEPTH_COMPONENT24, self.samples),
            (self._smoothed, gl.GL_COLOR_ATTACHMENT0, gl.GL_RGBA8, 0),
        )
        for name, (framebuffer, attachment, kind, samples) in zip(self._buffers, parts, strict=False):
            gl.glBindRenderbuffer(gl.GL_RENDERBUFFER, name)
            gl.glRenderbufferStorageMultisample(gl.GL_RENDERBUFFER, samples, kind, *size)
            gl.glBindFramebuffer(gl.GL_FRAMEBUFFER, framebuffer)
            gl.glFramebufferRenderbuffer(gl.GL_FRAMEBUFFER, attachment, gl.GL_RENDERBUFFER, name)
        gl.glBindRenderbuffer(gl.GL_RENDERBUFFER, 0)
        gl.glBindFramebuffer(gl.GL_FRAMEBUFFER, self._framebuffer)
        self.size = size

    def copy_to(self, viewport: Region) -> None:
        """Copy the smoothed picture into the viewport of the bound framebuffer."""
        copy((0, 0, *viewport[2:]), viewport, self._smoothed)

    def copy_part(self, region: Region) -> None:
        """Copy a part of the smoothed picture to the same place in the bound framebuffer."""
        copy(region, region, self._smoothed)

    def delete(self) -> None:
        """Free it."""
        for name in {self._framebuffer, self._smoothed}:
            gl.glDeleteFramebuffers(1, ctypes.byref(gl.GLuint(name)))
        for name in self._buffers:
            gl.glDeleteRenderbuffers(1, ctypes.byref(gl.GLuint(name)))


def copy(source: Region, target: Region, framebuffer: int, mask: int = gl.GL_COLOR_BUFFER_BIT) -> None:
    """Copy a part of a framebuffer into one of the same size of the framebuffer bound for drawing."""
    corners = [corner for x, y, width, height in (source, target) for corner in (x, y, x + width, y + height)]
    before = integers(gl.GL_READ_FRAMEBUFFER_BINDING)[0]
    gl.glBindFramebuffer(gl.GL_READ_FRAMEBUFFER, framebuffer)
    gl.glBlitFramebuffer(*corners, mask, gl.GL_NEAREST)
    gl.glBindFramebuffer(gl.GL_READ_FRAMEBUFFER, before)


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
