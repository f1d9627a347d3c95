"""``python -m tutor``: the program, and its commands without a window; a frozen program starts here, too."""

from __future__ import annotations

import runpy
import sys
from multiprocessing import freeze_support

from tutor.app.cli.command_line import main


def start() -> int:
    """Run what the arguments ask for; the exit status.

    A frozen program has no Python beside it. What it starts as ``python -m MODULE`` or as a process of
    multiprocessing's is the program itself, which then does that instead.
    """
    freeze_support()
    if getattr(sys, "frozen", False) and sys.argv[1:2] == ["-m"]:
        del sys.argv[:2]
        runpy.run_module(sys.argv[0], run_name="__main__", alter_sys=True)
        return 0
    return main()


if __name__ == "__main__":
    sys.exit(start())
