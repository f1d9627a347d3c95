"""Starting with a window: first the window, so that something is seen, then everything that fills it."""

from __future__ import annotations

import argparse
import sys
import tomllib
from contextlib import ExitStack
from pathlib import Path
from typing import TYPE_CHECKING

from tutor.app.folders import config_folder

if TYPE_CHECKING:
    from render.window import Port

NO_WINDOW = 2
"""Exit status when no window can be opened here."""


def run_window(arguments: argparse.Namespace) -> int:
    """Open the window and stay until it is closed; the exit status."""
    from render.errors import NoWindow
    from render.window import Frame, run

    folder: Path | None = getattr(arguments, "lessons", None)
    with ExitStack() as ending:

        def port() -> Port:
            # Imported only now: the window stands already, and all this takes longer than opening it.
            from tutor.app.compose import WindowPort, make_application
            from tutor.app.settings_file import load_settings

            application = make_application(load_settings(config_folder()), folder)
            ending.callback(application.close)
            return WindowPort(application, Frame)

        try:
            run(port, theme=first_theme(config_folder()))
        except NoWindow as problem:
            print(problem, file=sys.stderr)
            return NO_WINDOW
    return 0


def first_theme(folder: Path) -> str:
    """The theme of the empty window, read without all that checks the settings; light when in any doubt."""
    try:
        settings = tomllib.loads((folder / "settings.toml").read_text("utf-8"))
        return "dark" if settings["look"]["theme"] == "dark" else "light"
    except (OSError, ValueError, KeyError, TypeError, RecursionError):
        return "light"
