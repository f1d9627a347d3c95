"""By what the system knows the program, played with stand-ins for the system's functions."""

from __future__ import annotations

import ctypes
from types import SimpleNamespace
from typing import Any

import pytest
from PIL import Image

from render.offscreen import shared_context
from render.window.identity import APPLICATION_ID, ICON, introduce, show_icon


def test_windows_is_told_the_id_under_which_the_task_bar_groups_windows(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    introduce()
    given: list[str] = []
    shell = SimpleNamespace(SetCurrentProcessExplicitAppUserModelID=given.append)
    monkeypatch.setattr(ctypes, "windll", SimpleNamespace(shell32=shell), raising=False)
    introduce()
    assert given == [APPLICATION_ID]
    # "AppUserModelIDs": at most 128 characters, no spaces, parts with dots between them.
    assert APPLICATION_ID.isascii()
    assert " " not in APPLICATION_ID
    assert 1 < len(APPLICATION_ID.split(".")) <= 4


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
