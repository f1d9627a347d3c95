"""Starting with a window: first the window, so that something is seen, then everything that fills it."""

from __future__ import annotations

import argparse
import gc
import logging
import sys
import tomllib
from contextlib import ExitStack
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from tutor.app.files.folders import config_folder, state_folder
from tutor.app.files.log import LogFile, start_log, stop_log
from tutor.app.first_sight_file import HomeInSight

if TYPE_CHECKING:
    from render.window import Port

NO_WINDOW = 2
"""Exit status when no window can be opened here, or what it should show is not there."""
_FIRST_LOOK, _FIRST_LINE = 64 * 1024, 200
"""Characters of the settings, and of a line, that are read before all else."""
BROKEN_OFF = 1
"""Exit status when the program had to end because of an exception."""


def run_window(arguments: argparse.Namespace) -> int:
    """Open the window and stay until it is closed; the exit status."""
    from render.errors import NoWindow

    folder: Path | None = getattr(arguments, "lessons", None)
    if folder is not None and (wrong := no_folder(folder)):
        print(wrong, file=sys.stderr)
        return NO_WINDOW
    log = start_log(state_folder())
    try:
        _run(folder, log)
    except NoWindow as problem:
        print(problem, file=sys.stderr)
        return NO_WINDOW
    except Exception as error:
        # What comes up once the window is filled is told on a card; this is what kept it from being filled.
        logging.getLogger(__name__).exception("the program had to end")
        told = f"{type(error).__name__}: {error}"
        print(f"The program had to end ({told}). More about it is in the log: {log.place}", file=sys.stderr)
        return BROKEN_OFF
    finally:
        stop_log(log)
    return 0


def _run(folder: Path | None, log: LogFile) -> None:
    """Raises NoWindow when no window can be opened here."""
    from render.window import Frame, run

    home = HomeInSight(state_folder(), partial(shown_on_home, folder))
    with ExitStack() as ending:
        # What a program starts with stays; to look through it for what could be freed only costs time.
        gc.disable()
        ending.callback(gc.enable)
        # The last to be done, when settings and places have been written.
        ending.callback(home.write)

        def port() -> Port:
            # Imported only now: the window stands already, and all this takes longer than opening it.
            from render.fonts import check_typefaces
            from tutor.app.compose import WindowPort, make_application
            from tutor.app.files.settings import load_settings

            check_typefaces()
            application = make_application(load_settings(config_folder()), folder)
            application.log_place = lambda: log.place
            ending.callback(application.close)
            gc.freeze()
            gc.enable()
            return WindowPort(application, Frame)

        run(port, theme=first_theme(config_folder()), first_sight=home)


def shown_on_home(folder: Path | None) -> tuple[Path, ...]:
    """The files that decide what Home looks like; ``folder`` holds a teacher's own lessons."""
    own = sorted(folder.glob("*.toml")) if folder is not None else []
    settings, places = config_folder() / "settings.toml", state_folder() / "places.json"
    return settings, places, Path(__file__), *own


def no_folder(folder: Path) -> str:
    """Why lessons cannot be looked for in a folder, with what would be right; empty when they can."""
    advice = "“--lessons” wants a folder that holds lesson scripts, such as my-lessons"
    try:
        next(folder.iterdir(), None)
    except FileNotFoundError:
        return f"There is no folder {folder}; {advice}"
    except NotADirectoryError:
        return f"{folder} is no folder; {advice}"
    except OSError as error:
        return f"The folder {folder} cannot be read ({error.strerror}); {advice}"
    return ""


def first_theme(folder: Path) -> str:
    """The theme of the empty window, read without all that checks the settings; light when in any doubt."""
    try:
        with (folder / "settings.toml").open(encoding="utf-8") as file:
            # No more than stands in settings that can be used, however large the file is.
            lines = file.read(_FIRST_LOOK).splitlines()
        settings = tomllib.loads("\n".join(line for line in lines if len(line) <= _FIRST_LINE))
        return "dark" if settings["look"]["theme"] == "dark" else "light"
    except (OSError, ValueError, KeyError, TypeError, RecursionError):
        return "light"
