"""What keeps a window from opening, said in words with the way to help it."""

from __future__ import annotations

import os
import re

from render import words
from render.system.system import system_here


class NoWindow(ValueError):  # noqa: N818 - it says what is the case, and is shown to people
    """No window can be opened here; the message names what is missing and how to get it."""


class NoDisplay(NoWindow):
    """There is no screen here to open a window on; all that needs none works."""


_PACKAGES = {
    "GL": "libgl1",
    "GLU": "libglu1-mesa",
    "X11": "libx11-6",
    "Xext": "libxext6",
    "EGL": "libegl1",
}
_MISSING_LIBRARY = re.compile(r'Library "(\w+)" not found')
_TOO_OLD = frozenset(
    (
        "NoSuchConfigException",
        "ContextException",
        "ConfigException",
        "MissingFunctionException",
        "ShaderException",
        "ShaderError",
    )
)
"""Exceptions of the library, and of shaders that a driver with an old language refuses."""
_VERSION = re.compile(r"\d+\.\d+")


def no_display() -> NoDisplay:
    """There is nothing to open a window on."""
    named = os.environ.get("DISPLAY", "")
    where = words.display_refused(named) if named else words.DISPLAY_NOT_SET
    if system_here().name != words.LINUX:
        where = words.NO_SCREEN
    return NoDisplay(words.no_display(where, system_here().name))


def no_opengl(offered: str = "") -> NoWindow:
    """The graphics driver is too old, or there is none."""
    return NoWindow(words.no_opengl(offered, system_here().name))


def no_library(name: str) -> NoWindow:
    """A system library is missing."""
    return NoWindow(words.no_library(name, _PACKAGES.get(name, f"lib{name.lower()}"), system_here().name))


def no_typefaces(reason: str) -> NoWindow:
    """Nothing can be written in the window."""
    return NoWindow(words.no_typefaces(reason))


def explain(error: BaseException) -> NoWindow | None:
    """The message for an exception raised while opening a window; None when it means something else.

    Exceptions are told apart by their names, since the library that raises them may not have been importable.
    """
    library = _MISSING_LIBRARY.search(str(error))
    if library:
        return no_library(library.group(1))
    names = {kind.__name__ for kind in type(error).__mro__}
    if "NoSuchDisplayException" in names:
        return no_display()
    if names & _TOO_OLD:
        version = None if "Shader" in type(error).__name__ else _VERSION.search(str(error))
        return no_opengl(version.group() if version else "")
    return None
