"""What the picture says, and what is said when this machine cannot draw or a theme is wrong, in English."""

from __future__ import annotations

from collections.abc import Sequence

from tutor.cube.faces import Face
from tutor.cube.words import SIDES

# ---------------------------------------------------------------------------------------- in the picture

FACES = {**SIDES, Face.D: "below"}
"""Where each face is on the cube as held, for the mirrors' labels."""
SLOT_HERE = "slot here"


def step_of(number: int, count: int) -> str:
    """Which of the steps is under way."""
    return f"{number} of {count}"


# -------------------------------------------------------------------------------------- what a window needs

LIBRARIES = {
    "GL": "OpenGL",
    "GLU": "OpenGL's utilities",
    "X11": "the X window system",
    "Xext": "the X window system",
    "EGL": "OpenGL without a display",
}
"""System libraries, and what each is for."""

NO_SCREEN = "the system offers no screen"
DISPLAY_NOT_SET = "DISPLAY is not set"


def display_refused(name: str) -> str:
    """The display that the environment names does not open."""
    return f"the program cannot open the display {name!r}"


LINUX, WINDOWS, MAC = "linux", "win32", "darwin"
"""Systems by Python's names; each has remedies of its own."""


def no_display(where: str, system: str) -> str:
    """There is nothing to open a window on."""
    told = f"There is no display for the window: {where}. Start the program in a desktop session"
    virtual = ", or give it a virtual display with xvfb-run (Debian's package xvfb)"
    return f"{told}{virtual if system == LINUX else ''}."


_DRIVER_REMEDIES = {
    LINUX: "Install a newer graphics driver. On Debian, libgl1-mesa-dri draws without a graphics card.",
    WINDOWS: "Install the newest driver of your graphics card. "
    "A remote desktop may offer less than the computer: then start the program at the computer itself.",
}
_NEWER_DRIVER = "Install a newer graphics driver."


def no_opengl(offered: str, system: str) -> str:
    """The graphics driver is too old, or there is none."""
    found = f"; the driver here offers {offered}" if offered else ""
    return f"The program needs OpenGL 3.3{found}. {_DRIVER_REMEDIES.get(system, _NEWER_DRIVER)}"


def no_library(name: str, package: str, system: str) -> str:
    """A system library is missing."""
    missing = f"The library for {LIBRARIES.get(name, name)} ({name}) is not installed."
    remedy = f"On Debian, install the package {package}." if system == LINUX else _NEWER_DRIVER
    return f"{missing} {remedy}"


def no_typefaces(reason: str) -> str:
    """Nothing can be written in the window."""
    return (
        f"The program cannot use its fonts ({reason}). Install them again: "
        "pip install --force-reinstall font-source-sans-pro font-source-serif-pro"
    )


NO_CHARACTER_MAP = "a font has no character map of format 4 for Unicode"

# ------------------------------------------------------------------------------------- what can be drawn


def picture_size(width: int, height: int, limit: int) -> str:
    """A picture of no size, or one too large."""
    return f"the program cannot draw a picture of {width} by {height}; choose sides from 1 to {limit}"


def picture_refused(width: int, height: int, status: int) -> str:
    """The driver has no room for a picture."""
    return f"the graphics driver refuses a picture of {width} by {height}: {status:#x}"


# ------------------------------------------------------------------------------------ themes and palettes


def not_a_colour(value: object, *, alpha: bool) -> str:
    """An entry that should be a colour."""
    forms = "'#rrggbb' or '#rrggbbaa'" if alpha else "'#rrggbb'"
    return f"{value!r} is not a colour; write it as {forms}"


def no_theme(name: str, names: Sequence[str]) -> str:
    """A theme that does not exist."""
    return f"there is no theme {name!r}; choose one of {', '.join(names)}"


def wrong_theme(name: str, reason: str) -> str:
    """A theme whose file has a mistake."""
    return f"theme {name!r}: {reason}"


def no_palette(name: str, names: Sequence[str]) -> str:
    """A palette that does not exist."""
    return f"there is no palette {name!r}; choose one of {', '.join(names)}"


def wrong_palette(name: str, reason: str) -> str:
    """A palette whose file has a mistake."""
    return f"palette {name!r}: {reason}"


# ---------------------------------------------------------------------------------------------- in the log

ERROR_NOT_SHOWN = "the window could not show an error"
ENDED_BADLY = "the program could not end in order"

# ------------------------------------------------- in the menu of a Mac, and where Windows waits at log-off

PROGRAM = "Pairwright"
HIDE = f"Hide {PROGRAM}"
QUIT = f"Quit {PROGRAM}"
SAVING = f"{PROGRAM} is saving your work."
