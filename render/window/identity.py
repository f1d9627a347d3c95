"""By what the system knows the program: its icon, and an id that tells it from others of the same Python."""

from __future__ import annotations

import ctypes
from importlib.resources import files
from pathlib import Path
from typing import Any

APPLICATION_ID = "pairwright.tutor"
"""The same in a bundle, where the recipe gives it."""
ICON = Path(str(files("assets"))) / "icon.png"


def introduce() -> None:
    """Give the process its id, before it has a window: the task bar of Windows would show Python's icon."""
    windows = getattr(ctypes, "windll", None)
    if windows is not None:
        windows.shell32.SetCurrentProcessExplicitAppUserModelID(APPLICATION_ID)


def show_icon(library: Any, window: Any) -> None:
    """Give the window its icon; a Mac shows it in the Dock."""
    from PIL import Image

    with Image.open(ICON) as picture:
        upside_down = picture.transpose(Image.Transpose.FLIP_TOP_BOTTOM)
        window.set_icon(library.image.ImageData(*picture.size, "RGBA", upside_down.tobytes()))
