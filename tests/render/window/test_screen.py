"""What is kept from frame to frame must be the very picture that is drawn."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import Any

import numpy as np
import pytest

from render.layout.panels import layout
from render.offscreen import Picture, shared_context
from render.paint.painter import Pointer
from tests.render.sample_views import help_overlay, lesson
from tutor.ui.view import Camera, Face, Turning, View

SIZE = (960, 640)


def drawn(*views: View, smooth: bool | None) -> Picture:
    """The last of the views, drawn after the others, on a framebuffer with one sample a pixel."""

    def paint() -> None:
        from render.window.screen import ViewDrawer
        from render.window.surface import Surface

        screen, surface = ViewDrawer(), Surface(smooth=False)

        def all_views() -> None:
            for view in views:
                screen.draw(view, layout(view, *SIZE), SIZE, 1.0, {}, Pointer(), smooth)

        surface.draw(SIZE, all_views)
        surface.copy_to((0, 0, *SIZE))
        surface.delete()
        screen.delete()

    return shared_context().picture(SIZE, paint)


def turned(view: View, angle: float) -> View:
    assert view.stage is not None
    return replace(view, stage=replace(view.stage, turning=Turning(Face.R, angle)))


@pytest.mark.parametrize(
    "views",
    [
        (turned(lesson(), 0.1), turned(lesson(), 0.5)),
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
        from render.window.surface import Surface

        def count() -> int:
            """How many pictures are kept that are wider than the small window, as OpenGL tells it."""
            wide, width = 0, gl.GLint()
            for name in filter(gl.glIsRenderbuffer, range(4000)):
                gl.glBindRenderbuffer(gl.GL_RENDERBUFFER, name)
                gl.glGetRenderbufferParameteriv(gl.GL_RENDERBUFFER, gl.GL_RENDERBUFFER_WIDTH, width)
                wide += width.value > small[0]
            return wide

        screen, windows = ViewDrawer(), (Surface(smooth=False), Surface(smooth=False))
        windows[0].draw(large, lambda: None)
        kept.append(count())
        views = (lesson(), large), (replace(lesson(), stage=None), small)
        for window, (view, size) in zip(windows, views, strict=True):
            shown = layout(view, *size)
            window.draw(size, partial(screen.draw, view, shown, size, 1.0, {}, Pointer(), True))
            kept.append(count())
        for each in (screen, *windows):
            each.delete()

    shared_context().picture(small, paint)
    before, in_large, in_small = kept
    assert in_large > before
    assert in_small == before
