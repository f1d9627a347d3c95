"""What OpenGL offers here, tried in a process of its own, since a broken driver may end the process.

``python -m tutor.app.checkup.graphics_probe window|picture`` opens a hidden window, or draws without one, and
prints a JSON object: the fields of ``Graphics``.
"""

from __future__ import annotations

import json
import signal
import subprocess
import sys
from typing import Any

from msgspec import Struct
from msgspec.structs import asdict

from tutor.app.checkup import words

PATIENCE = 60.0
"""Seconds a slow machine may take."""
_WINDOWS_FAULT = 0xC0000000
"""From here on an exit status is the exception that ended a process on Windows: 0xC0000005 is an access
violation (ntstatus.h). There are no signals."""
WINDOW, PICTURE = "window", "picture"


class Graphics(Struct, frozen=True):
    """The driver's version and name, or, with neither, the problem in words.

    ``no_display``: the problem is that there is no screen here, which is no fault of driver or program.
    """

    version: str = ""
    renderer: str = ""
    problem: str = ""
    no_display: bool = False


def probe(kind: str) -> Graphics:
    """What a process of its own finds out about windows (``WINDOW``) or pictures (``PICTURE``)."""
    command = [sys.executable, "-m", __name__, kind]
    try:
        done = subprocess.run(
            command,
            capture_output=True,
            encoding="utf-8",
            errors="replace",
            timeout=PATIENCE,
            check=False,
            creationflags=getattr(subprocess, "CREATE_NO_WINDOW", 0),
        )
    except subprocess.TimeoutExpired:
        return Graphics(problem=words.no_reply(PATIENCE))
    except OSError as error:
        return Graphics(problem=words.no_process(error.strerror or str(error)))
    return read_told(done.returncode, done.stdout, done.stderr)


def read_told(status: int, told: str, complained: str) -> Graphics:
    """What a probe found, from its exit status and its two outputs."""
    if status < 0:
        return Graphics(problem=words.driver_crashed(_signal_name(-status)))
    if status >= _WINDOWS_FAULT:
        return Graphics(problem=words.driver_crashed(f"{status:#x}"))
    try:
        return Graphics(**json.loads(told.splitlines()[-1]))
    except (IndexError, ValueError, TypeError):
        last = (complained.strip().splitlines() or [words.NO_REASON])[-1]
        return Graphics(problem=words.not_tried(last))


def _signal_name(number: int) -> str:
    try:
        return signal.Signals(number).name
    except ValueError:
        return words.nth_signal(number)


def _tried(kind: str) -> Graphics:
    """Try it in this process. Raises what the library raises."""
    if kind == WINDOW:
        from render.system.system import system_here
        from render.window.opening import open_window

        _, window = open_window("Pairwright", (64, 64))
        system_here().draw_only()
        return _offered(window)
    from render.offscreen import OffscreenContext

    drawn = OffscreenContext()
    found = _offered(drawn.window)
    drawn.delete()
    return found


def _offered(window: Any) -> Graphics:
    information = window.context.get_info()
    version = ".".join(str(part) for part in information.get_version()[:2])
    return Graphics(version, str(information.get_renderer()))


def main(arguments: list[str]) -> int:
    """Print what was found."""
    from render.errors import NoDisplay, NoWindow, explain

    try:
        found = _tried(arguments[0])
    except NoWindow as problem:
        found = Graphics(problem=str(problem), no_display=isinstance(problem, NoDisplay))
    except Exception as error:
        told = explain(error)
        found = Graphics(problem=str(told) if told else f"{type(error).__name__}: {error}")
    print(json.dumps(asdict(found)))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
