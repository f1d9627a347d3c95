"""What a window shows first: the picture that was kept of its first screen, until the screen itself is there.

Drawing a screen takes what draws letters and boxes, and all that says what stands in them; a picture takes
nothing but OpenGL. Whoever keeps it must offer it only while it is what the screen will look like.
"""

from __future__ import annotations

import ctypes
import logging
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import partial
from typing import TYPE_CHECKING, Any, Protocol

if TYPE_CHECKING:
    from render.screen import Screen
    from tutor.ui.view import View


_LOG = logging.getLogger(__name__)


class FirstSight(Protocol):
    """Whoever keeps the picture. Sizes are in pixels; pixels are RGB bytes, rows from below, without gaps."""

    def kept(self, size: tuple[int, int], ratio: float) -> bytes | None:
        """The picture for a window of this size and density; None when there is none that fits."""

    def view(self) -> View | None:
        """What the next start will show first; None when that is not known."""

    def keep(self, size: tuple[int, int], ratio: float, pixels: bytes) -> None:
        """Keep this picture for the next start."""


@contextmanager
def _picture(library: Any, size: tuple[int, int], pixels: bytes | None) -> Iterator[int]:
    """A framebuffer object with a picture of this size; freed at the end."""
    gl = library.gl
    texture, framebuffer = gl.GLuint(), gl.GLuint()
    gl.glGenTextures(1, ctypes.byref(texture))
    gl.glGenFramebuffers(1, ctypes.byref(framebuffer))
    try:
        gl.glBindTexture(gl.GL_TEXTURE_2D, texture)
        gl.glPixelStorei(gl.GL_UNPACK_ALIGNMENT, 1)
        gl.glTexImage2D(gl.GL_TEXTURE_2D, 0, gl.GL_RGBA8, *size, 0, gl.GL_RGB, gl.GL_UNSIGNED_BYTE, pixels)
        gl.glPixelStorei(gl.GL_UNPACK_ALIGNMENT, 4)
        gl.glTexParameteri(gl.GL_TEXTURE_2D, gl.GL_TEXTURE_MIN_FILTER, gl.GL_NEAREST)
        gl.glBindTexture(gl.GL_TEXTURE_2D, 0)
        gl.glBindFramebuffer(gl.GL_FRAMEBUFFER, framebuffer)
        gl.glFramebufferTexture2D(gl.GL_FRAMEBUFFER, gl.GL_COLOR_ATTACHMENT0, gl.GL_TEXTURE_2D, texture, 0)
        yield int(framebuffer.value)
    finally:
        gl.glBindFramebuffer(gl.GL_FRAMEBUFFER, 0)
        gl.glDeleteFramebuffers(1, ctypes.byref(framebuffer))
        gl.glDeleteTextures(1, ctypes.byref(texture))


def show_picture(library: Any, size: tuple[int, int], pixels: bytes) -> None:
    """Fill the window's framebuffer with a picture of its size. Needs the window's context."""
    gl = library.gl
    width, height = size
    if len(pixels) != 3 * width * height:
        raise ValueError(f"a picture of {width} x {height} has {3 * width * height} bytes, not {len(pixels)}")
    with _picture(library, size, pixels) as framebuffer:
        gl.glBindFramebuffer(gl.GL_READ_FRAMEBUFFER, framebuffer)
        gl.glBindFramebuffer(gl.GL_DRAW_FRAMEBUFFER, 0)
        gl.glBlitFramebuffer(0, 0, width, height, 0, 0, width, height, gl.GL_COLOR_BUFFER_BIT, gl.GL_NEAREST)


def taken_picture(library: Any, size: tuple[int, int], paint: Callable[[], None]) -> bytes:
    """What ``paint`` draws on a framebuffer of this size. Needs a current context."""
    gl = library.gl
    pixels = ctypes.create_string_buffer(3 * size[0] * size[1])
    with _picture(library, size, None):
        gl.glViewport(0, 0, *size)
        paint()
        gl.glPixelStorei(gl.GL_PACK_ALIGNMENT, 1)
        gl.glReadPixels(0, 0, *size, gl.GL_RGB, gl.GL_UNSIGNED_BYTE, pixels)
        gl.glPixelStorei(gl.GL_PACK_ALIGNMENT, 4)
    return pixels.raw


def show_kept(library: Any, window: Any, first_sight: FirstSight) -> bool:
    """Show the window with the picture that was kept; False, and nothing done, when there is none."""
    size = window.get_framebuffer_size()
    pixels = first_sight.kept(size, max(0.5, float(window.scale)))
    if pixels is None:
        return False
    window.set_visible(True)
    window.switch_to()
    show_picture(library, size, pixels)
    window.flip()
    return True


def take_picture(
    library: Any, screen: Screen, first_sight: FirstSight, size: tuple[int, int], ratio: float
) -> None:
    """Keep a picture of what a window of this size will show first; one that fails is done without."""
    from render.interface import Interface

    try:
        view = first_sight.view()
        if view is None or min(size) < 1:
            return
        shown = Interface()
        scene = shown.show(view, size[0] / ratio, size[1] / ratio, ratio)
        draw = partial(screen.draw, view, scene, size, ratio, shown.scrolls, shown.pointer)
        first_sight.keep(size, ratio, taken_picture(library, size, draw))
    except Exception:
        _LOG.exception("no picture could be taken for the next start")
