"""Starting with a window."""

from __future__ import annotations

import argparse
import gc
import logging
import signal
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import Struct

from render.window.window import Port
from tutor.app import words
from tutor.app.ending import SIGNALLED, Ending, on_signals, raise_signalled
from tutor.app.files.folders import TITLE, config_folder, state_folder
from tutor.app.files.log import LogFile, start_log, stop_log
from tutor.app.on_windows import Calls, hear_console_close, real_calls
from tutor.app.terminal import complain, is_heard
from tutor.quoting import visible

if TYPE_CHECKING:
    from tutor.app.application import Application

NO_WINDOW = 2
"""Exit status when no window can be opened here, or what it should show is not there."""
BROKEN_OFF = 1
"""Exit status when the program had to end because of an exception."""


class _Heard:
    """What a signal does that asks the process to end: the window closes as if a person had asked."""

    def __init__(self) -> None:
        self.number = 0
        """The signal's; 0 while there was none."""
        self.close: Callable[[], None] | None = None
        """Closes the window, once there is something to lose."""

    def close_window(self) -> None:
        """Close it, if it is open; any thread may ask."""
        if self.close is not None:
            self.close()

    def __call__(self, number: int) -> None:
        self.number = number
        if self.close is None:
            raise_signalled(number)
        else:
            self.close()


class StartWish(Struct, frozen=True):
    """What the window begins with, as the command line has it: folders, and a list for the board."""

    lessons: Path | None
    board: str | None
    shared: Path | None


def run_window(arguments: argparse.Namespace) -> int:
    """Open the window and stay until it is closed; the exit status."""
    from render.errors import NoWindow

    given = vars(arguments)
    wanted = StartWish(given.get("lessons"), given.get("board"), given.get("shared"))
    if wanted.lessons is not None and (wrong := no_folder(wanted.lessons)):
        complain(wrong)
        return NO_WINDOW
    heard, ending, log = _Heard(), Ending(), start_log(state_folder())
    ending.add(partial(stop_log, log))
    system = real_calls()
    if system is not None:
        hear_console_close(system, ending, heard.close_window)
    with on_signals(heard):
        try:
            _run(wanted, log, ending, heard)
        except NoWindow as problem:
            _say_why(visible(problem), system)
            return NO_WINDOW
        except Exception as error:
            # What comes up once the window is filled is told on a card; this kept it from being filled.
            logging.getLogger(__name__).exception(words.HAD_TO_STOP)
            fault = f"{type(error).__name__}: {error}"
            _say_why(words.had_to_stop(fault, words.more_in_the_log(log.place)), system)
            return BROKEN_OFF
        finally:
            ending.carry_out()
    return SIGNALLED + heard.number if heard.number == signal.SIGINT else 0


def _run(wanted: StartWish, log: LogFile, ending: Ending, heard: _Heard) -> None:
    """Raises NoWindow when no window can be opened here."""
    from render.window.window import Frame, run

    # What a program starts with stays; to look through it for what could be freed only costs time.
    gc.disable()
    ending.add(gc.enable)

    def port() -> Port:
        # Imported only now: the window stands already, and all this takes longer than opening it.
        from render.text.typefaces import check_typefaces
        from tutor.app.compose import WindowPort, make_application
        from tutor.app.files.settings import load_settings
        from tutor.screens.board.commands import ShowOnBoard

        check_typefaces()
        application = make_application(load_settings(config_folder()), wanted.lessons, wanted.shared)
        application.log_place = lambda: log.place
        ending.add(partial(_close, application, log))
        if wanted.board is not None:
            application.give(ShowOnBoard(wanted.board))
        gc.freeze()
        gc.enable()
        joined = WindowPort(application, Frame)
        heard.close = lambda: joined.ask_to_close()
        return joined

    run(port, end=ending.carry_out)


def _say_why(text: str, system: Calls | None) -> None:
    """Say why there is no window, where somebody sees it."""
    complain(text)
    if system is not None and not is_heard():
        system.show_message(text, TITLE)


def _close(application: Application, log: LogFile) -> None:
    """End the services; what they say last of what could not be saved is said where it is seen, too."""
    for notice in application.close():
        logging.getLogger(__name__).warning("%s", notice)
        if log.written:
            complain(notice)


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
