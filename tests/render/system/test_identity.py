"""By what the system knows the program."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

from PIL import Image

from render.offscreen import shared_context
from render.system.identity import ICON, show_icon


def test_the_window_gets_the_icon_the_right_way_up() -> None:
    shared_context()
    import pyglet

    given: list[Any] = []
    show_icon(pyglet, SimpleNamespace(set_icon=given.append))
    with Image.open(ICON) as picture:
        side, rows = picture.width, picture.tobytes()
    # A negative pitch asks the library for the rows from the top (pyglet's ImageData.get_data).
    assert given[0].get_data("RGBA", -4 * side) == rows
    assert picture.size == (256, 256)
