"""What is kept from frame to frame must be the very picture that is drawn."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from msgspec.structs import replace

from render.layout.panels import layout
from render.offscreen import Picture, shared_context
from render.paint.painter import Pointer
from render.window.interface import Interface
from tests.render.sample_views import help_overlay, lesson
from tutor.ui.view import Camera, Face, Turning, View

SIZE = (960, 640)


class OneSample:
    """A framebuffer with one sample a pixel, as a window has."""

    def __init__(self, size: tuple[int, int]) -> None:
        from pyglet import gl

        from render.opengl import generated

        self.size, self._before = size, gl.GLint()
        gl.glGetIntegerv(gl.GL_DRAW_FRAMEBUFFER_BINDING, self._before)
        self._name = generated(gl.glGenFramebuffers)
        kinds = (gl.GL_COLOR_ATTACHMENT0, gl.GL_RGBA8), (gl.GL_DEPTH_ATTACHMENT, gl.GL_DEPTH_COMPONENT24)
        self._buffers = [generated(gl.glGenRenderbuffers) for _ in kinds]
        gl.glBindFramebuffer(gl.GL_FRAMEBUFFER, self._name)
        for buffer, (place, kind) in zip(self._buffers, kinds, strict=True):
            gl.glBindRenderbuffer(gl.GL_RENDERBUFFER, buffer)
            gl.glRenderbufferStorage(gl.GL_RENDERBUFFER, kind, *size)
            gl.glFramebufferRenderbuffer(gl.GL_FRAMEBUFFER, place, gl.GL_RENDERBUFFER, buffer)

    def copy(self) -> None:
        """Copy the picture into the framebuffer that was bound before."""
        from pyglet import gl

        whole = (0, 0, *self.size)
        gl.glBindFramebuffer(gl.GL_READ_FRAMEBUFFER, self._name)
        gl.glBindFramebuffer(gl.GL_DRAW_FRAMEBUFFER, self._before.value)
        gl.glBlitFramebuffer(*whole, *whole, gl.GL_COLOR_BUFFER_BIT, gl.GL_NEAREST)

    def delete(self) -> None:
        from pyglet import gl

        gl.glBindFramebuffer(gl.GL_FRAMEBUFFER, self._before.value)
        gl.glDeleteFramebuffers(1, gl.GLuint(self._name))
        for buffer in self._buffers:
            gl.glDeleteRenderbuffers(1, gl.GLuint(buffer))


def drawn(*views: View, smooth: bool | None) -> Picture:
    """The last of the views, drawn after the others, on a framebuffer with one sample a pixel."""

    def paint() -> None:
        from render.window.screen import ViewDrawer

        screen, window, interface = ViewDrawer(), OneSample(SIZE), Interface()
        for view in views:
            screen.draw(view, interface.show(view, *SIZE, 1.0), SIZE, 1.0, {}, Pointer(), smooth)
        window.copy()
        window.delete()
        screen.delete()

    return shared_context().picture(SIZE, paint)


def turned(view: View, angle: float) -> View:
    assert view.stage is not None
    return replace(view, stage=replace(view.stage, turning=Turning(Face.R, angle)))


@pytest.mark.parametrize(
    "views",
    [
        (turned(lesson(), 0.1), turned(lesson(), 0.3), turned(lesson(), 0.5)),
        (turned(lesson(), 0.5), turned(lesson(), 0.5)),
        (lesson(), replace(lesson(), title="Another title")),
        (lesson(), help_overlay()),
        (help_overlay(), lesson()),
    ],
    ids=["a layer turns", "nothing changes", "a word changes", "a sheet comes", "a sheet goes"],
)
def test_what_is_kept_from_frame_to_frame_is_the_picture_drawn_afresh(views: tuple[View, ...]) -> None:
    afresh = drawn(views[-1], smooth=None).astype(int)
    off = np.abs(drawn(*views, smooth=False) - afresh).max(axis=2)
    assert not off.any()


@pytest.mark.parametrize("change", [{"turning": Turning(Face.R, 0.3)}, {"camera": Camera(10, 40, 1.2)}, {}])
def test_a_kept_stage_is_drawn_anew_when_it_changes(change: dict[str, Any]) -> None:
    first = lesson()
    assert first.stage is not None
    then = replace(first, stage=replace(first.stage, **change))
    afresh = drawn(then, smooth=True)
    assert np.array_equal(drawn(first, then, smooth=True), afresh)
    assert np.array_equal(drawn(first, smooth=True), afresh) is not bool(change)


def test_with_several_samples_a_pixel_only_the_stage_differs() -> None:
    view = lesson()
    scene = layout(view, *SIZE)
    assert scene.stage is not None
    differ = (drawn(view, smooth=True) != drawn(view, smooth=None)).any(axis=2)
    assert differ.any()
    outside = np.ones(SIZE[::-1], dtype=bool)
    stage = scene.stage
    outside[round(stage.y) : round(stage.bottom), round(stage.x) : round(stage.right)] = False
    assert not (differ & outside).any()


def test_a_window_that_becomes_smaller_gives_its_memory_back() -> None:
    large, small = (1600, 1200), SIZE
    kept: list[int] = []

    def paint() -> None:
        from pyglet import gl

        from render.window.screen import ViewDrawer

        def count() -> int:
            """How many pictures are kept that are wider than the small window, as OpenGL tells it."""
            wide, width = 0, gl.GLint()
            for name in filter(gl.glIsRenderbuffer, range(4000)):
                gl.glBindRenderbuffer(gl.GL_RENDERBUFFER, name)
                gl.glGetRenderbufferParameteriv(gl.GL_RENDERBUFFER, gl.GL_RENDERBUFFER_WIDTH, width)
                wide += width.value in (large[0], stage_width)
            for name in filter(gl.glIsTexture, range(4000)):
                gl.glBindTexture(gl.GL_TEXTURE_2D, name)
                gl.glGetTexLevelParameteriv(gl.GL_TEXTURE_2D, 0, gl.GL_TEXTURE_WIDTH, width)
                wide += width.value == large[0]
            return wide

        screen, window = ViewDrawer(), OneSample(large)
        scene = layout(lesson(), *large)
        assert scene.stage is not None
        stage_width = round(scene.stage.width)
        kept.append(count())
        for smooth in (True, False, False):
            screen.draw(lesson(), scene, large, 1.0, {}, Pointer(), smooth)
            kept.append(count())
        window.delete()
        alone, window = replace(lesson(), stage=None), OneSample(small)
        screen.draw(alone, layout(alone, *small), small, 1.0, {}, Pointer(), True)
        kept.append(count())
        window.delete()
        screen.delete()

    shared_context().picture(small, paint)
    before, smoothed, moving, still, in_small = kept
    # Colour and depth with several samples and colour with one; the interface; at length all that is still.
    assert (smoothed - before, moving - smoothed, still - moving) == (3, 1, 1)
    # The large window itself is gone, too, which had a colour and a depth.
    assert in_small == before - 2
