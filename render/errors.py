"""What keeps a window from opening, said in one sentence with the way to help it."""

from __future__ import annotations

import os
import re
import sys


class NoWindow(ValueError):  # noqa: N818 - it says what is the case, and is shown to people
    """No window can be opened here; the message names what is missing and how to get it."""


class NoDisplay(NoWindow):
    """There is no screen here to open a window on; all that needs none works."""


_LIBRARIES = {
    "GL": ("OpenGL", "libgl1"),
    "GLU": ("OpenGL's utilities", "libglu1-mesa"),
    "X11": ("the X window system", "libx11-6"),
    "Xext": ("the X window system", "libxext6"),
    "EGL": ("OpenGL without a display", "libegl1"),
}
_MISSING_LIBRARY = re.compile(r'Library "(\w+)" not found')
_VERSION = re.compile(r"\d+\.\d+")


def no_display() -> NoDisplay:
    """There is nothing to open a window on."""
    named = os.environ.get("DISPLAY", "")
    where = f"the display {named!r} cannot be opened" if named else "DISPLAY is not set"
    if not sys.platform.startswith("linux"):
        where = "the system offers no screen"
    return NoDisplay(
        f"There is no display for the window: {where}. Start the program in a desktop session, "
        "or give it a virtual display (Debian's package xvfb has one: xvfb-run)."
    )


def no_opengl(offered: str = "") -> NoWindow:
    """The graphics driver is too old, or there is none."""
    found = f"; the driver here offers {offered}" if offered else ""
    return NoWindow(
        f"The window needs OpenGL 3.3{found}. Install a graphics driver that has it "
        "(on Debian libgl1-mesa-dri draws without a graphics card)."
    )


def no_library(name: str) -> NoWindow:
    """A system library is missing."""
    what, package = _LIBRARIES.get(name, (name, f"lib{name.lower()}"))
    return NoWindow(f"The library for {what} ({name}) is not installed; Debian's package {package} has it.")


def no_typefaces(reason: str) -> NoWindow:
    """Nothing can be written in the window."""
    return NoWindow(
        f"The typefaces of the window cannot be used ({reason}). Install them anew: "
        "pip install --force-reinstall font-source-sans-pro font-source-serif-pro"
    )


def explain(error: Exception) -> NoWindow | None:
    """The sentence for an exception raised while opening a window; None when it means something else.

    Exceptions are told apart by their names, since the library that raises them may not have been importable.
    """
    library = _MISSING_LIBRARY.search(str(error))
    if library:
        return no_library(library.group(1))
    names = {kind.__name__ for kind in type(error).__mro__}
    if "NoSuchDisplayException" in names:
        return no_display()
    if names & {"NoSuchConfigException", "ContextException", "ConfigException", "MissingFunctionException"}:
        version = _VERSION.search(str(error))
        return no_opengl(version.group() if version else "")
    return None
