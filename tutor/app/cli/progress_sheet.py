"""The Progress screen as a picture, high enough to show all of it; drawn without a window."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from msgspec.structs import replace

from tutor.app.cli.task_request import RequestError
from tutor.app.cli.words import progress as words
from tutor.app.drawing import page_png
from tutor.app.files.folders import config_folder

if TYPE_CHECKING:
    from tutor.progress.summary import Summary

END = ".png"


def save_sheet(file: Path, learner: str, summary: Summary, *, force: bool) -> None:
    """Write the Progress screen of a learner as a picture, in the looks chosen in the settings.

    Raises RequestError when the file cannot be written, CannotDrawError when this machine cannot draw.
    """
    from tutor.app.files.settings import load_settings
    from tutor.publish.files import PublishError, check_target, write_bytes
    from tutor.screens.progress.commands import NAME
    from tutor.screens.progress.view import sheet
    from tutor.screens.table import SCREENS
    from tutor.session.beginning import new_session
    from tutor.session.learner_records import Records
    from tutor.session.record_commands import Summarised

    if file.suffix != END:
        raise RequestError(words.no_picture_form(file, END))
    session = replace(
        new_session(SCREENS, load_settings(config_folder()).settings, ()),
        screen=NAME,
        records=Records(learner, (learner,), summarised=Summarised(learner, summary)),
    )
    try:
        check_target(file, force=force)
        write_bytes(file, page_png(sheet(session)), force=force)
    except PublishError as fault:
        raise RequestError(str(fault)) from fault
