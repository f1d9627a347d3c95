"""Pictures drawn with the renderer, without a window, for commands and for what is saved in the window.

What drawing needs is imported when something is drawn, so that nothing else needs it or waits for it.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from tutor.quoting import ToldError
from tutor.ui.view import Look, Stage, View
from tutor.workers.saving import DrawingFunctions

if TYPE_CHECKING:
    from render.theme import Colour
    from tutor.publish.lettering import Ink, Inks
    from tutor.publish.printing import StickerInks
    from tutor.publish.subject import Ground, Pixels

PAGE_WIDTH, PIXEL_RATIO = 1280, 1.5


class CannotDrawError(ToldError):
    """This machine cannot draw; the message says why, and what would help."""


@contextmanager
def _explained() -> Iterator[None]:
    """Turn an exception that says this machine cannot draw into one with words."""
    from render.errors import explain

    try:
        yield
    except BaseException as fault:
        # What the library raises over a shader is no Exception.
        if said := explain(fault):
            raise CannotDrawError(str(said)) from fault
        raise


def page_png(view: View) -> bytes:
    """A whole page as a PNG file, as high as all that is on it. Raises CannotDrawError."""
    with _explained():
        from render.picture import page_height, picture_of
        from tutor.publish.stills import png_bytes

        return png_bytes(picture_of(view, PAGE_WIDTH, page_height(view, PAGE_WIDTH), PIXEL_RATIO))


def draw_stage(stage: Stage, look: Look, size: tuple[int, int], ground: Ground | None) -> Pixels:
    """A stage on its own ground or on this one. Raises CannotDrawError."""
    with _explained():
        import msgspec

        from render.offscreen import render_stage
        from render.theme import Colour, load_theme

        if ground is None:
            return render_stage(stage, look, size)
        colour = Colour((*(channel / 255 for channel in ground), 1.0))
        theme = msgspec.structs.replace(load_theme(look.theme).stage, background=colour, ground=colour)
        return render_stage(stage, look, size, theme)


def inks_of(theme: str) -> Inks:
    """The colours of paper and text in a theme."""
    from render.theme import load_theme
    from tutor.publish.lettering import Inks

    read = load_theme(theme)
    return Inks(
        background=_ink(read.stage.background),
        ground=_ink(read.ground),
        tile=_ink(read.raised),
        line=_ink(read.line),
        text=_ink(read.text),
        muted=_ink(read.muted),
        accent=_ink(read.accent),
        accent_text=_ink(read.accent_text),
        slip=_ink(read.warning),
    )


def sticker_inks(palette: str) -> StickerInks:
    """The colours of the stickers in a palette, in the order of Face."""
    from render.stage.palette import load_palette

    return tuple(_ink(colour) for colour in load_palette(palette).stickers)


def _ink(colour: Colour) -> Ink:
    red, green, blue = (round(255 * channel) for channel in colour.rgb)
    return red, green, blue


DRAWING = DrawingFunctions(draw_stage, inks_of, page_png)
"""For processes that draw."""
