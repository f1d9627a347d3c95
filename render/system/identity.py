"""By what a system knows the program: its icon, and an id that tells it from others of the same Python."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path
from typing import Any

APPLICATION_ID = "pairwright.tutor"
"""The same in a bundle, where the recipe gives it."""
ICON = Path(str(files("assets"))) / "icon.png"


def show_icon(library: Any, window: Any) -> None:
    """Give the window its icon; a Mac shows it in the Dock."""
    from PIL import Image

    with Image.open(ICON) as picture:
        upside_down = picture.transpose(Image.Transpose.FLIP_TOP_BOTTOM)
        window.set_icon(library.image.ImageData(*picture.size, "RGBA", upside_down.tobytes()))
