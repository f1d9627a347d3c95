from __future__ import annotations

import os
import subprocess
import sys

import pytest

from render.errors import NoWindow, explain, no_display, no_opengl

PROGRAM = """
import sys
from render.errors import NoWindow
from render.window.window import run
try:
    run(None)
except NoWindow as missing:
    sys.exit(f"{missing}")
"""


def test_without_a_display_one_sentence_says_so() -> None:
    hidden = ("DISPLAY", "WAYLAND_DISPLAY")
    environment = {name: value for name, value in os.environ.items() if name not in hidden}
    done = subprocess.run(
        [sys.executable, "-c", PROGRAM], env=environment, capture_output=True, text=True, check=False
    )
    assert done.returncode == 1
    assert "DISPLAY is not set" in done.stderr
    assert "xvfb" in done.stderr
    assert "Traceback" not in done.stderr


def test_a_display_that_is_not_there_is_named() -> None:
    done = subprocess.run(
        [sys.executable, "-c", PROGRAM],
        env={**os.environ, "DISPLAY": ":987"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 1
    assert "':987'" in done.stderr


def test_nothing_that_opens_windows_is_imported_before_one_is_opened() -> None:
    code = "import sys, render.window.window; sys.exit('pyglet' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


@pytest.mark.parametrize(("library", "package"), [("GL", "libgl1"), ("X11", "libx11-6"), ("EGL", "libegl1")])
def test_a_missing_library_is_named_with_its_package(library: str, package: str) -> None:
    told = explain(ImportError(f'Library "{library}" not found.'))
    assert told is not None
    assert package in str(told)


def test_an_old_driver_is_told_with_what_it_offers() -> None:
    # The window library's own exception is told by its name, since the library may be missing.
    refused = type("NoSuchConfigException", (Exception,), {})
    told = explain(refused("no config"))
    assert told is not None
    assert "OpenGL 3.3" in str(told)
    assert "offers 2.1" in str(no_opengl("2.1"))


def test_other_exceptions_are_left_alone() -> None:
    # What the library and our own shaders raise over a driver whose language is too old.
    for name in ("ShaderException", "ShaderError"):
        assert str(explain(type(name, (BaseException,), {})("0:1(10): error: GLSL 3.30"))) == str(no_opengl())
    assert explain(KeyError("bay")) is None


def test_every_message_is_a_value_error_of_one_type() -> None:
    assert isinstance(no_display(), NoWindow)
    assert isinstance(no_display(), ValueError)
