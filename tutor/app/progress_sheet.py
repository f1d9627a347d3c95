"""The Progress screen as a picture, as high as all that is on it; drawn without a window."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from tutor.app.folders import config_folder
from tutor.app.requests import RequestError

if TYPE_CHECKING:
    from tutor.progress.summary import Summary
    from tutor.ui.view import View

END = ".png"
WIDTH, PIXEL_RATIO = 1280, 1.5


def sheet_png(view: View) -> bytes:
    """A whole page as a PNG file. Raises RequestError when this machine cannot draw."""
    # Imported here, so that nothing else waits for what drawing needs.
    from render.errors import explain
    from render.picture import page_height, picture_of
    from tutor.publish.stills import png_bytes

    try:
        return png_bytes(picture_of(view, WIDTH, page_height(view, WIDTH), PIXEL_RATIO))
    except Exception as fault:
        if said := explain(fault):
            raise RequestError(str(said)) from fault
        raise


def save_sheet(file: Path, learner: str, summary: Summary, *, force: bool) -> None:
    """Write the Progress screen of a learner as a picture, in the looks chosen in the settings.

    Raises RequestError when the file cannot be written or this machine cannot draw.
    """
    from tutor.app.settings_file import load_settings
    from tutor.publish.files import PublishError, check_target, write_bytes
    from tutor.screens.progress.commands import NAME
    from tutor.screens.progress.view import sheet
    from tutor.screens.table import SCREENS
    from tutor.session.beginning import new_session
    from tutor.session.records.commands import Summarised
    from tutor.session.records.state import Records

    if file.suffix != END:
        raise RequestError(f"{file}: the name of a picture must end in {END}")
    session = replace(
        new_session(SCREENS, load_settings(config_folder()).settings, ()),
        screen=NAME,
        records=Records(learner, (learner,), summarised=Summarised(learner, summary)),
    )
    try:
        check_target(file, force=force)
        write_bytes(file, sheet_png(sheet(session)), force=force)
    except PublishError as fault:
        raise RequestError(str(fault)) from fault
