"""Starting with a window."""

from __future__ import annotations

import argparse
import gc
import logging
import sys
from contextlib import ExitStack
from pathlib import Path

from render.window.window import Port
from tutor.app import words
from tutor.app.files.folders import config_folder, state_folder
from tutor.app.files.log import LogFile, start_log, stop_log

NO_WINDOW = 2
"""Exit status when no window can be opened here, or what it should show is not there."""
BROKEN_OFF = 1
"""Exit status when the program had to end because of an exception."""


def run_window(arguments: argparse.Namespace) -> int:
    """Open the window and stay until it is closed; the exit status."""
    from render.errors import NoWindow

    folder: Path | None = getattr(arguments, "lessons", None)
    board: str | None = getattr(arguments, "board", None)
    shared: Path | None = getattr(arguments, "shared", None)
    if folder is not None and (wrong := no_folder(folder)):
        print(wrong, file=sys.stderr)
        return NO_WINDOW
    log = start_log(state_folder())
    try:
        _run(folder, board, shared, log)
    except NoWindow as problem:
        print(problem, file=sys.stderr)
        return NO_WINDOW
    except Exception as error:
        # What comes up once the window is filled is told on a card; this is what kept it from being filled.
        logging.getLogger(__name__).exception(words.HAD_TO_STOP)
        fault = f"{type(error).__name__}: {error}"
        print(words.had_to_stop(fault, words.more_in_the_log(log.place)), file=sys.stderr)
        return BROKEN_OFF
    finally:
        stop_log(log)
    return 0


def _run(folder: Path | None, board: str | None, shared: Path | None, log: LogFile) -> None:
    """Raises NoWindow when no window can be opened here."""
    from render.window.window import Frame, run

    with ExitStack() as ending:
        # What a program starts with stays; to look through it for what could be freed only costs time.
        gc.disable()
        ending.callback(gc.enable)

        def port() -> Port:
            # Imported only now: the window stands already, and all this takes longer than opening it.
            from render.text.typefaces import check_typefaces
            from tutor.app.compose import WindowPort, make_application
            from tutor.app.files.settings import load_settings
            from tutor.screens.board.commands import ShowOnBoard

            check_typefaces()
            application = make_application(load_settings(config_folder()), folder, shared)
            application.log_place = lambda: log.place
            ending.callback(application.close)
            if board is not None:
                application.give(ShowOnBoard(board))
            gc.freeze()
            gc.enable()
            return WindowPort(application, Frame)

        run(port)


def no_folder(folder: Path) -> str:
    """Why lessons cannot be looked for in a folder, with what would be right; empty when they can."""
    try:
        next(folder.iterdir(), None)
    except FileNotFoundError:
        return words.no_folder(folder)
    except NotADirectoryError:
        return words.not_a_folder(folder)
    except OSError as error:
        return words.unreadable_folder(folder, error.strerror or str(error))
    return ""
