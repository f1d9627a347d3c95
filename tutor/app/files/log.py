"""The program's log: a small file in the user's state folder, which starts with the first warning.

A full file gets a successor, and one full file stays beside it. A log that cannot be written never stops the
program: its lines go to standard error instead.
"""

from __future__ import annotations

import logging
import sys
from errno import EINVAL
from pathlib import Path

from tutor.app.files import words
from tutor.app.terminal import complain
from tutor.plain_file import NOT_A_FILE
from tutor.quoting import visible, visible_lines

FILE = "pairwright.log"
LARGEST = 256 * 1024
"""Bytes of one file."""
KEPT = 1
"""Full files kept beside the one written to."""
_LINE = "%(asctime)s %(levelname)s %(name)s: %(message)s"


class _Visible(logging.Formatter):
    """Keeps a message to one line, whatever it quotes, and makes all that follows visible."""

    def formatMessage(self, record: logging.LogRecord) -> str:  # noqa: N802 - the library's name
        record.message = visible(record.message)
        return super().formatMessage(record)

    def format(self, record: logging.LogRecord) -> str:
        return visible_lines(super().format(record))


class LogFile(logging.Handler):
    """Writes warnings and errors to ``FILE`` in a folder; folder and file are made when the first comes."""

    def __init__(self, folder: Path) -> None:
        """Nothing is touched yet."""
        super().__init__(logging.WARNING)
        self.path = folder / FILE
        self._file: logging.Handler | None = None
        self._reason = ""

    @property
    def place(self) -> str:
        """Where the log is, or why there is none, in words that follow “More about it is in the log: ”."""
        return words.log_unwritten(self._reason) if self._reason else str(self.path)

    @property
    def written(self) -> bool:
        """Whether the latest line went to the file, and not to standard error."""
        return not self._reason

    def emit(self, record: logging.LogRecord) -> None:
        """Write the record; to standard error when that is not possible. Never raises."""
        try:
            if self._file is None:
                self._file = _opened(self.path)
            self._file.handle(record)
            self._reason = ""
        except Exception as error:
            # Whatever keeps a log from being written, a full disk or a record that cannot be told in words.
            self._reason = getattr(error, "strerror", "") or str(error)
            complain(_Visible("%(message)s").format(record))

    def close(self) -> None:
        """Close the file."""
        if self._file is not None:
            self._file.close()
            self._file = None
        super().close()


def start_log(folder: Path) -> LogFile:
    """Send the warnings and errors of this process to the log of a folder."""
    log = LogFile(folder)
    logging.getLogger().addHandler(log)
    return log


def stop_log(log: LogFile) -> None:
    """Undo ``start_log``."""
    logging.getLogger().removeHandler(log)
    log.close()


def _opened(path: Path) -> logging.Handler:
    """The rotating file, with a first line that says what ran. Raises OSError."""
    # Imported here, since a run without a fault needs none of it.
    import platform
    from logging.handlers import RotatingFileHandler

    class Outspoken(RotatingFileHandler):
        """Hands on what the library would print and forget."""

        def handleError(self, record: logging.LogRecord) -> None:  # noqa: ARG002, N802
            raise

        def doRollover(self) -> None:  # noqa: N802
            try:
                super().doRollover()
            except PermissionError:
                # Another window writes to it, and this system renames no open file: it grows for a while.
                self.stream = self._open()

    path.parent.mkdir(parents=True, exist_ok=True)
    if path.is_fifo():
        # Whoever writes to a pipe that nobody reads waits.
        raise OSError(EINVAL, NOT_A_FILE, str(path))
    file = Outspoken(path, maxBytes=LARGEST, backupCount=KEPT, encoding="utf-8", errors="backslashreplace")
    file.setFormatter(_Visible(_LINE))
    system = f"Pairwright {version()}, Python {platform.python_version()}, {platform.platform()}"
    file.handle(logging.LogRecord(__name__, logging.INFO, "", 0, system, None, None))
    return file


def version() -> str:
    """The program's version, or that it runs without having been installed."""
    from importlib import metadata

    try:
        return metadata.version("pairwright")
    except metadata.PackageNotFoundError:
        return f"from {Path(sys.modules['tutor'].__path__[0]).parent}"
