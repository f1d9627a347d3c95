"""Opening the window: the library, and a hidden window of it."""

from __future__ import annotations

from typing import Any

from render.errors import explain, no_opengl
from render.system.system import System, system_here

LEAST_SIZE = 960, 640
"""What a layout has at least, in logical px, wherever the screen has so much."""
ROOM = 0.95, 0.9
"""The part of a screen that a window may take: bars of the system have the rest."""


def open_window(title: str, size: tuple[int, int]) -> tuple[Any, Any]:
    """The library and a hidden window of this size in logical px."""
    system = system_here()
    try:
        import pyglet

        pyglet.options.headless = False
        pyglet.options.debug_gl = False
        pyglet.options.dpi_scaling = "scaled"
        # The library's hidden window lends its context to others; here there is only one.
        pyglet.options.shadow_window = system.needs_shadow
        with system.importing():
            import pyglet.app
            import pyglet.window

        window = _make_window(pyglet, system, title, size)
    except BaseException as error:
        # What the library raises over a shader is no Exception.
        told = explain(error)
        if told is None:
            raise
        raise told from error
    # The library's own record is of its hidden window, where it has one, whose version may be another.
    found = tuple(window.context.get_info().get_version()[:2])
    if found < (3, 3):
        window.close()
        raise no_opengl(".".join(map(str, found)))
    return pyglet, window


def _make_window(library: Any, system: System, title: str, size: tuple[int, int]) -> Any:
    """A window with one sample a pixel: the stage has its own surface with more, text needs none."""
    config = library.gl.Config(
        double_buffer=True, depth_size=24, major_version=3, minor_version=3, forward_compatible=True
    )
    screen = _main_screen(library.display.get_display())
    dense = 1.0 if system.sizes_in_points else max(1.0, float(screen.get_scale()))
    room = ROOM[0] * screen.width / dense, ROOM[1] * screen.height / dense
    size = min(size[0], int(room[0])), min(size[1], int(room[1]))
    window = library.window.Window(
        *size, caption=title, resizable=True, visible=False, config=config, screen=screen
    )
    keep_least_size(window, screen, system)
    return window


def keep_least_size(window: Any, screen: Any, system: System) -> None:
    """Keep a window from being made too small, as far as its screen is large enough."""
    scale = 1.0 if system.sizes_in_points else max(0.5, float(window.scale))
    window.set_minimum_size(*least_size((screen.width, screen.height), scale))


def least_size(screen: tuple[float, float], scale: float) -> tuple[int, int]:
    """The least size of a window in pixels, on a screen of this many: never larger than fits on it."""
    across, down = (
        min(least * scale, part * side) for least, part, side in zip(LEAST_SIZE, ROOM, screen, strict=True)
    )
    return round(across), round(down)


def _main_screen(display: Any) -> Any:
    """The screen to open on; without the extension RANDR the library cannot tell which one is the main."""
    try:
        return display.get_default_screen()
    except AttributeError:
        return display.get_screens()[0]
