"""Starting with a window: first the window, so that something is seen, then everything that fills it."""

from __future__ import annotations

import argparse
import sys
from contextlib import ExitStack
from pathlib import Path
from typing import TYPE_CHECKING

from tutor.app.folders import config_folder
from tutor.app.settings_file import load_settings

if TYPE_CHECKING:
    from render.window import Port

NO_WINDOW = 2
"""Exit status when no window can be opened here."""


def run_window(arguments: argparse.Namespace) -> int:
    """Open the window and stay until it is closed; the exit status."""
    from render.errors import NoWindow
    from render.window import Frame, run

    loaded = load_settings(config_folder())
    folder: Path | None = getattr(arguments, "lessons", None)
    with ExitStack() as ending:

        def port() -> Port:
            # Imported only now: the window stands already, and all this takes as long again.
            from tutor.app.compose import WindowPort, make_application

            application = make_application(loaded, folder)
            ending.callback(application.close)
            return WindowPort(application, Frame)

        try:
            run(port, theme=loaded.settings.look.theme)
        except NoWindow as problem:
            print(problem, file=sys.stderr)
            return NO_WINDOW
    return 0
