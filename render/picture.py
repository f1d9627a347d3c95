"""A whole view as a picture, drawn without a window: for tests, for documents, for looking at."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from math import ceil
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from render.layout.boxes import WindowPart
from render.layout.panels import layout
from render.offscreen import shared_context
from render.paint.painter import Pointer
from tutor.ui.view import View

if TYPE_CHECKING:
    from render.window.screen import ViewDrawer


@cache
def _shared_screen() -> ViewDrawer:
    with shared_context().current():
        from render.window.screen import ViewDrawer

        return ViewDrawer()


def picture_of(
    view: View,
    width: int = 1280,
    height: int = 800,
    pixel_ratio: float = 1.0,
    scrolls: Mapping[WindowPart, float] | None = None,
    pointer: Pointer | None = None,
) -> NDArray[np.uint8]:
    """The view in a window of ``width`` x ``height`` logical px, as sRGB with alpha, rows from the top.

    The picture has ``pixel_ratio`` as many pixels each way. Raises OffscreenError when the size is not
    possible, ThemeError or PaletteError when the view's look names what does not exist.
    """
    size = round(width * pixel_ratio), round(height * pixel_ratio)
    scene = layout(view, width, height, pixel_ratio)
    screen = _shared_screen()
    return shared_context().picture(
        size, lambda: screen.draw(view, scene, size, pixel_ratio, scrolls or {}, pointer or Pointer())
    )


def page_height(view: View, width: int) -> int:
    """How high a window of this width must be so that nothing of the view's page has to be scrolled."""
    page = layout(view, width, 1e5).panel(WindowPart.PAGE)
    return ceil(page.rect.y + page.content) if page is not None else 0
